import { KG_PER_LB, N_PER_LBF } from "../loads/quantity.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { MM_PER_INCH, numberText } from "../words/number.ts";

/** A rate: "24.3 N/mm", "139 lbf/in". */
export function rateText(rate_N_per_mm: number, unit: Unit, signed = false): string {
  return unit === "in"
    ? t("gear.values.lbfPerIn", { value: numberText(rateInShown(rate_N_per_mm, unit), { digits: 0, signed }) })
    : t("gear.values.NPerMm", { value: numberText(rate_N_per_mm, { digits: 1, signed }) });
}

/** In N/mm, or in lbf/in with inches. */
export function rateInShown(rate_N_per_mm: number, unit: Unit): number {
  return unit === "in" ? (rate_N_per_mm * MM_PER_INCH) / N_PER_LBF : rate_N_per_mm;
}

/** Whole kilograms or pounds. */
export function weightText(mass_kg: number, unit: Unit): string {
  return unit === "in"
    ? t("loads.values.lb", { value: numberText(mass_kg / KG_PER_LB, { digits: 0 }) })
    : t("loads.values.kg", { value: numberText(mass_kg, { digits: 0 }) });
}
