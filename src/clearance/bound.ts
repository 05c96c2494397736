import { type RelativeMotion, segmentOf } from "./motion.ts";
import { SCREW_SIZE } from "./motionScrew.ts";

/** A body's axis-parallel box in its design position: [minX, minY, minZ, maxX, maxY, maxZ], mm. */
export type Extent = Float64Array;

export function extentOf(positions: ArrayLike<number>): Extent {
  const box = Float64Array.of(Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity);
  for (let i = 0; i < positions.length; i++) {
    const axis = i % 3;
    box[axis] = Math.min(box[axis]!, positions[i]!);
    box[axis + 3] = Math.max(box[axis + 3]!, positions[i]!);
  }
  return box;
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
  /** Per knot: path from the first knot, mm. */
  private readonly pathTo_mm: Float64Array;
  /** Per segment, mm a mm of travel: largest speeds of b's and of a's corners. */
  private readonly speedOfB: Float64Array;
  private readonly speedOfA: Float64Array;
  /** Per segment, rad a mm of travel. */
  private readonly turnRate: Float64Array;
  /** Per knot: sum of the velocity jumps at the knots before it and at it, mm a mm of travel. */
  private readonly jumpTo: Float64Array;

  constructor(motion: RelativeMotion, extentOfA: Extent, extentOfB: Extent) {
    const segments = motion.travel_mm.length - 1;
    this.motion = motion;
    this.pathTo_mm = new Float64Array(segments + 1);
    this.jumpTo = new Float64Array(segments + 1);
    this.speedOfA = new Float64Array(segments);
    this.speedOfB = new Float64Array(segments);
    this.turnRate = new Float64Array(segments);
    // velocity fields a mm of travel: of the last segment and of this one, in b's axes and in a's
    let lastInB = new Float64Array(SCREW_SIZE);
    let lastInA = new Float64Array(SCREW_SIZE);
    let inB = new Float64Array(SCREW_SIZE);
    let inA = new Float64Array(SCREW_SIZE);
    const change = new Float64Array(SCREW_SIZE);
    for (let i = 0; i < segments; i++) {
      const length = motion.travel_mm[i + 1]! - motion.travel_mm[i]!;
      for (let k = 0; k < SCREW_SIZE; k++) inB[k] = motion.screws[i * SCREW_SIZE + k]! / length;
      screwSeenFromA(motion.poses, i * 12, inB, inA);
      this.speedOfB[i] = largestSpeed(inB, extentOfB);
      this.speedOfA[i] = largestSpeed(inA, extentOfA);
      this.turnRate[i] = Math.hypot(inB[0]!, inB[1]!, inB[2]!);
      this.pathTo_mm[i + 1] = this.pathTo_mm[i]! + Math.min(this.speedOfA[i]!, this.speedOfB[i]!) * length;
      if (i > 0) {
        const ofB = largestSpeed(difference(inB, lastInB, change), extentOfB);
        const ofA = largestSpeed(difference(inA, lastInA, change), extentOfA);
        this.jumpTo[i] = this.jumpTo[i - 1]! + Math.min(ofA, ofB);
      }
      [lastInB, inB] = [inB, lastInB];
      [lastInA, inA] = [inA, lastInA];
    }
    if (segments > 0) this.jumpTo[segments] = this.jumpTo[segments - 1]!;
  }

  /** Upper bound of the change of signed clearance between two travels t0 ≤ t1 of the range, mm. */
  path(t0: number, t1: number): number {
    return Math.max(0, this.pathAt(t1) - this.pathAt(t0));
  }

  /** How far the distance can sag below its chord from t0 to t1, mm, if it is at least `least_mm` > 0 in between. */
  sag(t0: number, t1: number, least_mm: number): number {
    const { travel_mm } = this.motion;
    const first = segmentOf(travel_mm, t0);
    let last = segmentOf(travel_mm, t1);
    if (last > first && t1 <= travel_mm[last]!) last--;
    let bend = 0;
    for (let i = first; i <= last && i < this.turnRate.length; i++) {
      const a = this.speedOfA[i]!;
      const b = this.speedOfB[i]!;
      const turn = this.turnRate[i]!;
      bend = Math.max(bend, Math.min((a * a) / least_mm + turn * a, (b * b) / least_mm + turn * b));
    }
    const h = t1 - t0;
    return (bend * h * h) / 8 + ((this.jumpTo[last]! - this.jumpTo[first]!) * h) / 4;
  }

  private pathAt(travel: number): number {
    const { travel_mm } = this.motion;
    if (travel_mm.length === 1) return 0;
    const i = segmentOf(travel_mm, travel);
    const share = (travel - travel_mm[i]!) / (travel_mm[i + 1]! - travel_mm[i]!);
    return this.pathTo_mm[i]! + (this.pathTo_mm[i + 1]! - this.pathTo_mm[i]!) * Math.min(1, Math.max(0, share));
  }
}

/** Turns a screw in b's axes into the same velocity field in a's: w' = R·w, v' = R·v + t × w'. */
function screwSeenFromA(poses: Float64Array, at: number, screw: Float64Array, out: Float64Array): void {
  for (let row = 0; row < 3; row++) {
    const i = at + row * 4;
    out[row] = poses[i]! * screw[0]! + poses[i + 1]! * screw[1]! + poses[i + 2]! * screw[2]!;
    out[row + 3] = poses[i]! * screw[3]! + poses[i + 1]! * screw[4]! + poses[i + 2]! * screw[5]!;
  }
  const tx = poses[at + 3]!;
  const ty = poses[at + 7]!;
  const tz = poses[at + 11]!;
  out[3]! += ty * out[2]! - tz * out[1]!;
  out[4]! += tz * out[0]! - tx * out[2]!;
  out[5]! += tx * out[1]! - ty * out[0]!;
}

/** The largest |w × p + v| over a box, which a corner has. */
function largestSpeed(screw: Float64Array, box: Extent): number {
  const wx = screw[0]!;
  const wy = screw[1]!;
  const wz = screw[2]!;
  let largest = 0;
  for (let corner = 0; corner < 8; corner++) {
    const x = box[corner & 1 ? 3 : 0]!;
    const y = box[corner & 2 ? 4 : 1]!;
    const z = box[corner & 4 ? 5 : 2]!;
    const vx = wy * z - wz * y + screw[3]!;
    const vy = wz * x - wx * z + screw[4]!;
    const vz = wx * y - wy * x + screw[5]!;
    largest = Math.max(largest, vx * vx + vy * vy + vz * vz);
  }
  return Math.sqrt(largest);
}

function difference(a: Float64Array, b: Float64Array, out: Float64Array): Float64Array {
  for (let k = 0; k < SCREW_SIZE; k++) out[k] = a[k]! - b[k]!;
  return out;
}
