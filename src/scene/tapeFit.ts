import { addOuter, applySym3, invertSym3, sumOfOuter } from "../maths/sym3.ts";
import { add, distance, length, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Tape } from "./tape.ts";

const MOST_ROUNDS = 300;
const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Tape length less distance, mm. */
export function leftOver(tapes: readonly Tape[], at: Vec3): number[] {
  return tapes.map(({ stud, length_mm }) => length_mm - distance(stud, at));
}

/** Unit vectors from the studs to the point: how each distance grows as the point moves. */
export function directionsFrom(tapes: readonly Tape[], at: Vec3): Vec3[] {
  return tapes.map(({ stud }) => {
    const away = subtract(at, stud);
    const far = length(away);
    return far === 0 ? [0, 0, 1] : scale(away, 1 / far);
  });
}

/**
 * The point near `from` at which the sum of squares of what is left over is least, car coordinates, mm: Gauss–Newton steps
 * with Levenberg's damping (Levenberg 1944, Marquardt 1963), until a step is below a nanometre.
 */
export function fitPoint(tapes: readonly Tape[], from: Vec3): Vec3 {
  let at = from;
  let rest = leftOver(tapes, at);
  let damping = 1e-3;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const directions = directionsFrom(tapes, at);
    const pull = directions.reduce<Vec3>((sum, u, i) => add(sum, scale(u, rest[i]!)), [0, 0, 0]);
    const damped = AXES.reduce((matrix, axis) => addOuter(matrix, axis, damping), sumOfOuter(directions));
    const inverse = invertSym3(damped);
    if (inverse === null) break;
    const step = applySym3(inverse, pull);
    const next = add(at, step);
    const nextRest = leftOver(tapes, next);
    const isBetter = Math.hypot(...nextRest) <= Math.hypot(...rest);
    if (isBetter) [at, rest] = [next, nextRest];
    damping = isBetter ? Math.max(damping / 10, 1e-12) : damping * 10;
    if (length(step) < 1e-6 * (isBetter ? 1 : 1e-3)) break;
  }
  return at;
}
