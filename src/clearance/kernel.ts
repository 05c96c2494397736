/**
 * What the kernel offers to the sweep and the patches. Poses are as in maths/pose.ts; `relative` always takes B's design
 * position into A's design position: relative = inverse(pose of A) ∘ (pose of B). All points and directions that come out
 * are in A's design axes. Queries are made once for a pair of trees and keep their scratch memory: they allocate nothing
 * later, and one query is not to be called from within its own visitor.
 */

export type { Poll } from "../maths/poll.ts";
export { type Containment, type ContainmentQuery, createContainmentQuery } from "./containment.ts";
export {
  type ConvexOverlap,
  type ConvexPiece,
  type ConvexQuery,
  convexPieceOf,
  createConvexOverlap,
  createConvexQuery,
} from "./convex.ts";
export { createDepthQuery, createOverlapDepth, type DepthQuery, type OverlapDepth } from "./depth.ts";
export { createSampledDepth, type SampledDepth } from "./depthSampled.ts";
export {
  createWitness,
  type DistanceQuery,
  type Leeway,
  leastWithin,
  TOUCHING_mm,
  type Witness,
} from "./distance.ts";
export { createPairQuery, type PairQuery, type PairVisitor } from "./distancePairs.ts";
export { createSurfacePoint, type PointQuery, type SurfacePoint } from "./distancePoint.ts";
export { createInsideQuery, type InsideQuery } from "./inside.ts";
export {
  chooseKernel,
  createDistanceQuery,
  createPointQuery,
  type KernelName,
  kernelInUse,
  releaseTree,
} from "./kernelChoice.ts";
export { type QueryCounts, queryCounts } from "./queryCounts.ts";
export { buildTree, type CollisionTree, refitTree } from "./tree.ts";
