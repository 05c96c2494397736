import type { Pose } from "../maths/pose.ts";
import type { CollisionTree } from "./tree.ts";

/** Where two surfaces are nearest. Belongs to the caller, who hands it back as the hint of the next, similar query. */
export interface Witness {
  distance_mm: number;
  /** Tree triangles (see tree.ts), −1 where none is known yet. */
  triangleA: number;
  triangleB: number;
  /** On A's and on B's surface, both in A's design axes. */
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
  /** Unit vector from A's point to B's, A's design axes; kept while the surfaces cross or are farther than asked. */
  readonly direction: Float64Array;
}

export interface DistanceQuery {
  /**
   * Smallest distance between the two surfaces, mm; 0 where they cross or touch. Relative error below 1e-12 of the
   * coordinates' size (plus what float32 positions cost).
   *
   * True: `witness` holds the exact distance, which is below `below_mm`. False: the distance is `below_mm` or more (or a
   * solid has no triangles), and `witness` keeps its triangles and direction, which still speed up the next query.
   * The witness is also the hint: its triangles and direction, if any, are tried first.
   */
  distance(relative: Pose, witness: Witness, below_mm?: number): boolean;
  /** Whether the surfaces cross or touch (to 1e-9 mm). A body inside another does not: see inside.ts. */
  intersects(relative: Pose, witness: Witness): boolean;
}

export type CreateDistanceQuery = (a: CollisionTree, b: CollisionTree) => DistanceQuery;
