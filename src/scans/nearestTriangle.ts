import { createPointQuery, createSurfacePoint } from "../clearance/distancePoint.ts";
import { buildTree, type CollisionTree } from "../clearance/tree.ts";
import type { Solid } from "../geometry/solid.ts";
import type { Vec3 } from "../maths/vec3.ts";

const trees = new WeakMap<Solid, CollisionTree>();

/** Number of the solid's triangle that is nearest to a place. The tree for it is made once. */
export function nearestTriangle(solid: Solid, at: Vec3): number {
  let tree = trees.get(solid);
  if (!tree) {
    tree = buildTree(solid);
    trees.set(solid, tree);
  }
  const found = createSurfacePoint();
  createPointQuery(tree).nearest(...at, Number.POSITIVE_INFINITY, found);
  return tree.original[found.triangle]!;
}
