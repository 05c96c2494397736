import { withMeasureHidden, withoutMeasure } from "../../scene/measures.ts";
import { Picker } from "../parts/Picker.tsx";
import { pointInfos } from "../points/pointInfo.ts";
import { Choices } from "../shell/Choices.tsx";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { pickedText } from "./MeasureMarks.tsx";
import { bodyText, endsText, promptText, readingText } from "./measureWords.ts";

import { addPick, chooseKind, takeBack, useMeasuring } from "./measuring.ts";
import { nameOfBody } from "./pickUnder.ts";
import type { MeasureView, ShownMeasure } from "./useMeasureView.ts";

const KINDS = ["distance", "gap", "angle", "lines"] as const;
const ORDER = ["first", "second", "third"];

/** What is measured next, and the list of what is pinned. */
export function MeasurePanel({ view }: { view: MeasureView }) {
  const kind = useMeasuring((state) => state.kind);
  const picks = useMeasuring((state) => state.picks);
  const refusal = useMeasuring((state) => state.refusal);
  const document = useApp((state) => state.document);
  return (
    <>
      <Choices
        label={t("measure.kindLabel")}
        options={KINDS.map((value) => ({ value, name: t(`measure.kinds.${value}`) }))}
        value={kind}
        onChoose={(value) => chooseKind(value)}
      />
      <ol className="tool-picks">
        {picks.map((pick, i) => (
          <li key={ORDER[i]}>{pickedText(pick, document)}</li>
        ))}
      </ol>
      <p className="tool-prompt" role="status">
        {refusal && <b>{refusal} </b>}
        {promptText(kind, picks.length)}
      </p>
      <ByName />
      {picks.length > 0 && (
        <button type="button" className="button plain" onClick={() => takeBack()}>
          {t("measure.takeBack")}
        </button>
      )}
      <p className="tool-note">{kind === "gap" ? t("measure.gapCounts") : t("measure.snaps")}</p>
      <PinnedList measures={view.measures} />
    </>
  );
}

/** Without a pointer: hard points and parts by their names. */
function ByName() {
  const kind = useMeasuring((state) => state.kind);
  const document = useApp((state) => state.document);
  const bodies = useApp((state) => state.bodies);
  if (!document || kind === "lines") return null;
  if (kind === "gap") {
    const items = bodies.map((body) => ({ value: body.key, label: bodyText(nameOfBody(body), document) }));
    return (
      <Picker
        label={t("measure.byPart")}
        items={[{ value: "", label: t("measure.choose") }, ...items]}
        value=""
        onPick={(key) => {
          const body = bodies.find((each) => each.key === key);
          if (body) addPick({ what: "body", body: nameOfBody(body) });
        }}
      />
    );
  }
  const items = pointInfos(document).map(({ name, title }) => ({ value: name, label: title }));
  return (
    <Picker
      label={t("measure.byPoint")}
      items={[{ value: "", label: t("measure.choose") }, ...items]}
      value=""
      onPick={(point) => point && addPick({ what: "spot", spot: { point } })}
    />
  );
}

function PinnedList({ measures }: { measures: readonly ShownMeasure[] }) {
  if (measures.length === 0) return <p className="tool-note">{t("measure.none")}</p>;
  return (
    <ul className="measure-list" aria-label={t("measure.list")}>
      {measures.map((shown) => (
        <PinnedRow key={shown.measure.id} shown={shown} />
      ))}
    </ul>
  );
}

function PinnedRow({ shown: { measure, reading, gap } }: { shown: ShownMeasure }) {
  const unit = useApp((state) => state.unit);
  const document = useApp((state) => state.document);
  const { value, more } = readingText(reading, gap, unit);
  const { id, hidden = false } = measure;
  const toggle = hidden ? "show" : "hide";
  const { editAside } = app.getState();
  return (
    <li className="measure-row" data-hidden={hidden}>
      <p>
        <small>
          {id}. {endsText(measure, document)}
        </small>
        <b className="tabular">{value}</b>
        {more && <small className="tabular">{more}</small>}
      </p>
      <span className="row-buttons">
        <button
          type="button"
          className="button plain"
          aria-label={t(`measure.labels.${toggle}`, { number: id })}
          onClick={() =>
            editAside(t(`measure.steps.${toggle}`, { number: id }), (document) =>
              withMeasureHidden(document, id, !hidden),
            )
          }
        >
          {t(`measure.buttons.${toggle}`)}
        </button>
        <button
          type="button"
          className="button plain"
          aria-label={t("measure.labels.remove", { number: id })}
          onClick={() =>
            editAside(t("measure.steps.remove", { number: id }), (document) => withoutMeasure(document, id))
          }
        >
          {t("measure.buttons.remove")}
        </button>
      </span>
    </li>
  );
}
