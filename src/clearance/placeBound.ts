import type { Pose } from "../maths/pose.ts";
import type { Extent } from "./bound.ts";

/**
 * Square of the farthest that any point of a box goes between two poses: the pose at `fromAt` of `from` and that at `toAt`
 * of `to` (12 numbers each). A point p goes |M·p + m| with M the difference of the turns and m that of the shifts: a
 * convex function of p, so a corner goes farthest.
 */
export function farthestSquared(
  from: Float64Array,
  fromAt: number,
  to: Float64Array,
  toAt: number,
  box: Extent,
): number {
  return cornerSquared(
    to[toAt]! - from[fromAt]!,
    to[toAt + 1]! - from[fromAt + 1]!,
    to[toAt + 2]! - from[fromAt + 2]!,
    to[toAt + 3]! - from[fromAt + 3]!,
    to[toAt + 4]! - from[fromAt + 4]!,
    to[toAt + 5]! - from[fromAt + 5]!,
    to[toAt + 6]! - from[fromAt + 6]!,
    to[toAt + 7]! - from[fromAt + 7]!,
    to[toAt + 8]! - from[fromAt + 8]!,
    to[toAt + 9]! - from[fromAt + 9]!,
    to[toAt + 10]! - from[fromAt + 10]!,
    to[toAt + 11]! - from[fromAt + 11]!,
    box,
    0,
  );
}

/** Bounds of a change, mm: see changeBetween. */
export interface Change {
  anywhere_mm: number;
  near_mm: number;
}

/**
 * Upper bounds of how much the gap between any point of a and any point of b differs between two relative poses (b's design
 * position into a's): the pose at `at` of `kept`, and `now`. As a sees it the points of b go from the one to the other, no
 * farther than a corner of a box that holds them; as b sees it those of a do; either bounds the change of the gap.
 * `anywhere_mm` holds for all points. `near_mm` holds for those that at the kept pose are near each other: the points of b
 * in b's near box, those of a in a's (nearBox), 12 numbers at `nearAt` of `near`, a's first.
 */
export function changeBetween(
  kept: Float64Array,
  at: number,
  now: Pose,
  ofA: Extent,
  ofB: Extent,
  near: Float64Array,
  nearAt: number,
  out: Change,
): void {
  const r00 = now[0]! - kept[at]!;
  const r01 = now[1]! - kept[at + 1]!;
  const r02 = now[2]! - kept[at + 2]!;
  const x = now[3]! - kept[at + 3]!;
  const r10 = now[4]! - kept[at + 4]!;
  const r11 = now[5]! - kept[at + 5]!;
  const r12 = now[6]! - kept[at + 6]!;
  const y = now[7]! - kept[at + 7]!;
  const r20 = now[8]! - kept[at + 8]!;
  const r21 = now[9]! - kept[at + 9]!;
  const r22 = now[10]! - kept[at + 10]!;
  const z = now[11]! - kept[at + 11]!;
  // the inverse takes q to Rᵀq − Rᵀt; Rᵀt now less Rᵀt then is Rᵀ(t now − t then) + (R now − R then)ᵀ t then
  const u = kept[at + 3]!;
  const v = kept[at + 7]!;
  const w = kept[at + 11]!;
  const backX = -(now[0]! * x + now[4]! * y + now[8]! * z + r00 * u + r10 * v + r20 * w);
  const backY = -(now[1]! * x + now[5]! * y + now[9]! * z + r01 * u + r11 * v + r21 * w);
  const backZ = -(now[2]! * x + now[6]! * y + now[10]! * z + r02 * u + r12 * v + r22 * w);
  const allOfB = cornerSquared(r00, r01, r02, x, r10, r11, r12, y, r20, r21, r22, z, ofB, 0);
  const allOfA = cornerSquared(r00, r10, r20, backX, r01, r11, r21, backY, r02, r12, r22, backZ, ofA, 0);
  const nearOfB = cornerSquared(r00, r01, r02, x, r10, r11, r12, y, r20, r21, r22, z, near, nearAt + 6);
  const nearOfA = cornerSquared(r00, r10, r20, backX, r01, r11, r21, backY, r02, r12, r22, backZ, near, nearAt);
  out.anywhere_mm = Math.sqrt(Math.min(allOfA, allOfB));
  out.near_mm = Math.sqrt(Math.min(nearOfA, nearOfB));
}

/**
 * The part of b's box, in b's axes, in which points of b nearer than `reach_mm` to a point of a must lie at the relative
 * pose at `at` of `poses`; with `inverse` a's and b's parts are exchanged. Written to `out` at `to`; a box without points,
 * where nothing is as near, becomes the point nearest to the other box.
 */
export function nearBox(
  poses: Float64Array,
  at: number,
  inverse: boolean,
  other: Extent,
  own: Extent,
  reach_mm: number,
  out: Float64Array,
  to: number,
): void {
  const cx = (other[0]! + other[3]!) / 2;
  const cy = (other[1]! + other[4]!) / 2;
  const cz = (other[2]! + other[5]!) / 2;
  const hx = (other[3]! - other[0]!) / 2;
  const hy = (other[4]! - other[1]!) / 2;
  const hz = (other[5]! - other[2]!) / 2;
  const tx = poses[at + 3]!;
  const ty = poses[at + 7]!;
  const tz = poses[at + 11]!;
  for (let k = 0; k < 3; k++) {
    // the other box's middle and half size along this axis of one's own
    let middle: number;
    let half: number;
    if (inverse) {
      const row = at + 4 * k;
      middle = poses[row]! * cx + poses[row + 1]! * cy + poses[row + 2]! * cz + poses[row + 3]!;
      half = Math.abs(poses[row]!) * hx + Math.abs(poses[row + 1]!) * hy + Math.abs(poses[row + 2]!) * hz;
    } else {
      const column = at + k;
      middle = poses[column]! * (cx - tx) + poses[column + 4]! * (cy - ty) + poses[column + 8]! * (cz - tz);
      half = Math.abs(poses[column]!) * hx + Math.abs(poses[column + 4]!) * hy + Math.abs(poses[column + 8]!) * hz;
    }
    const low = own[k]!;
    const high = own[k + 3]!;
    out[to + k] = Math.min(high, Math.max(low, middle - half - reach_mm));
    out[to + k + 3] = Math.max(low, Math.min(high, middle + half + reach_mm));
  }
}

/**
 * No point of one box is nearer to one of the other than this at a relative pose (b's design position into a's): the distance from
 * either box to the box in its axes around the other; 0 where both meet.
 */
export function boxesApart(relative: Pose, a: Extent, b: Extent): number {
  const r00 = relative[0]!;
  const r01 = relative[1]!;
  const r02 = relative[2]!;
  const r10 = relative[4]!;
  const r11 = relative[5]!;
  const r12 = relative[6]!;
  const r20 = relative[8]!;
  const r21 = relative[9]!;
  const r22 = relative[10]!;
  const bx = (b[0]! + b[3]!) / 2;
  const by = (b[1]! + b[4]!) / 2;
  const bz = (b[2]! + b[5]!) / 2;
  const halfBx = (b[3]! - b[0]!) / 2;
  const halfBy = (b[4]! - b[1]!) / 2;
  const halfBz = (b[5]! - b[2]!) / 2;
  const halfAx = (a[3]! - a[0]!) / 2;
  const halfAy = (a[4]! - a[1]!) / 2;
  const halfAz = (a[5]! - a[2]!) / 2;
  // from the middle of a to that of b, as a sees it and as b does
  const x = r00 * bx + r01 * by + r02 * bz + relative[3]! - (a[0]! + a[3]!) / 2;
  const y = r10 * bx + r11 * by + r12 * bz + relative[7]! - (a[1]! + a[4]!) / 2;
  const z = r20 * bx + r21 * by + r22 * bz + relative[11]! - (a[2]! + a[5]!) / 2;
  const u = r00 * x + r10 * y + r20 * z;
  const v = r01 * x + r11 * y + r21 * z;
  const w = r02 * x + r12 * y + r22 * z;
  const s00 = Math.abs(r00);
  const s01 = Math.abs(r01);
  const s02 = Math.abs(r02);
  const s10 = Math.abs(r10);
  const s11 = Math.abs(r11);
  const s12 = Math.abs(r12);
  const s20 = Math.abs(r20);
  const s21 = Math.abs(r21);
  const s22 = Math.abs(r22);
  const alongA = distanceOfGaps(
    Math.abs(x) - halfAx - (s00 * halfBx + s01 * halfBy + s02 * halfBz),
    Math.abs(y) - halfAy - (s10 * halfBx + s11 * halfBy + s12 * halfBz),
    Math.abs(z) - halfAz - (s20 * halfBx + s21 * halfBy + s22 * halfBz),
  );
  const alongB = distanceOfGaps(
    Math.abs(u) - halfBx - (s00 * halfAx + s10 * halfAy + s20 * halfAz),
    Math.abs(v) - halfBy - (s01 * halfAx + s11 * halfAy + s21 * halfAz),
    Math.abs(w) - halfBz - (s02 * halfAx + s12 * halfAy + s22 * halfAz),
  );
  return Math.max(alongA, alongB);
}

function distanceOfGaps(x: number, y: number, z: number): number {
  const dx = Math.max(0, x);
  const dy = Math.max(0, y);
  const dz = Math.max(0, z);
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}

/** The largest |M·p + m|² over the corners p of a box; M row by row, each row followed by its component of m. */
function cornerSquared(
  m00: number,
  m01: number,
  m02: number,
  m03: number,
  m10: number,
  m11: number,
  m12: number,
  m13: number,
  m20: number,
  m21: number,
  m22: number,
  m23: number,
  box: Float64Array,
  at: number,
): number {
  const minX = box[at]!;
  const minY = box[at + 1]!;
  const minZ = box[at + 2]!;
  const sizeX = box[at + 3]! - minX;
  const sizeY = box[at + 4]! - minY;
  const sizeZ = box[at + 5]! - minZ;
  let x = m00 * minX + m01 * minY + m02 * minZ + m03;
  let y = m10 * minX + m11 * minY + m12 * minZ + m13;
  let z = m20 * minX + m21 * minY + m22 * minZ + m23;
  let largest = 0;
  // one corner after another, each an edge from the one before (Gray code): +x +y −x +z +x −y −x
  for (let step = 0; step < 8; step++) {
    const squared = x * x + y * y + z * z;
    if (squared > largest) largest = squared;
    if (step === 3) {
      x += m02 * sizeZ;
      y += m12 * sizeZ;
      z += m22 * sizeZ;
    } else if ((step & 1) === 0) {
      const along = (step & 2) === 0 ? sizeX : -sizeX;
      x += m00 * along;
      y += m10 * along;
      z += m20 * along;
    } else {
      const along = step === 1 ? sizeY : -sizeY;
      x += m01 * along;
      y += m11 * along;
      z += m21 * along;
    }
  }
  return largest;
}
