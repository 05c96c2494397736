import { applyPose, invertPose, type Pose } from "../maths/pose.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { createInsideQuery, type InsideQuery } from "./inside.ts";
import type { CollisionTree } from "./tree.ts";

/** Which body has a whole shell inside the other. Both at once (hollow bodies that hold each other's parts) reads "a-in-b". */
export type Containment = "none" | "a-in-b" | "b-in-a";

export interface ContainmentQuery {
  /** For bodies whose surfaces neither cross nor touch at this pose; then one corner of a shell stands for all of it. */
  containment(relative: Pose): Containment;
}

export function createContainmentQuery(a: CollisionTree, b: CollisionTree): ContainmentQuery {
  const insideA = createInsideQuery(a);
  const insideB = createInsideQuery(b);
  const cornersOfA = shellCorners(a);
  const cornersOfB = shellCorners(b);
  return {
    containment(relative) {
      if (anyInside(cornersOfA, invertPose(relative), insideB)) return "a-in-b";
      return anyInside(cornersOfB, relative, insideA) ? "b-in-a" : "none";
    },
  };
}

function shellCorners({ solid }: CollisionTree): Vec3[] {
  return solid.shells
    .filter((shell) => shell.triangleCount > 0)
    .map((shell) => {
      const vertex = 3 * solid.indices[3 * shell.firstTriangle]!;
      return [solid.positions[vertex]!, solid.positions[vertex + 1]!, solid.positions[vertex + 2]!];
    });
}

function anyInside(corners: readonly Vec3[], pose: Pose, other: InsideQuery): boolean {
  return corners.some((corner) => {
    const [x, y, z] = applyPose(pose, corner);
    return other.isInside(x, y, z);
  });
}
