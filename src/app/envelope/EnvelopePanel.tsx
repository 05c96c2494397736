import { bodyText } from "../measure/measureWords.ts";
import { nameOfBody } from "../measure/pickUnder.ts";
import { Picker } from "../parts/Picker.tsx";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { ACCURACIES_mm, useEnvelope } from "./envelopeStore.ts";

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
        label={t("envelope.part")}
        items={[{ value: "", label: t("envelope.none") }, ...items]}
        value={key ?? ""}
        onPick={(picked) => useEnvelope.setState({ key: picked === "" ? null : picked })}
      />
      <Picker
        label={t("envelope.on")}
        items={[{ value: "", label: t("envelope.frame") }, ...items.filter(({ value }) => value !== key)]}
        value={on ?? ""}
        onPick={(picked) => useEnvelope.setState({ on: picked === "" ? null : picked })}
      />
      <span className="quiet">{t("envelope.accuracy")}</span>
      <Choices
        label={t("envelope.accuracy")}
        options={ACCURACIES_mm.map((value) => ({
          value: String(value),
          name: lengthText(value, unit, { digits: unit === "in" ? 2 : 0 }),
        }))}
        value={String(accuracy_mm)}
        onChoose={(value) => useEnvelope.setState({ accuracy_mm: Number(value) })}
      />
      <p className="tool-prompt" role="status">
        {progress !== null &&
          t(`envelope.${shown ? "makingAgain" : "making"}`, { percent: Math.round(100 * progress) })}
        {progress === null && trouble !== null && t(`envelope.trouble.${trouble}`)}
        {progress === null &&
          trouble === null &&
          shown &&
          t("envelope.told", { size: lengthText(shown.envelope.accuracy_mm, unit) })}
      </p>
      {progress !== null && (
        <button type="button" className="button" onClick={() => useEnvelope.setState({ trouble: "stopped" })}>
          {t("envelope.stop")}
        </button>
      )}
      <p className="tool-note">{t("envelope.note")}</p>
    </>
  );
}
