import type { PreparedCheck } from "../../src/check/check.ts";
import type { ModelBody } from "../../src/check/model.ts";
import { buildTree, createDistanceQuery, createWitness } from "../../src/clearance/kernel.ts";
import { RelativeMotion } from "../../src/clearance/motion.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { POSE_SIZE } from "../../src/maths/pose.ts";
import type { Query } from "./peers.ts";

const STEP_MM = 10;
/** Peers are some hundred times slower: they get so many distances, and so do we beside them. */
export const MOST_QUERIES = 100;

/** Each query by itself, from nothing; trees are kept. */
export function askOurs(bodies: ReadonlyMap<string, ModelBody>, queries: readonly Query[], cap_mm: number): void {
  const treeOf = (key: string) => {
    const { solid } = bodies.get(key)!;
    const tree = trees.get(solid) ?? buildTree(solid);
    trees.set(solid, tree);
    return tree;
  };
  for (const { a, b, pose } of queries) {
    createDistanceQuery(treeOf(a), treeOf(b)).distance(pose, createWitness(), cap_mm);
  }
}

const trees = new WeakMap<Solid, ReturnType<typeof buildTree>>();

/** Steps of pairs all over the list. */
export function sampleQueries({ pairs }: PreparedCheck): Query[] {
  const all = pairs.flatMap(({ sweep: { a, b, variants } }) =>
    variants.flatMap((variant): Query[] => {
      const motion = new RelativeMotion(variant.a, variant.b, variant.from_mm, variant.to_mm);
      const count = motion.still ? 1 : Math.ceil((variant.to_mm - variant.from_mm) / STEP_MM) + 1;
      return Array.from({ length: count }, (_, i) => {
        const share = count === 1 ? 0 : i / (count - 1);
        const travel_mm = variant.from_mm + (variant.to_mm - variant.from_mm) * share;
        return { a, b, pose: motion.poseAt(travel_mm, new Float64Array(POSE_SIZE)) };
      });
    }),
  );
  const every = Math.max(1, Math.ceil(all.length / MOST_QUERIES));
  return all.filter((_, i) => i % every === 0);
}
