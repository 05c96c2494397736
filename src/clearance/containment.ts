import type { Poll } from "../maths/poll.ts";
import { invertPose, POSE_SIZE, type Pose } from "../maths/pose.ts";
import { createInsideQuery, type InsideQuery } from "./inside.ts";
import type { CollisionTree } from "./tree.ts";

/** Which body has a whole shell inside the other. Both at once (hollow bodies that hold each other's parts) reads "a-in-b". */
export type Containment = "none" | "a-in-b" | "b-in-a";

export interface ContainmentQuery {
  /** For bodies whose surfaces neither cross nor touch at this pose; then one corner of a shell stands for all of it. */
  containment(relative: Pose): Containment;
}

export function createContainmentQuery(a: CollisionTree, b: CollisionTree, poll?: Poll): ContainmentQuery {
  const insideA = createInsideQuery(a, poll);
  const insideB = createInsideQuery(b, poll);
  const cornersOfA = shellCorners(a);
  const cornersOfB = shellCorners(b);
  const back = new Float64Array(POSE_SIZE);
  return {
    containment(relative) {
      if (anyInside(cornersOfA, invertPose(relative, back), insideB)) return "a-in-b";
      return anyInside(cornersOfB, relative, insideA) ? "b-in-a" : "none";
    },
  };
}

/** One corner of each shell, 3 numbers each. */
function shellCorners({ solid }: CollisionTree): Float64Array {
  const { positions, indices } = solid;
  const shells = solid.shells.filter((shell) => shell.triangleCount > 0);
  const corners = new Float64Array(3 * shells.length);
  for (const [index, shell] of shells.entries()) {
    const vertex = 3 * indices[3 * shell.firstTriangle]!;
    for (let k = 0; k < 3; k++) corners[3 * index + k] = positions[vertex + k]!;
  }
  return corners;
}

function anyInside(corners: Float64Array, pose: Pose, other: InsideQuery): boolean {
  for (let at = 0; at < corners.length; at += 3) {
    const x = corners[at]!;
    const y = corners[at + 1]!;
    const z = corners[at + 2]!;
    const inside = other.isInside(
      pose[0]! * x + pose[1]! * y + pose[2]! * z + pose[3]!,
      pose[4]! * x + pose[5]! * y + pose[6]! * z + pose[7]!,
      pose[8]! * x + pose[9]! * y + pose[10]! * z + pose[11]!,
    );
    if (inside) return true;
  }
  return false;
}
