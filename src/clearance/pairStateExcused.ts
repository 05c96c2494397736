import { applyPose, invertPose, POSE_SIZE, type Pose } from "../maths/pose.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { createDeepestSearch, type Deepest } from "./excuseDepth.ts";
import { createDistanceQuery, createInsideQuery, createOverlapDepth, type InsideQuery } from "./kernel.ts";
import { createPairState, type PairGauge, takeOverlap, takeSurface } from "./pairState.ts";
import type { ClippedBody } from "./sweepShelf.ts";

/**
 * The gauge of two bodies that share a joint. Their clearance is that of the surfaces that count. They overlap where
 * those cross, or where a connected piece of the one's counted surface lies inside the other's whole solid; the depth is
 * then the deepest point of either's counted surface inside the other's whole solid, "sampled" (excuseDepth.ts).
 */
export function createExcusedGauge(a: ClippedBody, b: ClippedBody): PairGauge {
  const state = createPairState();
  const overlap = createOverlapDepth();
  const distance = createDistanceQuery(a.counted, b.counted);
  const insideA = createInsideQuery(a.whole.tree);
  const insideB = createInsideQuery(b.whole.tree);
  const ofAInB = createDeepestSearch(a.counted, b.whole.tree);
  const ofBInA = createDeepestSearch(b.counted, a.whole.tree);
  const cornersOfA = a.farthest ?? firstCorners(a);
  const cornersOfB = b.farthest ?? firstCorners(b);
  const inverse = new Float64Array(POSE_SIZE);
  const deepest: Deepest = { depth_mm: 0, point: new Float64Array(3), nearest: new Float64Array(3) };

  const isInside = (relative: Pose): boolean =>
    anyInside(insideB, cornersOfA, inverse) || anyInside(insideA, cornersOfB, relative);
  const measureOverlap = (relative: Pose): void => {
    deepest.depth_mm = 0;
    // of a's surface in b: in b's axes; of b's surface in a: in a's
    const deeperInB = ofAInB.search(inverse, deepest);
    if (deeperInB) {
      overlap.pointA.set(applyPose(relative, vectorOf(deepest.point)));
      overlap.pointB.set(applyPose(relative, vectorOf(deepest.nearest)));
    }
    const deeperInA = ofBInA.search(relative, deepest);
    if (deeperInA) {
      overlap.pointA.set(deepest.nearest);
      overlap.pointB.set(deepest.point);
    }
    overlap.depth_mm = deepest.depth_mm;
    overlap.measure = "sampled";
    if (deeperInA || deeperInB) {
      for (let k = 0; k < 3; k++) overlap.partingOfA[k] = (overlap.pointB[k]! - overlap.pointA[k]!) / deepest.depth_mm;
    } else {
      // they only touch: where they do, along the last direction between them
      overlap.pointA.set(state.witness.pointA);
      overlap.pointB.set(state.witness.pointB);
      for (let k = 0; k < 3; k++) overlap.partingOfA[k] = -state.witness.direction[k]!;
    }
  };

  return {
    state,
    samplesDepth: true,
    // A surface may also get inside through what is excused, so that the caller's word on `apart` is not enough here.
    measure(relative) {
      invertPose(relative, inverse);
      const found = distance.distance(relative, state.witness);
      const crosses = found && state.witness.distance_mm <= 0;
      if (crosses || isInside(relative)) {
        measureOverlap(relative);
        takeOverlap(state, overlap);
      } else takeSurface(state, found);
    },
    overlaps(relative) {
      invertPose(relative, inverse);
      return distance.intersects(relative, state.witness) || isInside(relative);
    },
  };
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

function vectorOf(values: Float64Array): Vec3 {
  return [values[0]!, values[1]!, values[2]!];
}
