import type { ClearanceSpread } from "../../studies/jig/clearances.ts";

/** Whether it misses what it wants, or may if all goes wrong; what is not known may. */
export function mayMiss({ clearance_mm, worst_mm, required_mm }: ClearanceSpread): boolean {
  return !(clearance_mm - worst_mm >= required_mm);
}

/** One axis for all rows, from a little below the least to beyond the greatest; touching is always on it. */
export function gapAxis(gaps: readonly ClearanceSpread[]): readonly [number, number] {
  const ends = gaps.flatMap(({ clearance_mm, worst_mm, required_mm }) => {
    const worst = Number.isFinite(worst_mm) ? worst_mm : 0;
    return [clearance_mm - worst, clearance_mm + worst, required_mm];
  });
  const [low, high] = [Math.min(0, ...ends), Math.max(1, ...ends)];
  const air = 0.04 * (high - low);
  return [low - air, high + air];
}
