import type { Poll } from "../maths/poll.ts";
import type { Pose } from "../maths/pose.ts";
import type { ConvexOverlap } from "./convex.ts";
import { createDeepestSearch, type Deepest } from "./depthDeepest.ts";
import type { Surface } from "./surface.ts";
import type { CollisionTree } from "./tree.ts";

export interface SampledDepth {
  /**
   * Deepest point of either surface inside the other body: depth, the point and the nearest point of the surface it has
   * to come out of, a's design axes. Depth 0 and nothing else set if no sample is inside. `inverse` is that of `relative`.
   */
  deepest(relative: Pose, inverse: Pose, out: ConvexOverlap): void;
}

/** Of each body the surface that counts, and the solid that it bounds if that is more. */
export function createSampledDepth(
  surfaceA: Surface,
  surfaceB: Surface,
  bodyA: CollisionTree,
  bodyB: CollisionTree,
  poll?: Poll,
): SampledDepth {
  const ofAInB = surfaceA.map((tree) => createDeepestSearch(tree, bodyB, poll));
  const ofBInA = surfaceB.map((tree) => createDeepestSearch(tree, bodyA, poll));
  const found: Deepest = { depth_mm: 0, point: new Float64Array(3), nearest: new Float64Array(3) };
  return {
    deepest(relative, inverse, out) {
      found.depth_mm = 0;
      for (const search of ofAInB) if (search.guess(inverse, found)) takeOfA(relative, found, out);
      for (const search of ofBInA) if (search.guess(relative, found)) takeOfB(found, out);
      for (const search of ofAInB) if (search.search(inverse, found)) takeOfA(relative, found, out);
      for (const search of ofBInA) if (search.search(relative, found)) takeOfB(found, out);
      out.depth_mm = found.depth_mm;
    },
  };
}

/** A point of a's surface in b, found in b's axes. */
function takeOfA(relative: Pose, found: Deepest, out: ConvexOverlap): void {
  place(relative, found.point, out.pointA);
  place(relative, found.nearest, out.pointB);
  setParting(found, out);
}

/** A point of b's surface in a, found in a's axes. */
function takeOfB(found: Deepest, out: ConvexOverlap): void {
  out.pointA.set(found.nearest);
  out.pointB.set(found.point);
  setParting(found, out);
}

function setParting(found: Deepest, out: ConvexOverlap): void {
  for (let k = 0; k < 3; k++) out.partingOfA[k] = (out.pointB[k]! - out.pointA[k]!) / found.depth_mm;
}

function place(pose: Pose, point: Float64Array, out: Float64Array): void {
  const x = point[0]!;
  const y = point[1]!;
  const z = point[2]!;
  for (let row = 0; row < 3; row++) {
    const i = 4 * row;
    out[row] = pose[i]! * x + pose[i + 1]! * y + pose[i + 2]! * z + pose[i + 3]!;
  }
}
