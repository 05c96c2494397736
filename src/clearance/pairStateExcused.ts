import { applyPose, invertPose, POSE_SIZE, type Pose } from "../maths/pose.ts";
import {
  createInsideQuery,
  createOverlapDepth,
  createSampledDepth,
  type InsideQuery,
  type Poll,
  type SampledDepth,
} from "./kernel.ts";
import { createPairState, type PairGauge, sphereGap, takeFar, takeOverlap, takeSurface } from "./pairState.ts";
import { createSurfaceDistance } from "./surface.ts";
import type { ClippedBody } from "./sweepShelf.ts";

/** What a crossing counts that is too shallow to find a point inside, mm. */
const LEAST_mm = 0.01;

/**
 * The gauge of two bodies that share a joint. Their clearance is that of the surfaces that count. They overlap where
 * those cross, or where a connected piece of the one's counted surface lies inside the other's whole solid; the depth is
 * then the deepest point of either's counted surface inside the other's whole solid, "sampled" (depthDeepest.ts).
 */
export function createExcusedGauge(a: ClippedBody, b: ClippedBody, poll?: Poll): PairGauge {
  const state = createPairState();
  const distance = createSurfaceDistance(a.counted, b.counted, poll);
  // most pairs never come near each other
  let corners: Corners | null = null;
  const inverse = new Float64Array(POSE_SIZE);
  const overlap = createOverlapDepth();
  let depth: SampledDepth | null = null;

  const isInside = (relative: Pose): boolean => {
    corners ??= {
      ofA: a.farthest ?? firstCorners(a),
      ofB: b.farthest ?? firstCorners(b),
      insideA: createInsideQuery(a.whole.tree, poll),
      insideB: createInsideQuery(b.whole.tree, poll),
    };
    const { ofA, ofB, insideA, insideB } = corners;
    return anyInside(insideB, ofA, inverse) || anyInside(insideA, ofB, relative);
  };

  return {
    state,
    samplesDepth: true,
    // A surface may also get inside through what is excused, so that the caller's word on `apart` is not enough here.
    measure(relative, _apart, below_mm, leeway) {
      const gap = below_mm === undefined ? 0 : sphereGap(a.whole.tree, b.whole.tree, relative);
      if (below_mm !== undefined && gap > 0 && gap >= below_mm) {
        takeFar(state, gap);
        return;
      }
      invertPose(relative, inverse);
      const found = distance.distance(relative, state.witness, below_mm, leeway);
      const crosses = found && state.witness.distance_mm <= 0;
      if (crosses || isInside(relative)) {
        depth ??= createSampledDepth(a.counted, b.counted, a.whole.tree, b.whole.tree, poll);
        depth.deepest(relative, inverse, overlap);
        if (overlap.depth_mm > 0) {
          overlap.measure = "sampled";
          takeOverlap(state, overlap);
        } else {
          takeSurface(state, found);
          state.measure = "sampled";
          state.clearance_mm = -LEAST_mm;
          state.least_mm = -LEAST_mm;
        }
      } else takeSurface(state, found);
    },
    overlaps(relative) {
      invertPose(relative, inverse);
      return distance.intersects(relative, state.witness) || isInside(relative);
    },
  };
}

/** What tells whether a connected piece of one body is inside the other. */
interface Corners {
  readonly ofA: Float64Array;
  readonly ofB: Float64Array;
  readonly insideA: InsideQuery;
  readonly insideB: InsideQuery;
}

/** A corner of each shell of a body all of whose surface counts. */
function firstCorners({ whole }: ClippedBody): Float64Array {
  const { positions, indices, shells } = whole.tree.solid;
  return Float64Array.from(
    shells.flatMap((shell) => {
      const vertex = indices[3 * shell.firstTriangle]!;
      return [...positions.subarray(3 * vertex, 3 * vertex + 3)];
    }),
  );
}

function anyInside(inside: InsideQuery, corners: Float64Array, pose: Pose): boolean {
  for (let i = 0; i < corners.length; i += 3) {
    const [x, y, z] = applyPose(pose, [corners[i]!, corners[i + 1]!, corners[i + 2]!]);
    if (inside.isInside(x, y, z)) return true;
  }
  return false;
}
