import { applyPose, type Pose } from "../maths/pose.ts";
import {
  type CollisionTree,
  type ContainmentQuery,
  createContainmentQuery,
  createDepthQuery,
  createDistanceQuery,
  createOverlapDepth,
  createWitness,
  type DepthQuery,
  type Leeway,
  type OverlapDepth,
  type Poll,
  type Witness,
} from "./kernel.ts";
import type { Measure } from "./types.ts";

/** Signed clearance of two bodies at one relative pose. All points and directions in a's design axes. */
export interface PairState {
  /** Distance of the surfaces; while the bodies overlap, minus the depth. Infinity where they are not as near as was asked. */
  clearance_mm: number;
  /** The clearance is proved to be no less: the same, unless more was not asked for. */
  least_mm: number;
  measure: Measure;
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
  /** Unit vector along which moving a opens the gap, or parts the two. */
  readonly partingOfA: Float64Array;
  /** Nearest triangles and direction: the hint for a state close to this one. */
  readonly witness: Witness;
}

/** Measures one pair of bodies at one relative pose after another (b's design position into a's). */
export interface PairGauge {
  /** The state measured last; its witness is what the next measure starts from. */
  readonly state: PairState;
  /** Whether the depth of an overlap is sampled, not exact. */
  readonly samplesDepth: boolean;
  /**
   * With `apart` the caller vouches that neither body is inside the other unless their surfaces cross. `below_mm` and
   * `leeway` say how closely the distance must be known (distance.ts).
   */
  measure(relative: Pose, apart: boolean, below_mm?: number, leeway?: Leeway): void;
  /** Whether the bodies overlap or touch; leaves the state's hint, not its values. */
  overlaps(relative: Pose): boolean;
}

export function createPairState(): PairState {
  return {
    clearance_mm: Number.POSITIVE_INFINITY,
    least_mm: Number.POSITIVE_INFINITY,
    measure: "surface",
    pointA: new Float64Array(3),
    pointB: new Float64Array(3),
    partingOfA: new Float64Array(3),
    witness: createWitness(),
  };
}

/** The gauge of two whole bodies. */
export function createPairGauge(a: CollisionTree, b: CollisionTree, poll?: Poll): PairGauge {
  const state = createPairState();
  const distance = createDistanceQuery(a, b, poll);
  // most pairs never come near each other
  let containment: ContainmentQuery | null = null;
  let depth: DepthQuery | null = null;
  let overlap: OverlapDepth | null = null;
  const isWithin = (relative: Pose): boolean => {
    if (sphereGap(a, b, relative) > 0) return false;
    containment ??= createContainmentQuery(a, b, poll);
    return containment.containment(relative) !== "none";
  };
  return {
    state,
    samplesDepth: a.solid.convexPieces === null || b.solid.convexPieces === null,
    measure(relative, apart, below_mm, leeway) {
      const gap = below_mm === undefined ? 0 : sphereGap(a, b, relative);
      if (below_mm !== undefined && gap > 0 && gap >= below_mm) {
        takeFar(state, gap);
        return;
      }
      const found = distance.distance(relative, state.witness, below_mm, leeway);
      const crosses = found && state.witness.distance_mm <= 0;
      if (crosses || (!apart && isWithin(relative))) {
        depth ??= createDepthQuery(a, b, poll);
        overlap ??= createOverlapDepth();
        depth.overlapDepth(relative, crosses, overlap);
        takeOverlap(state, overlap);
      } else takeSurface(state, found);
    },
    overlaps(relative) {
      return distance.intersects(relative, state.witness) || isWithin(relative);
    },
  };
}

/** Distance of the spheres around the two bodies' boxes, mm; negative where they meet. */
export function sphereGap(a: CollisionTree, b: CollisionTree, relative: Pose): number {
  if (a.nodeCount === 0 || b.nodeCount === 0) return Number.POSITIVE_INFINITY;
  const [x, y, z] = applyPose(relative, [b.boxes[0]!, b.boxes[1]!, b.boxes[2]!]);
  return Math.hypot(x - a.boxes[0]!, y - a.boxes[1]!, z - a.boxes[2]!) - a.radius[0]! - b.radius[0]!;
}

/** Takes the bodies to be at least so far apart; whatever was known of where they are nearest stays the hint. */
export function takeFar(state: PairState, least_mm: number): void {
  state.clearance_mm = Number.POSITIVE_INFINITY;
  state.least_mm = least_mm;
  state.measure = "surface";
}

export function takeSurface(state: PairState, found: boolean): void {
  const { witness } = state;
  state.clearance_mm = found ? witness.distance_mm : Number.POSITIVE_INFINITY;
  state.least_mm = witness.least_mm;
  state.measure = "surface";
  for (let k = 0; k < 3; k++) {
    state.pointA[k] = witness.pointA[k]!;
    state.pointB[k] = witness.pointB[k]!;
    // −0 would read as a sign
    state.partingOfA[k] = 0 - witness.direction[k]!;
  }
}

export function takeOverlap(state: PairState, overlap: OverlapDepth): void {
  // −0 would read as a sign
  state.clearance_mm = overlap.depth_mm > 0 ? -overlap.depth_mm : 0;
  state.least_mm = state.clearance_mm;
  state.measure = overlap.measure;
  for (let k = 0; k < 3; k++) {
    state.pointA[k] = overlap.pointA[k]!;
    state.pointB[k] = overlap.pointB[k]!;
    state.partingOfA[k] = overlap.partingOfA[k]!;
  }
}
