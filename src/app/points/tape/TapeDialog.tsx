import { Dialog } from "@base-ui/react/dialog";
import { memo, useMemo, useState } from "react";
import type { SceneDocument } from "../../../scene/document.ts";
import { formatLength } from "../../../scene/length.ts";
import type { Side } from "../../../scene/scene.ts";
import type { TapedPlace } from "../../../scene/tape.ts";
import { suspectTape, type TapeSuspicion } from "../../../scene/tapeSuspects.ts";
import { Choices } from "../../shell/Choices.tsx";
import { useApp } from "../../store/useApp.ts";
import { t } from "../../text/text.ts";
import { datumName } from "../DatumChooser.tsx";
import { MEANINGS } from "../MeaningChooser.tsx";
import { type Meaning, type PointInfo, pointInfos } from "../pointInfo.ts";
import { usePointsLook } from "../pointsStore.ts";
import { datumOf } from "../usePointMove.ts";
import { keepTape } from "./keepTape.ts";
import { spreadsOf, TapeResult } from "./TapeResult.tsx";
import { TapeRow } from "./TapeRow.tsx";
import {
  ACCURACY_FAULT,
  beginDraft,
  blankLine,
  type DraftTape,
  readDraft,
  type TapeSetting,
  thoughtPlace,
} from "./tapeDraft.ts";
import { placeByTape, useTape } from "./tapeStore.ts";
import "./tape.css";

const NOTHING_SAID: TapeSuspicion = { isFlagged: false, suspect: null, isOneOfSeveral: false, opinions: [] };
const MOST = 12;

/** Places a point by its distances from studs, on either side of the car. */
export const TapeDialog = memo(function TapeDialog() {
  const placing = useTape((tape) => tape.placing);
  const document = useApp((state) => state.document);
  const info = document && placing && pointInfos(document).find(({ name }) => name === placing.point);
  return (
    <Dialog.Root open={Boolean(info)} onOpenChange={(open) => !open && close()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog tape-dialog">
          {info && <TapeForm key={placing.side} info={info} side={placing.side} document={document} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
});

function close(): void {
  useTape.setState({ placing: null });
}

const SIDES = (["left", "right"] as const).map((value) => ({ value, name: t(`points.tape.sides.${value}`) }));

function TapeForm({ info, side, document }: { info: PointInfo; side: Side; document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const scene = useApp((state) => state.scene);
  const datumId = usePointsLook((look) => look.datumId);
  const datum = datumOf(scene, datumId);
  const setting: TapeSetting = useMemo(
    () => ({ document, point: info.name, side, datum, unit }),
    [document, info.name, side, datum, unit],
  );
  const [draft, setDraft] = useState(() => beginDraft(setting));
  const [wanted, setChosen] = useState(0);
  const [kept, setKept] = useState<{ readonly place: TapedPlace; readonly refusal: string } | null>(null);
  const [meaning, setMeaning] = useState<Meaning>("measured");
  const reading = useMemo(() => readDraft(draft, setting), [draft, setting]);
  const { fix, tapes, accuracy_mm, faults, refusal } = reading;
  const chosen = fix && wanted < fix.places.length ? wanted : 0;
  const place = fix?.places[chosen] ?? null;
  const suspicion = useMemo(
    () => (place ? suspectTape(tapes, accuracy_mm, place) : NOTHING_SAID),
    [place, tapes, accuracy_mm],
  );
  const change = (line: DraftTape) =>
    setDraft({ ...draft, lines: draft.lines.map((old) => (old.key === line.key ? line : old)) });
  const add = () =>
    setDraft({ ...draft, lines: [...draft.lines, blankLine(1 + Math.max(...draft.lines.map(({ key }) => key)))] });
  const studs = pointInfos(document).filter(({ name }) => name !== info.name);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (!place) return;
        const spread_mm = Math.max(...spreadsOf(place, datum, side));
        const refusal = keepTape(info, setting, reading, place, spread_mm, meaning);
        if (refusal === null) close();
        else setKept({ place, refusal });
      }}
    >
      <Dialog.Title>{t("points.tape.title", { point: info.title })}</Dialog.Title>
      <Dialog.Description className="lead">
        {datum ? t("points.tape.leadDatum", { datum: datumName(datum.id) }) : t("points.tape.lead")}
      </Dialog.Description>
      <div className="tape-head">
        {scene?.sides.length === 2 && (
          <Choices
            label={t("points.tape.side")}
            options={SIDES}
            value={side}
            onChoose={(next) => placeByTape(info.name, next)}
          />
        )}
        <label className="tape-field accuracy">
          {t("points.tape.accuracy", { unit })}
          <input
            className="field"
            value={draft.accuracy}
            aria-invalid={faults.has(ACCURACY_FAULT)}
            title={faults.get(ACCURACY_FAULT)}
            autoComplete="off"
            onChange={(event) => setDraft({ ...draft, accuracy: event.target.value })}
          />
        </label>
      </div>
      <div className="tape-columns">
        <div>
          <ol className="tape-rows">
            {draft.lines.map((line, i) => {
              const solved = fix ? tapes.findIndex(({ key }) => key === line.key) : -1;
              return (
                <TapeRow
                  key={line.key}
                  line={line}
                  number={i + 1}
                  unit={unit}
                  studs={studs}
                  faults={faults}
                  leftOver_mm={(solved >= 0 && place?.leftOver_mm[solved]) || (solved >= 0 ? 0 : null)}
                  opinion={(suspicion.isFlagged && suspicion.opinions[solved]) || null}
                  isSuspect={solved >= 0 && suspicion.suspect === solved}
                  canGo={draft.lines.length > 3}
                  onChange={change}
                  onGo={() => setDraft({ ...draft, lines: draft.lines.filter(({ key }) => key !== line.key) })}
                />
              );
            })}
          </ol>
          <button type="button" className="button" disabled={draft.lines.length >= MOST} onClick={add}>
            {t("points.tape.add")}
          </button>
        </div>
        <div>
          {refusal && (
            <p className="point-error" role="alert">
              {refusal}
            </p>
          )}
          {!fix && !refusal && <p className="quiet tape-waits">{t("points.tape.waits")}</p>}
          {fix && (
            <TapeResult
              setting={setting}
              reading={reading}
              fix={fix}
              chosen={chosen}
              suspicion={suspicion}
              thought={thoughtPlace(setting)}
              onChoose={setChosen}
              onMend={(key, length_mm) => {
                const line = draft.lines.find((one) => one.key === key);
                if (line) change({ ...line, length: formatLength(length_mm, unit).replace("−", "-") });
              }}
            />
          )}
        </div>
      </div>
      <TapeMeaning info={info} side={side} meaning={meaning} onChoose={setMeaning} />
      {kept !== null && kept.place === place && (
        <p className="point-error" role="alert">
          {kept.refusal}
        </p>
      )}
      <div className="dialog-buttons">
        <Dialog.Close className="button">{t("points.tape.leave")}</Dialog.Close>
        <button type="submit" className="button go" disabled={!place}>
          {t("points.tape.use")}
        </button>
      </div>
    </form>
  );
}

interface TapeMeaningProps {
  readonly info: PointInfo;
  readonly side: Side;
  readonly meaning: Meaning;
  onChoose(meaning: Meaning): void;
}

function TapeMeaning({ info, side, meaning, onChoose }: TapeMeaningProps) {
  if (side === "right") {
    return <p className="small tape-meaning">{t("points.tape.right")}</p>;
  }
  const allowed = MEANINGS.filter(({ value }) => info.refusals[value] === null);
  return (
    <div className="tape-meaning">
      <Choices label={t("points.meaning.label")} options={allowed} value={meaning} onChoose={onChoose} />
      <p className="small">{MEANINGS.find(({ value }) => value === meaning)?.says}</p>
    </div>
  );
}
