import { composePoses, invertPose, POSE_SIZE, type Pose, poseOfTrack } from "../maths/pose.ts";
import { poseAlongScrew, SCREW_SIZE, screwBetween } from "./motionScrew.ts";
import type { Motion } from "./types.ts";

/** Knots of two bodies nearer than this are one, mm of travel. */
const SAME_TRAVEL_mm = 1e-9;

/** The knot at or before a travel: largest i with travel_mm[i] ≤ travel, 0 before the first, n − 2 (or 0) after the last but one. */
export function segmentOf(travel_mm: Float64Array, travel: number): number {
  let low = 0;
  let high = travel_mm.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (travel_mm[middle]! <= travel) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * A body's pose at any travel: on the screw (motionScrew.ts) from the knot before to the knot after. Beyond the first
 * and the last knot it stays where that knot has it.
 */
export function poseOfMotion(motion: Motion, travel: number, out: Pose): Pose {
  const { travel_mm, poses } = motion;
  const last = travel_mm.length - 1;
  const i = segmentOf(travel_mm, travel);
  const from = travel_mm[i]!;
  if (last === 0 || travel <= from + SAME_TRAVEL_mm) return copyPose(poses, i, out);
  const to = travel_mm[i + 1]!;
  if (travel >= to - SAME_TRAVEL_mm) return copyPose(poses, i + 1, out);
  const screw = new Float64Array(SCREW_SIZE);
  screwBetween(poseOfTrack(poses, i), poseOfTrack(poses, i + 1), screw, 0);
  return poseAlongScrew(poses, i * POSE_SIZE, screw, 0, (travel - from) / (to - from), out);
}

/**
 * How body b moves as body a sees it, over one travel range. Knots are the ends of the range and every knot of either
 * body between them; from one knot to the next b runs the screw of the *relative* pose. A screw seen from the other
 * body is again a screw, so exchanging a and b, or moving both by one rigid motion, changes nothing. Against letting
 * each body run its own screw in car axes the difference is of second order in the knot spacing (for an arm of 300 mm
 * and knots 1 mm apart, below 0.001 mm).
 */
export class RelativeMotion {
  /** m ≥ 1 knots, ascending; one if the range is a single travel. */
  readonly travel_mm: Float64Array;
  /** b in a's design axes, 12·m. */
  readonly poses: Float64Array;
  /** 6·(m − 1) screws in b's own axes, from each knot to the next. */
  readonly screws: Float64Array;
  /** True if b stands still as a sees it. */
  readonly still: boolean;

  constructor(a: Motion, b: Motion, from_mm: number, to_mm: number) {
    this.travel_mm = mergedKnots(a, b, from_mm, to_mm);
    const count = this.travel_mm.length;
    this.poses = new Float64Array(count * POSE_SIZE);
    this.screws = new Float64Array((count - 1) * SCREW_SIZE);
    const poseA = new Float64Array(POSE_SIZE);
    const poseB = new Float64Array(POSE_SIZE);
    const inverse = new Float64Array(POSE_SIZE);
    for (let i = 0; i < count; i++) {
      poseOfMotion(a, this.travel_mm[i]!, poseA);
      poseOfMotion(b, this.travel_mm[i]!, poseB);
      composePoses(invertPose(poseA, inverse), poseB, poseOfTrack(this.poses, i));
      if (i === 0) continue;
      screwBetween(poseOfTrack(this.poses, i - 1), poseOfTrack(this.poses, i), this.screws, (i - 1) * SCREW_SIZE);
    }
    this.still = isStill(this.screws);
  }

  get from_mm(): number {
    return this.travel_mm[0]!;
  }

  get to_mm(): number {
    return this.travel_mm[this.travel_mm.length - 1]!;
  }

  /** b in a's design axes; the travel is held within the range. */
  poseAt(travel: number, out: Pose): Pose {
    const { travel_mm, poses } = this;
    const last = travel_mm.length - 1;
    const i = segmentOf(travel_mm, travel);
    if (last === 0 || travel <= travel_mm[i]!) return copyPose(poses, i, out);
    if (travel >= travel_mm[i + 1]!) return copyPose(poses, i + 1, out);
    const s = (travel - travel_mm[i]!) / (travel_mm[i + 1]! - travel_mm[i]!);
    return poseAlongScrew(poses, i * POSE_SIZE, this.screws, i * SCREW_SIZE, s, out);
  }
}

const known = new WeakMap<Motion, WeakMap<Motion, RelativeMotion[]>>();

/** The same, made once for as long as the two motions live: many pairs of bodies ride on the same two mounts. */
export function relativeMotion(a: Motion, b: Motion, from_mm: number, to_mm: number): RelativeMotion {
  const ofA = recall(known, a, () => new WeakMap());
  const made = recall(ofA, b, () => []);
  let motion = made.find((each) => each.from_mm === from_mm && each.to_mm === Math.max(from_mm, to_mm));
  if (motion === undefined) {
    motion = new RelativeMotion(a, b, from_mm, to_mm);
    made.push(motion);
  }
  return motion;
}

function recall<K extends WeakKey, V>(shelf: WeakMap<K, V>, key: K, make: () => V): V {
  let value = shelf.get(key);
  if (value === undefined) {
    value = make();
    shelf.set(key, value);
  }
  return value;
}

function mergedKnots(a: Motion, b: Motion, from_mm: number, to_mm: number): Float64Array {
  if (!(to_mm > from_mm)) return Float64Array.of(from_mm);
  const all = [from_mm, to_mm];
  for (const motion of [a, b]) {
    if (motion.travel_mm.length < 2) continue;
    for (const travel of motion.travel_mm) if (travel > from_mm && travel < to_mm) all.push(travel);
  }
  all.sort((p, q) => p - q);
  const kept = all.filter((travel, i) => i === 0 || travel - all[i - 1]! > SAME_TRAVEL_mm);
  // the ends are exact, whatever was merged into them
  kept[0] = from_mm;
  kept[kept.length - 1] = to_mm;
  return Float64Array.from(kept);
}

/** Below this a screw moves nothing: 1e-9 mm, and 1e-9 mm at 1 m. */
function isStill(screws: Float64Array): boolean {
  for (let i = 0; i < screws.length; i += SCREW_SIZE) {
    if (Math.hypot(screws[i]!, screws[i + 1]!, screws[i + 2]!) > 1e-12) return false;
    if (Math.hypot(screws[i + 3]!, screws[i + 4]!, screws[i + 5]!) > 1e-9) return false;
  }
  return true;
}

function copyPose(poses: Float64Array, index: number, out: Pose): Pose {
  for (let k = 0; k < POSE_SIZE; k++) out[k] = poses[index * POSE_SIZE + k]!;
  return out;
}
