import type { Pacer } from "../maths/poll.ts";
import type { CollisionTree } from "./tree.ts";

/**
 * Winding number of the closed shells (`isClosed` by shell) about a point, as the sum of the solid angles of all their
 * triangles over 4π: 1 inside, 0 outside, a half on the surface. Slow, but without special cases.
 * A. van Oosterom and J. Strackee, The solid angle of a plane triangle, IEEE Trans. Biomed. Eng. 30 (1983), eq. 8.
 */
export function windingBySolidAngle(
  tree: CollisionTree,
  isClosed: Uint8Array,
  x: number,
  y: number,
  z: number,
  pacer?: Pacer,
): number {
  const { triangles, triangleCount, shell } = tree;
  let sum = 0;
  for (let i = 0; i < triangleCount; i++) {
    pacer?.spend(1);
    if (isClosed[shell[i]!] === 0) continue;
    const at = 9 * i;
    const ax = triangles[at]! - x;
    const ay = triangles[at + 1]! - y;
    const az = triangles[at + 2]! - z;
    const bx = triangles[at + 3]! - x;
    const by = triangles[at + 4]! - y;
    const bz = triangles[at + 5]! - z;
    const cx = triangles[at + 6]! - x;
    const cy = triangles[at + 7]! - y;
    const cz = triangles[at + 8]! - z;
    const a = Math.sqrt(ax * ax + ay * ay + az * az);
    const b = Math.sqrt(bx * bx + by * by + bz * bz);
    const c = Math.sqrt(cx * cx + cy * cy + cz * cz);
    const volume = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    const below =
      a * b * c +
      (ax * bx + ay * by + az * bz) * c +
      (bx * cx + by * cy + bz * cz) * a +
      (cx * ax + cy * ay + cz * az) * b;
    sum += 2 * Math.atan2(volume, below);
  }
  return sum / (4 * Math.PI);
}
