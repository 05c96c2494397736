import type { Pose } from "../maths/pose.ts";

/** How far two bodies overlap. Belongs to the caller. */
export interface OverlapDepth {
  /** Smallest translation that parts them (of the worst pair of convex pieces), or the deepest point found; 0: they only touch. */
  depth_mm: number;
  /** convex: exact over convex pieces; inside: as convex or sampled, one wholly inside the other; sampled: deepest point at 2 mm spacing. */
  measure: "convex" | "inside" | "sampled";
  /** Unit vector, A's design axes: moving A by the depth along it parts the two (the worst pieces of them). */
  readonly partingOfA: Float64Array;
  /** Deepest points on A's and B's surface, A's design axes: pointB − pointA = depth · partingOfA. */
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
}

export interface DepthQuery {
  /** For bodies whose surfaces cross (`crosses`) or of which one is inside the other. */
  overlapDepth(relative: Pose, crosses: boolean, out: OverlapDepth): void;
}
