import { BAR_mm } from "../../fabrication/templates/checkBars.ts";
import { SizeField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { chosenCorrection, scaleFor, useTemplates } from "./templatesStore.ts";

/** What the bars of the last print measured, and how much larger the next is drawn for it. */
export function PrinterFields() {
  const look = useTemplates();
  const unit = useApp((state) => state.unit);
  const correction = chosenCorrection(look);
  const isAsItIs = look.across_mm === BAR_mm && look.down_mm === BAR_mm;
  const percent = (scale: number) => (scale * 100).toFixed(1);
  const troubleOf = (measured_mm: number) => (scaleFor(measured_mm) === null ? t("templates.barOff") : null);
  return (
    <details className="loads-how">
      <summary>{t("templates.printer")}</summary>
      <p className="fine">{t("templates.printerNote")}</p>
      <SizeField
        label={t("templates.across")}
        value_mm={look.across_mm}
        unit={unit}
        trouble={troubleOf(look.across_mm)}
        onChange={(value) => useTemplates.setState({ across_mm: value })}
      />
      <SizeField
        label={t("templates.down")}
        value_mm={look.down_mm}
        unit={unit}
        trouble={troubleOf(look.down_mm)}
        onChange={(value) => useTemplates.setState({ down_mm: value })}
      />
      <p role="status">
        {isAsItIs
          ? t("templates.asItIs")
          : correction &&
            t("templates.corrected", { across: percent(correction.across), down: percent(correction.down) })}
      </p>
    </details>
  );
}
