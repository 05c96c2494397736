import { useMemo } from "react";
import { ledgerRows } from "../corner/ledgerRows.ts";
import { Picker } from "../parts/Picker.tsx";
import { PlainField, SizeField } from "../parts/SizeField.tsx";
import { pointInfos } from "../points/pointInfo.ts";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { StudyLine, useIsOutdated } from "../studies/StudyLine.tsx";
import { t } from "../text/text.ts";
import { MoveList } from "./MoveList.tsx";
import { type FitChoice, movesQuestion, movesStudy, useMovesLook } from "./movesStore.ts";
import { pairText } from "./moveText.ts";
import "../corner/ledger.css";
import "../gear/gear.css";
import "../loads/loads.css";
import "../points/point.css";
import "./moves.css";

const FITS = (["either", "cut", "bolted"] as const).map((value) => ({ value, name: t(`moves.fits.${value}`) }));
const ALL = "";

/** The smallest moves that clear a pair, or all pairs: what is asked, and what was found. */
export function MovesPanel() {
  const document = useApp((state) => state.document);
  const look = useMovesLook();
  const question = useMemo(() => document && movesQuestion(document, look), [document, look]);
  const isOutdated = useIsOutdated(movesStudy, question);
  const told = movesStudy.use((state) => state.told);
  if (!document) return null;
  return (
    <div className="loads-scroll moves-panel">
      <Asked />
      <StudyLine study={movesStudy} question={question} go={t("moves.go")} again={t("moves.again")} />
      <Narrowed />
      {told && <MoveList told={told} isOutdated={isOutdated} />}
      <p className="tool-note">{t("moves.caution")}</p>
    </div>
  );
}

function Asked() {
  const { pair, fit } = useMovesLook();
  const scene = useApp((state) => state.scene);
  // while a move is tried its own verdicts are shown: what is asked about is the car as it is kept
  const result = useApp((state) => state.resultBefore ?? state.result);
  const names = useMemo(() => {
    const open = result ? ledgerRows(result).flatMap((row) => ("pair" in row ? [row] : [])) : [];
    const failing = open.filter(({ kind }) => kind === "clash" || kind === "tight");
    return [...new Set(failing.map((row) => `${row.pair.a}/${row.pair.b}`))];
  }, [result]);
  const items = [...names, ...(pair === null || names.includes(pair) ? [] : [pair])].map((value) => {
    const [a = "", b = ""] = value.split("/");
    return { value, label: pairText({ a, b }, scene) };
  });
  return (
    <div className="moves-asked">
      <Picker
        label={t("moves.pair")}
        items={[{ value: ALL, label: t("moves.all") }, ...items]}
        value={pair ?? ALL}
        onPick={(picked) => useMovesLook.setState({ pair: picked === ALL ? null : picked })}
      />
      <Choices
        label={t("moves.fit")}
        options={FITS}
        value={fit}
        onChoose={(chosen: FitChoice) => useMovesLook.setState({ fit: chosen })}
      />
    </div>
  );
}

/** What few change, folded away. */
function Narrowed() {
  const within_mm = useMovesLook((look) => look.within_mm);
  const unit = useApp((state) => state.unit);
  return (
    <details className="loads-how">
      <summary>{t("moves.more")}</summary>
      <SizeField
        label={t("moves.within")}
        value_mm={within_mm}
        unit={unit}
        trouble={null}
        onChange={(value) => useMovesLook.setState({ within_mm: Math.max(value, LEAST_WITHIN_mm) })}
      />
      <Points />
      <MustHold />
    </details>
  );
}

/** Moves are looked for in steps of a millimetre. */
const LEAST_WITHIN_mm = 1;

/** Which points may move: all mounts until the builder takes some out. */
function Points() {
  const document = useApp((state) => state.document);
  const points = useMovesLook((look) => look.points);
  const infos = document ? pointInfos(document).filter(({ side }) => side === "chassis") : [];
  const chosen = points ?? infos.map(({ name }) => name);
  const toggle = (name: string, isOn: boolean) => {
    const next = infos.flatMap((info) => ((info.name === name ? isOn : chosen.includes(info.name)) ? [info.name] : []));
    if (next.length > 0) useMovesLook.setState({ points: next.length === infos.length ? null : next });
  };
  return (
    <fieldset className="study-ticks">
      <legend>{t("moves.points")}</legend>
      <p className="tool-note">{t("moves.pointsNote")}</p>
      {infos.map(({ name, title }) => (
        <label key={name} className="study-tick">
          <input
            type="checkbox"
            checked={chosen.includes(name)}
            onChange={(event) => toggle(name, event.target.checked)}
          />
          <span>{title}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** What a limit begins with when it is asked for: common practice, no source. */
const USUAL = { toeChange_deg: 0.5, camber_deg: [-3, 1], halfTrackChange_mm: 15 } as const;

/** What has to hold beside the clearances and the scene's own limits. */
function MustHold() {
  const limits = useMovesLook((look) => look.limits);
  const unit = useApp((state) => state.unit);
  const set = (part: typeof limits) => useMovesLook.setState({ limits: { ...limits, ...part } });
  const drop = (key: keyof typeof limits) => {
    const { [key]: _, ...rest } = limits;
    useMovesLook.setState({ limits: rest });
  };
  const tick = (key: keyof typeof limits) => (
    <label className="study-tick">
      <input
        type="checkbox"
        checked={limits[key] !== undefined}
        onChange={(event) => (event.target.checked ? set({ [key]: USUAL[key] }) : drop(key))}
      />
      <span>{t(`moves.hold.${key}`)}</span>
    </label>
  );
  const degrees = t("parts.fields.degrees");
  return (
    <fieldset className="study-ticks">
      <legend>{t("moves.mustHold")}</legend>
      {tick("toeChange_deg")}
      {limits.toeChange_deg !== undefined && (
        <PlainField
          label={t("moves.holdFields.toeChange")}
          value={limits.toeChange_deg}
          unit={degrees}
          step={0.05}
          trouble={null}
          onChange={(value) => set({ toeChange_deg: Math.max(0, value) })}
        />
      )}
      {tick("camber_deg")}
      {limits.camber_deg !== undefined &&
        (["least", "most"] as const).map((end, i) => (
          <PlainField
            key={end}
            label={t(`moves.holdFields.${end}`)}
            value={limits.camber_deg![i]!}
            unit={degrees}
            step={0.25}
            trouble={null}
            onChange={(value) => {
              const [least, most] = limits.camber_deg!;
              set({ camber_deg: i === 0 ? [Math.min(value, most), most] : [least, Math.max(value, least)] });
            }}
          />
        ))}
      {tick("halfTrackChange_mm")}
      {limits.halfTrackChange_mm !== undefined && (
        <SizeField
          label={t("moves.holdFields.halfTrack")}
          value_mm={limits.halfTrackChange_mm}
          unit={unit}
          trouble={null}
          onChange={(value) => set({ halfTrackChange_mm: value })}
        />
      )}
    </fieldset>
  );
}
