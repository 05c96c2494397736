import { TRIANGLE_RESULT_SIZE, triangleDistance } from "../../../src/clearance/triangleDistance.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import type { Pose } from "../../../src/maths/pose.ts";

/** 9 coordinates a triangle, moved by the pose. */
export function soupOf(solid: Solid, pose?: Pose): Float64Array {
  const soup = new Float64Array(3 * solid.indices.length);
  solid.indices.forEach((vertex, i) => {
    const p = solid.positions.subarray(3 * vertex, 3 * vertex + 3);
    for (let row = 0; row < 3; row++) {
      soup[3 * i + row] = pose
        ? pose[4 * row]! * p[0]! + pose[4 * row + 1]! * p[1]! + pose[4 * row + 2]! * p[2]! + pose[4 * row + 3]!
        : p[row]!;
    }
  });
  return soup;
}

/** Distance of every pair of triangles: nA rows of nB. */
export function allPairs(a: Solid, b: Solid, relative: Pose): Float64Array {
  const soupA = soupOf(a);
  const soupB = soupOf(b, relative);
  const columns = soupB.length / 9;
  const all = new Float64Array((soupA.length / 9) * columns);
  const out = new Float64Array(TRIANGLE_RESULT_SIZE);
  for (let i = 0; i < soupA.length / 9; i++) {
    for (let j = 0; j < columns; j++) {
      triangleDistance(soupA, 9 * i, soupB, 9 * j, out);
      all[i * columns + j] = Math.sqrt(out[0]!);
    }
  }
  return all;
}
