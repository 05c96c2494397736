import { applyPose, POSE_SIZE, type Pose } from "../maths/pose.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { type RelativeMotion, segmentOf } from "./motion.ts";
import { SCREW_SIZE } from "./motionScrew.ts";

/** A body's axis-parallel box in its design position: [minX, minY, minZ, maxX, maxY, maxZ], mm. */
export type Extent = Float64Array;

export function extentOf(positions: ArrayLike<number>): Extent {
  let [lowX, lowY, lowZ] = [Infinity, Infinity, Infinity];
  let [highX, highY, highZ] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i + 2 < positions.length; i += 3) {
    const x = positions[i]!;
    const y = positions[i + 1]!;
    const z = positions[i + 2]!;
    if (x < lowX) lowX = x;
    if (x > highX) highX = x;
    if (y < lowY) lowY = y;
    if (y > highY) highY = y;
    if (z < lowZ) lowZ = z;
    if (z > highZ) highZ = z;
  }
  return Float64Array.of(lowX, lowY, lowZ, highX, highY, highZ);
}

/**
 * How much the signed clearance of two bodies can change between two travels, proved from the motion itself, never sampled.
 *
 * **First order.** Along a screw every material point p of b moves at the constant speed |w × p + v| (in b's axes). That
 * speed is a convex function of p, so over b's box it is largest at a corner. Seen from b, a moves on the same screw
 * written in a's axes, and its corners bound its speed there in the same way. The gap between a point of a and a point of
 * b changes no faster than either speed: the change over a segment is at most L = min(of b's corners, of a's corners)
 * times its length in travel. The smallest distance is a minimum over such gaps, and the least translation that parts two
 * convex pieces changes no faster than the points of one move against the other, so both follow: `path(t0, t1)`, a
 * difference of prefix sums, bounds their change.
 *
 * **Second order.** Let f(t) = |x(t)| be the gap of one point of a and one of b, at least g > 0 over an interval of length h.
 * Then f″ = (|x′|² − (x′·u)²)/f + u·x″ ≤ L²/g + |w|·L, since a point on a screw accelerates by |w × (w × p + v)| ≤ |w|·L; and
 * where one screw follows another, f′ jumps by no more than the difference of the two screws' velocity fields, J, bounded
 * over a box's corners as before. A function whose second derivative is at most K sags at most K·h²/8 below its chord, and
 * at most J·h/4 more for the jumps between. This holds for each pair of points, hence for the smallest distance:
 * `sag(t0, t1, g)`. It shrinks with h² where the first-order bound shrinks with h, so smooth motions need few states.
 */
export class MotionBound {
  private readonly motion: RelativeMotion;
  private readonly fields: MotionFields;
  private readonly ofA: BoxInField;
  private readonly ofB: BoxInField;
  /** To the first knot of each block: path from the first of all, mm, and sum of the velocity jumps at the knots before it. */
  private readonly pathToBlock_mm: Float64Array;
  private readonly jumpToBlock: Float64Array;

  constructor(motion: RelativeMotion, extentOfA: Extent, extentOfB: Extent) {
    const segments = motion.travel_mm.length - 1;
    this.motion = motion;
    this.fields = fieldsOf(motion);
    this.ofA = boxInField(this.fields.inA, extentOfA);
    this.ofB = boxInField(this.fields.inB, extentOfB);
    const blocks = Math.ceil(segments / BLOCK) + 1;
    this.pathToBlock_mm = new Float64Array(blocks);
    this.jumpToBlock = new Float64Array(blocks);
    for (let block = 1; block < blocks; block++) {
      const from = (block - 1) * BLOCK;
      const to = Math.min(from + BLOCK, segments);
      this.pathToBlock_mm[block] = this.pathToBlock_mm[block - 1]! + this.pathBetween(from, to);
      this.jumpToBlock[block] = this.jumpToBlock[block - 1]! + this.jumpsBetween(from, to);
    }
  }

  /** Squared distance of the two boxes' centres in a relative pose, mm²: a guess at where the two are nearest. */
  spread(pose: Pose): number {
    const { centre: p } = this.ofA;
    const [x, y, z] = applyPose(pose, this.ofB.centre);
    return (x - p[0]) ** 2 + (y - p[1]) ** 2 + (z - p[2]) ** 2;
  }

  /** Upper bound of the change of signed clearance between two travels of the range, whichever comes first, mm. */
  path(t0: number, t1: number): number {
    return Math.abs(this.pathAt(t1) - this.pathAt(t0));
  }

  /** How far the distance can sag below its chord from t0 to t1, mm, if it is at least `least_mm` > 0 in between. */
  sag(t0: number, t1: number, least_mm: number): number {
    const { travel_mm } = this.motion;
    const { ofA, ofB, fields } = this;
    const first = segmentOf(travel_mm, t0);
    let last = segmentOf(travel_mm, t1);
    if (last > first && t1 <= travel_mm[last]!) last--;
    last = Math.min(last, fields.turn.length - 1);
    const inBlocks = last - first >= BLOCK;
    const turn = inBlocks ? fields.turnOfBlock : fields.turn;
    const speedOfA = inBlocks ? ofA.speedOfBlock : ofA.speed;
    const speedOfB = inBlocks ? ofB.speedOfBlock : ofB.speed;
    const from = inBlocks ? Math.floor(first / BLOCK) : first;
    const to = inBlocks ? Math.floor(last / BLOCK) : last;
    let bend = 0;
    for (let i = from; i <= to; i++) {
      const a = speedOfA[i]!;
      const b = speedOfB[i]!;
      bend = Math.max(bend, Math.min((a * a) / least_mm + turn[i]! * a, (b * b) / least_mm + turn[i]! * b));
    }
    const h = t1 - t0;
    return (bend * h * h) / 8 + ((this.jumpTo(last + 1) - this.jumpTo(first + 1)) * h) / 4;
  }

  /** Sum of the velocity jumps at the knots before this one, mm a mm of travel. */
  private jumpTo(knot: number): number {
    const block = Math.floor(knot / BLOCK);
    return this.jumpToBlock[block]! + this.jumpsBetween(block * BLOCK, knot);
  }

  private jumpsBetween(from: number, to: number): number {
    const { ofA, ofB } = this;
    let sum = 0;
    for (let i = from; i < to; i++) sum += Math.min(ofA.jump[i]!, ofB.jump[i]!);
    return sum;
  }

  /** Path from one knot to another, mm. */
  private pathBetween(from: number, to: number): number {
    const { ofA, ofB, motion } = this;
    let path = 0;
    for (let i = from; i < to; i++) {
      path += Math.min(ofA.speed[i]!, ofB.speed[i]!) * (motion.travel_mm[i + 1]! - motion.travel_mm[i]!);
    }
    return path;
  }

  private pathAt(travel: number): number {
    const { travel_mm } = this.motion;
    if (travel_mm.length === 1) return 0;
    const i = segmentOf(travel_mm, travel);
    const share = (travel - travel_mm[i]!) / (travel_mm[i + 1]! - travel_mm[i]!);
    const block = Math.floor(i / BLOCK);
    const toKnot = this.pathToBlock_mm[block]! + this.pathBetween(block * BLOCK, i);
    return toKnot + this.pathBetween(i, i + 1) * Math.min(1, Math.max(0, share));
  }
}

/** Over long stretches the largest speeds of so many segments are taken together. */
const BLOCK = 8;

/** A motion's velocity a mm of travel, segment by segment, whatever body rides on it. */
interface MotionFields {
  /** 6 a segment: screws in a's axes, and in b's. */
  readonly inA: Field;
  readonly inB: Field;
  /** Per segment and per block of them, rad a mm of travel. */
  readonly turn: Float64Array;
  readonly turnOfBlock: Float64Array;
}

interface Field {
  readonly screws: Float64Array;
  readonly boxes: WeakMap<Extent, BoxInField>;
}

/** What a field does to a body's box; made once for all pairs in which the body meets something on the same mount. */
interface BoxInField {
  readonly centre: Vec3;
  /** Per segment and per block of them: the largest speed of a corner, mm a mm of travel. */
  readonly speed: Float64Array;
  readonly speedOfBlock: Float64Array;
  /** Per segment: the largest change of a corner's velocity from the one before. */
  readonly jump: Float64Array;
}

const knownFields = new WeakMap<RelativeMotion, MotionFields>();

function fieldsOf(motion: RelativeMotion): MotionFields {
  let fields = knownFields.get(motion);
  if (fields === undefined) {
    fields = makeFields(motion);
    knownFields.set(motion, fields);
  }
  return fields;
}

function makeFields({ travel_mm, screws, poses }: RelativeMotion): MotionFields {
  const segments = travel_mm.length - 1;
  const inA = new Float64Array(screws.length);
  const inB = new Float64Array(screws.length);
  const turn = new Float64Array(segments);
  for (let i = 0; i < segments; i++) {
    const at = i * SCREW_SIZE;
    const length = travel_mm[i + 1]! - travel_mm[i]!;
    for (let k = 0; k < SCREW_SIZE; k++) inB[at + k] = screws[at + k]! / length;
    screwSeenFromA(poses, i * POSE_SIZE, inB, inA, at);
    turn[i] = Math.hypot(inB[at]!, inB[at + 1]!, inB[at + 2]!);
  }
  return {
    inA: { screws: inA, boxes: new WeakMap() },
    inB: { screws: inB, boxes: new WeakMap() },
    turn,
    turnOfBlock: blocksOf(turn),
  };
}

function boxInField({ screws, boxes }: Field, extent: Extent): BoxInField {
  let box = boxes.get(extent);
  if (box === undefined) {
    const segments = screws.length / SCREW_SIZE;
    const speed = new Float64Array(segments);
    const jump = new Float64Array(segments);
    const change = new Float64Array(SCREW_SIZE);
    for (let i = 0; i < segments; i++) {
      const at = i * SCREW_SIZE;
      speed[i] = largestSpeed(screws, at, extent);
      if (i === 0) continue;
      for (let k = 0; k < SCREW_SIZE; k++) change[k] = screws[at + k]! - screws[at - SCREW_SIZE + k]!;
      jump[i] = largestSpeed(change, 0, extent);
    }
    const middle = (k: number): number => (extent[k]! + extent[k + 3]!) / 2;
    box = { centre: [middle(0), middle(1), middle(2)], speed, speedOfBlock: blocksOf(speed), jump };
    boxes.set(extent, box);
  }
  return box;
}

function blocksOf(values: Float64Array): Float64Array {
  const largest = new Float64Array(Math.ceil(values.length / BLOCK));
  for (let i = 0; i < values.length; i++) {
    const block = Math.floor(i / BLOCK);
    largest[block] = Math.max(largest[block]!, values[i]!);
  }
  return largest;
}

/** Turns the screw in b's axes at `at` into the same velocity field in a's: w' = R·w, v' = R·v + t × w'. */
function screwSeenFromA(poses: Float64Array, pose: number, inB: Float64Array, inA: Float64Array, at: number): void {
  for (let row = 0; row < 3; row++) {
    const i = pose + row * 4;
    inA[at + row] = poses[i]! * inB[at]! + poses[i + 1]! * inB[at + 1]! + poses[i + 2]! * inB[at + 2]!;
    inA[at + row + 3] = poses[i]! * inB[at + 3]! + poses[i + 1]! * inB[at + 4]! + poses[i + 2]! * inB[at + 5]!;
  }
  const tx = poses[pose + 3]!;
  const ty = poses[pose + 7]!;
  const tz = poses[pose + 11]!;
  const wx = inA[at]!;
  const wy = inA[at + 1]!;
  const wz = inA[at + 2]!;
  inA[at + 3]! += ty * wz - tz * wy;
  inA[at + 4]! += tz * wx - tx * wz;
  inA[at + 5]! += tx * wy - ty * wx;
}

/** The largest |w × p + v| over a box, which a corner has. */
function largestSpeed(screws: Float64Array, at: number, box: Extent): number {
  const wx = screws[at]!;
  const wy = screws[at + 1]!;
  const wz = screws[at + 2]!;
  const ux = screws[at + 3]!;
  const uy = screws[at + 4]!;
  const uz = screws[at + 5]!;
  let largest = 0;
  for (let corner = 0; corner < 8; corner++) {
    const x = box[corner & 1 ? 3 : 0]!;
    const y = box[corner & 2 ? 4 : 1]!;
    const z = box[corner & 4 ? 5 : 2]!;
    const vx = wy * z - wz * y + ux;
    const vy = wz * x - wx * z + uy;
    const vz = wx * y - wy * x + uz;
    largest = Math.max(largest, vx * vx + vy * vy + vz * vz);
  }
  return Math.sqrt(largest);
}
