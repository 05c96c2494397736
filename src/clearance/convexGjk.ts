import type { ConvexDifference } from "./convexDifference.ts";
import type { Simplex } from "./convexSimplex.ts";

/** Gaps below this share of the pieces' size are contact: what float64 leaves of zero. */
const CONTACT = 1e-12;
const LARGEST_ROUNDS = 256;

/**
 * Distance of two convex pieces by the algorithm of E. Gilbert, D. Johnson and S. Keerthi (A fast procedure for computing
 * the distance between complex objects, IEEE J. Robotics and Automation 4, 1988). Returns 0 where they overlap or touch;
 * with `untilApart`, any number above 0 as soon as they are known to be apart. `simplex` is left with the nearest points
 * of the difference and their weights.
 */
export function gjkDistance(difference: ConvexDifference, simplex: Simplex, untilApart: boolean): number {
  const { direction, farthest } = difference;
  const contact = CONTACT * difference.scale;
  direction[0] = 1;
  direction[1] = 0;
  direction[2] = 0;
  difference.support();
  simplex.count = 0;
  simplex.add(difference);
  simplex.reduce();
  for (let round = 0; round < LARGEST_ROUNDS; round++) {
    const squared = simplex.nearestSquared;
    const distance = Math.sqrt(squared);
    if (distance <= contact) return 0;
    // towards the origin from the nearest point
    for (let k = 0; k < 3; k++) direction[k] = -simplex.nearest[k]! / distance;
    difference.support();
    // The whole difference lies beyond the plane through its farthest point.
    const reach = direction[0]! * farthest[0]! + direction[1]! * farthest[1]! + direction[2]! * farthest[2]!;
    if (untilApart && -reach > contact) return -reach;
    if (reach + distance <= 1e-12 * distance || simplex.holds(difference.indexA, difference.indexB)) return distance;
    simplex.add(difference);
    if (simplex.reduce()) return 0;
    // Rounding has brought it to a stop.
    if (simplex.nearestSquared >= squared) return distance;
  }
  return Math.sqrt(simplex.nearestSquared);
}
