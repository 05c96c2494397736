/**
 * Lower bound of the signed clearance between two states of clearance g0 and g1 (or more) that are `path` apart. `sagAt`:
 * how far the distance sags below its chord at most if it is nowhere less than a number above 0.
 */
export function lowestBetween(g0: number, g1: number, path: number, sagAt: (least_mm: number) => number): number {
  if (Math.min(g0, g1) === Number.POSITIVE_INFINITY) return g0;
  let lower = Math.min(g0, g1, (g0 + g1 - path) / 2);
  // the better the bound, the less the chord can sag: each round is proved by the one before
  for (let round = 0; round < 4 && lower > 0; round++) {
    const better = lowestBelowChord(g0, g1, sagAt(lower));
    if (better <= lower) break;
    lower = better;
  }
  return lower;
}

/**
 * The least of g0 + (g1 − g0)·s − 4·sag·s·(1 − s) over s in [0, 1]: both the bend and the jumps of MotionBound.sag lower a
 * chord by no more than that share of it.
 */
export function lowestBelowChord(g0: number, g1: number, sag: number): number {
  const slope = Math.abs(g1 - g0);
  if (slope >= 4 * sag) return Math.min(g0, g1);
  const lean = slope / (4 * sag);
  return (g0 + g1) / 2 - sag * (1 + lean * lean);
}

/**
 * What one end must have above a floor, where the other may be at it, so that no clearance between is below the floor. Four
 * times the sag keep the chord's lowest point at its lower end; where that cannot be proved, the path does.
 */
export function needAbove(floor_mm: number, path: number, sagAt: (least_mm: number) => number): number {
  if (floor_mm <= 0) return path;
  const little = 4 * sagAt(floor_mm);
  return little < path && lowestBetween(floor_mm, floor_mm + little, path, sagAt) >= floor_mm - ROUNDING_mm
    ? little
    : path;
}

const ROUNDING_mm = 1e-6;
