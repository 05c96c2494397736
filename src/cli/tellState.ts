import { limitName } from "../check/limits.ts";
import type { LimitName, LimitVerdict, StateAt } from "../check/result.ts";

const LIMIT_UNITS: Readonly<Record<LimitName, string>> = {
  "shaft-length": "mm",
  "inner-angle": "°",
  "outer-angle": "°",
  "damper-length": "mm",
  stop: "mm",
  strap: "mm",
  "coil-bind": "mm",
  "joint-tilt": "°",
  "joint-twist": "°",
  binds: "mm of travel",
};

/** One limit as a line: its worst value, the bound, where, and from which wheel height on it is passed. */
export function tellLimit(told: LimitVerdict): string {
  const { side, what, verdict, value, limit, at, passedAt_mm } = told;
  const unit = LIMIT_UNITS[what];
  const past = verdict === "clash";
  const isLeast = past ? value < limit : value > limit;
  const from = passedAt_mm === null || what === "binds" ? "" : `, from ${tellTravel(passedAt_mm)} on`;
  const bound = what === "binds" ? "wanted travel" : isLeast ? "at least" : "at most";
  return `${past ? "PAST  " : "ok    "} ${side} ${limitName(told)}: ${value.toFixed(1)} ${unit}, ${bound} ${limit.toFixed(1)}, at ${tellTravel(at.travel_mm)}, engine ${tellEngine(at)}${from}`;
}

export function tellState(at: StateAt): string {
  return `at ${tellTravel(at.travel_mm)}, engine ${tellEngine(at)}`;
}

export function tellEngine({ pose, share }: StateAt): string {
  return share === undefined ? pose : `${Math.round(100 * share)} % of the way to ${pose}`;
}

export function tellTravel(travel_mm: number): string {
  if (Math.abs(travel_mm) < 0.05) return "ride height";
  return travel_mm > 0 ? `+${travel_mm.toFixed(1)} bump` : `${travel_mm.toFixed(1)} droop`;
}

/** "+1.3", "−0.4". */
export function signed(value: number, digits = 1): string {
  return value < 0 ? `−${Math.abs(value).toFixed(digits)}` : `+${value.toFixed(digits)}`;
}

/** Rows under a head, every column as wide as its widest entry, numbers to the right. */
export function tellTable(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]!.length)));
  return [head, ...rows].map((row) => `  ${row.map((text, i) => text.padStart(widths[i]!)).join("  ")}`);
}

/** A figure, or a dash where it is not known. */
export function orDash(value: number | null, digits = 1): string {
  return value === null || Number.isNaN(value) ? "-" : value.toFixed(digits);
}
