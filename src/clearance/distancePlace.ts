import type { Frame } from "./distanceBound.ts";
import type { CollisionTree } from "./tree.ts";

/** Numbers of a placed triangle: 9 corner coordinates in A's axes, then its box there: low x, y, z, high x, y, z. */
export const PLACED_SIZE = 15;

/** Puts tree triangle j of B into A's axes, at `placed[at]…`. */
export function placeTriangle(b: CollisionTree, j: number, frame: Frame, placed: Float64Array, at: number): void {
  const triangles = b.triangles;
  for (let corner = 0; corner < 9; corner += 3) {
    const x = triangles[9 * j + corner]!;
    const y = triangles[9 * j + corner + 1]!;
    const z = triangles[9 * j + corner + 2]!;
    placed[at + corner] = frame[0]! * x + frame[1]! * y + frame[2]! * z + frame[3]!;
    placed[at + corner + 1] = frame[4]! * x + frame[5]! * y + frame[6]! * z + frame[7]!;
    placed[at + corner + 2] = frame[8]! * x + frame[9]! * y + frame[10]! * z + frame[11]!;
  }
  for (let axis = 0; axis < 3; axis++) {
    const p = placed[at + axis]!;
    const q = placed[at + 3 + axis]!;
    const r = placed[at + 6 + axis]!;
    placed[at + 9 + axis] = Math.min(p, q, r);
    placed[at + 12 + axis] = Math.max(p, q, r);
  }
}
