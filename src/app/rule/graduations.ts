import type { Unit } from "../store/state.ts";
import { MM_PER_INCH } from "../words/number.ts";

/** One line on the rule. */
export interface Graduation {
  readonly travel_mm: number;
  readonly rank: "long" | "middle" | "short";
  /** Distance from ride height as it is written on a rule, without a sign; null: a bare line. */
  readonly label: string | null;
}

interface Steps {
  readonly short: number;
  readonly middle: number;
  readonly long: number;
}

/** Steps in the rule's own unit, finest first. */
const STEPS: Readonly<Record<Unit, readonly Steps[]>> = {
  mm: [
    { short: 1, middle: 5, long: 10 },
    { short: 2, middle: 10, long: 20 },
    { short: 5, middle: 10, long: 50 },
    { short: 10, middle: 50, long: 100 },
    { short: 50, middle: 100, long: 500 },
  ],
  in: [
    { short: 1 / 16, middle: 1 / 4, long: 1 / 2 },
    { short: 1 / 8, middle: 1 / 2, long: 1 },
    { short: 1 / 4, middle: 1 / 2, long: 2 },
    { short: 1 / 2, middle: 1, long: 5 },
    { short: 1, middle: 5, long: 20 },
  ],
};
const LEAST_SHORT_px = 3.4;
const LEAST_LONG_px = 34;

/** Lines of a rule from the droop end to the bump end, as fine as `height_px` lets the eye tell apart. */
export function graduations(from_mm: number, to_mm: number, height_px: number, unit: Unit): Graduation[] {
  const size_mm = unit === "in" ? MM_PER_INCH : 1;
  const px_per_mm = height_px / Math.max(to_mm - from_mm, 1e-9);
  const steps =
    STEPS[unit].find(
      ({ short, long }) => short * size_mm * px_per_mm >= LEAST_SHORT_px && long * size_mm * px_per_mm >= LEAST_LONG_px,
    ) ?? STEPS[unit].at(-1)!;
  const lines: Graduation[] = [];
  const first = Math.ceil(from_mm / size_mm / steps.short - 1e-9);
  const last = Math.floor(to_mm / size_mm / steps.short + 1e-9);
  const middleEvery = Math.round(steps.middle / steps.short);
  const longEvery = Math.round(steps.long / steps.short);
  for (let k = first; k <= last; k++) {
    const rank = k % longEvery === 0 ? "long" : k % middleEvery === 0 ? "middle" : "short";
    const value = Math.abs(k * steps.short);
    const half = rank === "middle" && unit === "in" && steps.middle === 0.5 && steps.long === 1;
    const label = rank === "long" || half ? written(value) : null;
    lines.push({ travel_mm: k * steps.short * size_mm, rank, label });
  }
  return lines;
}

function written(value: number): string {
  return value === 0.5 ? "½" : value % 1 === 0.5 ? `${Math.floor(value)}½` : String(value);
}
