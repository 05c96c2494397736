import { PlainField, SizeField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { turned, useTemplates } from "./templatesStore.ts";

/** What a radius begins with once it is asked for, mm; common practice, no source. */
const USUAL_RADIUS_mm = 5;

/** Where the neutral line of a bend lies, how round it is, and which parts come from one plate. */
export function FoldingFields({ parts }: { parts: readonly string[] }) {
  const { folding, folded } = useTemplates();
  const unit = useApp((state) => state.unit);
  const { kFactor, inside_mm } = folding;
  const set = (part: Partial<typeof folding>) => useTemplates.setState({ folding: { ...folding, ...part } });
  return (
    <details className="loads-how">
      <summary>{t("templates.folding")}</summary>
      {parts.map((part) => (
        <label key={part} className="check-line">
          <input
            type="checkbox"
            checked={folded.includes(part)}
            onChange={() => useTemplates.setState({ folded: turned(folded, part) })}
          />
          <span>{t("templates.foldIt", { part })}</span>
        </label>
      ))}
      <PlainField
        label={t("templates.kFactor")}
        value={kFactor}
        unit={t("templates.kFactorUnit")}
        step={0.01}
        trouble={kFactor >= 0 && kFactor <= 0.5 ? null : t("templates.kFactorOff")}
        onChange={(value) => set({ kFactor: value })}
      />
      <label className="check-line">
        <input
          type="checkbox"
          checked={inside_mm === null}
          onChange={(event) => set({ inside_mm: event.target.checked ? null : USUAL_RADIUS_mm })}
        />
        <span>{t("templates.asThick")}</span>
      </label>
      {inside_mm !== null && (
        <SizeField
          label={t("templates.insideRadius")}
          value_mm={inside_mm}
          unit={unit}
          trouble={null}
          onChange={(value) => set({ inside_mm: value })}
        />
      )}
    </details>
  );
}
