import type { Extent } from "../clearance/bound.ts";
import type { Motion } from "../clearance/types.ts";
import type { Solid } from "../geometry/solid.ts";
import { POSE_SIZE } from "../maths/pose.ts";
import { alike, sameNumbers } from "./shelf.ts";

/** How a body strays on its way from knot to knot: the farthest that one of its points gets, and the largest turn. */
export interface Steps {
  readonly step_mm: number;
  /** At least the angle, rad: the root of the summed squares of how the rotation's nine numbers change. */
  readonly turn: number;
}

/** Of what stands still. */
export const STANDS: Steps = { step_mm: 0, turn: 0 };

/** More turn than this from knot to knot, both bodies, rad: what `stray` tells is for small ones. */
const MOST_TURN = 0.4;

/**
 * How far a gap of two bodies may be between two knots from what it is between their chords, mm, while it is at most
 * `least_mm` at some state there; carry.ts says why. Infinity for turns that are too large.
 */
export function stray(a: Steps, b: Steps, least_mm: number): number {
  const turn = a.turn + b.turn;
  const step_mm = a.step_mm + b.step_mm;
  return turn > MOST_TURN ? Number.POSITIVE_INFINITY : turn * (step_mm + turn * (least_mm + 3 * step_mm));
}

/** The steps of a motion for all points in the box. */
export function stepsOf(motion: Motion, box: Extent): Steps {
  const { poses } = motion;
  if (poses.length <= POSE_SIZE) return STANDS;
  let step = 0;
  for (let at = POSE_SIZE; at < poses.length; at += POSE_SIZE) {
    step = Math.max(step, farthestApart(poses, at - POSE_SIZE, poses, at, box));
  }
  return { step_mm: Math.sqrt(step), turn: turnOf(motion) };
}

/** Turns go with their motions. */
const turns = new WeakMap<Motion, number>();

/** The turn of a motion's steps. */
export function turnOf(motion: Motion): number {
  let turn = turns.get(motion);
  if (turn === undefined) {
    const { poses } = motion;
    let most = 0;
    for (let at = POSE_SIZE; at < poses.length; at += POSE_SIZE) {
      let sum = 0;
      for (let k = at; k < at + POSE_SIZE; k++) if ((k & 3) !== 3) sum += (poses[k]! - poses[k - POSE_SIZE]!) ** 2;
      most = Math.max(most, sum);
    }
    turn = Math.sqrt(most);
    turns.set(motion, turn);
  }
  return turn;
}

/**
 * How far apart the same point of the box is at most in two motions, at their knots, mm; Infinity where they do not
 * have the same knots. A body that stands still is where it is at every knot.
 */
export function shiftBetween(last: Motion, motion: Motion, box: Extent): number {
  if (alike(last, motion)) return 0;
  const [m, n] = [last.travel_mm.length, motion.travel_mm.length];
  if (m > 1 && n > 1 && !sameNumbers(last.travel_mm, motion.travel_mm)) return Number.POSITIVE_INFINITY;
  let most = 0;
  for (let knot = 0; knot < Math.max(m, n); knot++) {
    const p = m === 1 ? 0 : knot * POSE_SIZE;
    const q = n === 1 ? 0 : knot * POSE_SIZE;
    most = Math.max(most, farthestApart(last.poses, p, motion.poses, q, box));
  }
  return Math.sqrt(most);
}

/** The farthest that a vertex of one solid is from the same vertex of the other, mm; Infinity if their triangles are not the same. */
export function redrawn(last: Solid, solid: Solid): number {
  if (last === solid) return 0;
  const { positions: p, indices } = last;
  const { positions: q } = solid;
  if (p.length !== q.length || !sameNumbers(indices, solid.indices)) return Number.POSITIVE_INFINITY;
  let most = 0;
  for (let i = 0; i < p.length; i += 3) {
    most = Math.max(most, (q[i]! - p[i]!) ** 2 + (q[i + 1]! - p[i + 1]!) ** 2 + (q[i + 2]! - p[i + 2]!) ** 2);
  }
  return Math.sqrt(most);
}

export function uniteBoxes(a: Extent, b: Extent): Extent {
  return a === b ? a : a.map((value, k) => (k < 3 ? Math.min(value, b[k]!) : Math.max(value, b[k]!)));
}

/**
 * Squared, the farthest that two poses have a point of the box apart. The difference of two affine maps is affine, and the
 * length of what an affine map makes of a point is convex in it: over a box a corner has the largest.
 */
function farthestApart(p: Float64Array, i: number, q: Float64Array, j: number, box: Extent): number {
  const a0 = q[j]! - p[i]!;
  const a1 = q[j + 1]! - p[i + 1]!;
  const a2 = q[j + 2]! - p[i + 2]!;
  const a3 = q[j + 3]! - p[i + 3]!;
  const b0 = q[j + 4]! - p[i + 4]!;
  const b1 = q[j + 5]! - p[i + 5]!;
  const b2 = q[j + 6]! - p[i + 6]!;
  const b3 = q[j + 7]! - p[i + 7]!;
  const c0 = q[j + 8]! - p[i + 8]!;
  const c1 = q[j + 9]! - p[i + 9]!;
  const c2 = q[j + 10]! - p[i + 10]!;
  const c3 = q[j + 11]! - p[i + 11]!;
  let most = 0;
  for (let corner = 0; corner < 8; corner++) {
    const x = box[corner & 1 ? 3 : 0]!;
    const y = box[corner & 2 ? 4 : 1]!;
    const z = box[corner & 4 ? 5 : 2]!;
    const dx = a0 * x + a1 * y + a2 * z + a3;
    const dy = b0 * x + b1 * y + b2 * z + b3;
    const dz = c0 * x + c1 * y + c2 * z + c3;
    most = Math.max(most, dx * dx + dy * dy + dz * dz);
  }
  return most;
}
