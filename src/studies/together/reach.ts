import type { Motion, RockBound } from "../../clearance/types.ts";
import { applyPose, POSE_SIZE, poseOfTrack } from "../../maths/pose.ts";
import { add, distance, length, scale, subtract, type Vec3 } from "../../maths/vec3.ts";

/** Corners of the box about a solid's points, as drawn. */
export function boxCorners(positions: ArrayLike<number>): Vec3[] {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    low[i % 3] = Math.min(low[i % 3]!, positions[i]!);
    high[i % 3] = Math.max(high[i % 3]!, positions[i]!);
  }
  return Array.from({ length: 8 }, (_, c) => [0, 1, 2].map((k) => ((c >> k) & 1 ? high : low)[k]!) as unknown as Vec3);
}

/** What a path along a screw may be longer than its chord, between two knots. */
const CURVED = 1.01;

/**
 * Bounds of the points of a body along its own travel, per mm and per mm²: of its speed and of how it strays from a chord
 * (by an eighth of `bend_mm` times the square of the chord's travel).
 *
 * From knot to knot the body runs a screw, on which no point is faster than v = |its chord|·1.01/h nor accelerated by more than A = ω·v,
 * ω the turn over h. At a knot its velocity jumps, by at most J = |difference of the mean velocities on both sides| + A·h; as velocities
 * differ linearly over a rigid body, the largest J is at a corner of its box. Over a chord of W there are at most W/h + 1 knots, each straying
 * J·W/4: no more than (A + 4J/h)·W²/8 together from W = h on. On shorter chords it is J·h/4 more, below 0.003 mm with knots 1 mm apart.
 */
export function travelReach({ travel_mm, poses }: Motion, corners: readonly Vec3[]): RockBound {
  let speed = 0;
  let bend = 0;
  let before: Vec3[] | null = null;
  for (let knot = 0; knot + 1 < travel_mm.length; knot++) {
    const h = travel_mm[knot + 1]! - travel_mm[knot]!;
    const [from, to] = [poseOfTrack(poses, knot), poseOfTrack(poses, knot + 1)];
    const steps = corners.map((corner) => subtract(applyPose(to, corner), applyPose(from, corner)));
    const here = (CURVED * Math.max(...steps.map(length))) / h;
    const along = (turnBetween(poses, knot) / h) * here;
    const mean = steps.map((step) => scale(step, 1 / h));
    const last = before;
    const jump = last ? Math.max(...mean.map((v, i) => distance(v, last[i]!))) + along * h : 0;
    speed = Math.max(speed, here);
    bend = Math.max(bend, along + (4 * jump) / h);
    before = mean;
  }
  return { speed_mm: speed, bend_mm: bend };
}

/** The turn between two knots, rad: ‖R₁ − R₀‖ = 2√2·sin(θ/2) in the Frobenius norm. */
function turnBetween(poses: Float64Array, knot: number): number {
  let sum = 0;
  for (let k = 0; k < POSE_SIZE; k++) {
    if (k % 4 === 3) continue;
    sum += (poses[(knot + 1) * POSE_SIZE + k]! - poses[knot * POSE_SIZE + k]!) ** 2;
  }
  return 2 * Math.asin(Math.min(1, Math.sqrt(sum / 8)));
}

/** The box about all places of a body along its travel, but for what it strays between knots. */
export function sweptBox({ travel_mm, poses }: Motion, corners: readonly Vec3[]): readonly [Vec3, Vec3] {
  let low: Vec3 = [Infinity, Infinity, Infinity];
  let high: Vec3 = [-Infinity, -Infinity, -Infinity];
  for (let knot = 0; knot < travel_mm.length; knot++) {
    const pose = poseOfTrack(poses, knot);
    for (const corner of corners) {
      const at = applyPose(pose, corner);
      low = low.map((v, k) => Math.min(v, at[k]!)) as unknown as Vec3;
      high = high.map((v, k) => Math.max(v, at[k]!)) as unknown as Vec3;
    }
  }
  return [low, high];
}

/** How far two boxes are apart at least; 0 where they meet. */
export function boxesApart([lowA, highA]: readonly [Vec3, Vec3], [lowB, highB]: readonly [Vec3, Vec3]): number {
  const apart = add(lowA, [0, 0, 0]).map((low, k) => Math.max(0, low - highB[k]!, lowB[k]! - highA[k]!));
  return Math.hypot(...apart);
}
