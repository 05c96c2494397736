import type { Pose } from "../maths/pose.ts";

/** Gets tree triangles of A and B and their distance (0: they cross or touch); returns true to stop the search. May not throw. */
export type PairVisitor = (triangleA: number, triangleB: number, distance_mm: number) => boolean;

export interface PairQuery {
  /** Visits every pair of triangles at most `limit_mm` apart, each once, in no set order. True if the visitor stopped it. */
  forEachPairWithin(relative: Pose, limit_mm: number, visit: PairVisitor): boolean;
}
