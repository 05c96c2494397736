import { bodyText } from "../measure/measureWords.ts";
import { nameOfBody } from "../measure/pickUnder.ts";
import { Picker } from "../parts/Picker.tsx";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { ACCURACIES_mm, useEnvelope } from "./envelopeStore.ts";
import { envelopeWords } from "./envelopeWords.ts";

/** Whose swept room is shown, as seen from what, and how it comes on. */
export function EnvelopePanel() {
  const { key, on, accuracy_mm, shown, progress, trouble } = useEnvelope();
  const unit = useApp((state) => state.unit);
  const document = useApp((state) => state.document);
  const bodies = useApp((state) => state.bodies);
  const items = bodies
    .filter(({ mount, key: each }) => mount !== "chassis" && each !== on)
    .map((body) => ({ value: body.key, label: bodyText(nameOfBody(body), document) }));
  return (
    <>
      <Picker
        label={envelopeWords.part}
        items={[{ value: "", label: envelopeWords.none }, ...items]}
        value={key ?? ""}
        onPick={(picked) => useEnvelope.setState({ key: picked === "" ? null : picked })}
      />
      <Picker
        label={envelopeWords.on}
        items={[{ value: "", label: envelopeWords.frame }, ...items.filter(({ value }) => value !== key)]}
        value={on ?? ""}
        onPick={(picked) => useEnvelope.setState({ on: picked === "" ? null : picked })}
      />
      <span className="quiet">{envelopeWords.accuracy}</span>
      <Choices
        label={envelopeWords.accuracy}
        options={ACCURACIES_mm.map((value) => ({
          value: String(value),
          name: envelopeWords.accuracyText(value, unit),
        }))}
        value={String(accuracy_mm)}
        onChoose={(value) => useEnvelope.setState({ accuracy_mm: Number(value) })}
      />
      <p className="tool-prompt" role="status">
        {progress !== null && (
          <>
            {envelopeWords.making(progress)} {shown && envelopeWords.before}
          </>
        )}
        {progress === null && trouble !== null && envelopeWords[trouble]}
        {progress === null && trouble === null && shown && envelopeWords.told(shown.envelope.accuracy_mm, unit)}
      </p>
      {progress !== null && (
        <button type="button" className="button" onClick={() => useEnvelope.setState({ trouble: "stopped" })}>
          {envelopeWords.stop}
        </button>
      )}
      <p className="tool-note">{envelopeWords.note}</p>
    </>
  );
}
