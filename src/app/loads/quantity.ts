import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { numberText } from "../words/number.ts";

/** Exact: the international pound, standard gravity, the inch. */
export const KG_PER_LB = 0.453_592_37;
export const N_PER_LBF = KG_PER_LB * 9.806_65;
const NMM_PER_LBF_FT = N_PER_LBF * 304.8;
export const MPA_PER_KSI = (1000 * N_PER_LBF) / 25.4 ** 2;

/** A force with one place where it is needed: "4.21 kN", "320 N"; "946 lbf" with inches. */
export function forceText(force_N: number, unit: Unit, signed = false): string {
  if (unit === "in") return t("loads.values.lbf", { value: numberText(force_N / N_PER_LBF, { digits: 0, signed }) });
  if (Math.abs(force_N) < 999.5) return t("loads.values.N", { value: numberText(force_N, { digits: 0, signed }) });
  return t("loads.values.kN", { value: numberText(force_N / 1000, { digits: 2, signed }) });
}

/** A round force without places behind the point: "2 kN", "0.5 N". */
export function roundForceText(force_N: number, unit: Unit): string {
  if (unit === "in") return t("loads.values.lbf", { value: round(force_N / N_PER_LBF) });
  return force_N >= 1000
    ? t("loads.values.kN", { value: round(force_N / 1000) })
    : t("loads.values.N", { value: round(force_N) });
}

function round(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** A moment: "12 N·m", "9 lbf·ft". */
export function momentText(moment_Nmm: number, unit: Unit): string {
  if (unit === "in") return t("loads.values.lbfft", { value: numberText(moment_Nmm / NMM_PER_LBF_FT, { digits: 0 }) });
  return t("loads.values.Nm", { value: numberText(moment_Nmm / 1000, { digits: 0 }) });
}

export function massText(mass_kg: number, unit: Unit): string {
  if (unit === "in") return t("loads.values.lb", { value: numberText(mass_kg / KG_PER_LB, { digits: 0 }) });
  return t("loads.values.kg", { value: numberText(mass_kg, { digits: Number.isInteger(mass_kg) ? 0 : 1 }) });
}

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** A number far below one as "2 × 10⁻¹⁰"; nothing stays "0". */
export function tinyText(value: number): string {
  if (value === 0) return "0";
  const [digits, power] = value.toExponential(0).split("e") as [string, string];
  const raised = [...power.replace("+", "")].map((sign) => (sign === "-" ? "⁻" : RAISED[Number(sign)])).join("");
  return `${digits} × 10${raised}`;
}

/** Four figures that count: more than any input is known to. */
export function figureText(value: number): string {
  const figure = Number(value.toPrecision(4));
  return (
    Math.abs(figure) >= 10_000 ? figure.toLocaleString("en-GB").replaceAll(",", "\u202f") : String(figure)
  ).replace("-", "−");
}

const UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ["_Nmm", "N·mm"],
  ["_N", "N"],
  ["_mm2", "mm²"],
  ["_mm3", "mm³"],
  ["_mm4", "mm⁴"],
  ["_mm", "mm"],
  ["_MPa", "MPa"],
];

/** Inputs whose name is a word, or is written otherwise in the formulas. */
const SIGNS = [
  "wall",
  "bow",
  "plates",
  "runs",
  "planes",
  "class",
  "capacity",
  "across",
  "along",
  "FvRd_per_plane",
  "gammaM0",
  "gammaM2",
  "betaW",
] as const;

/** An input of a formula by its name in the core: "Sy_MPa" as the sign and its unit. */
export function inputName(key: string): { readonly sign: string; readonly unit: string } {
  const found = UNITS.find(([ending]) => key.endsWith(ending));
  const bare = found ? key.slice(0, -found[0].length) : key;
  const sign = SIGNS.find((each) => each === bare);
  return { sign: sign ? t(`loads.signs.${sign}`) : bare, unit: found?.[1] ?? "" };
}
