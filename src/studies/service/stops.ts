import type { Vec3 } from "../../maths/vec3.ts";
import { END_mm, type Meeting, type Sweeps } from "./sweeps.ts";

/** Bodies nearer than this from the start are fitted to each other. */
const FITTED_mm = 0.1;
/** How much deeper fitted bodies may get: what round shapes are drawn too large, and what a depth that is sampled is told to. */
const DEEPER = { least_mm: 0.5, sampled_mm: 1, share: 0.05 };

/** Places that are looked at first where any will do. */
const LOOKS = 8;

export interface StopPlace {
  readonly at_mm: number;
  /** Where the two touch, car coordinates. */
  readonly where: Vec3;
}

/**
 * Where on [0, length] a body on its way is first nearer than `within_mm` to one that stands (0: overlaps it). Bodies that are so from
 * the start are fitted to each other: they stop the way only where they get deeper, or back in. null: nowhere.
 * `isAny`: any place will do that stops it, which is often found sooner.
 */
export function stopOf(
  sweeps: Sweeps,
  meeting: Meeting,
  length_mm: number,
  within_mm: number,
  isAny = false,
): StopPlace | null {
  const at_mm = sweeps.firstBelow(meeting, 0, length_mm, within_mm);
  if (at_mm === null) return null;
  const start = sweeps.below(meeting, 0, 0, within_mm + FITTED_mm);
  if (start === null) return { at_mm, where: touchAt(sweeps, meeting, at_mm) };
  const least_mm = start.measure === "sampled" ? DEEPER.sampled_mm : DEEPER.least_mm;
  const fitted_mm = Math.min(0, start.clearance_mm);
  const fittedLimit_mm = fitted_mm - Math.max(least_mm, -fitted_mm * DEEPER.share);
  for (let i = 1; isAny && i <= LOOKS; i++) {
    const at = (length_mm * i) / LOOKS;
    const there = sweeps.below(meeting, at, at, 0);
    if (there !== null && there.clearance_mm < fittedLimit_mm) return { at_mm: at, where: there.pointA };
  }
  for (const [from, to] of sweeps.blocked(meeting, 0, length_mm, within_mm)) {
    // once they have come clear of each other, they may not go back in
    const limit_mm = from <= END_mm ? fittedLimit_mm : -least_mm;
    const deeper_mm = sweeps.firstBelow(meeting, from, to, limit_mm);
    if (deeper_mm !== null) return { at_mm: deeper_mm, where: touchAt(sweeps, meeting, deeper_mm) };
  }
  return null;
}

function touchAt(sweeps: Sweeps, meeting: Meeting, at_mm: number): Vec3 {
  return sweeps.below(meeting, at_mm, at_mm, Number.POSITIVE_INFINITY)?.pointA ?? [0, 0, 0];
}
