import { poseOfMotion } from "../clearance/motion.ts";
import { applyPose, POSE_SIZE } from "../maths/pose.ts";
import { distance, type Vec3 } from "../maths/vec3.ts";
import type { PreparedCheck } from "./check.ts";
import type { ModelBody } from "./model.ts";

interface Sphere {
  readonly centre: Vec3;
  readonly radius_mm: number;
}

/**
 * Numbers of the pairs, those whose bounding spheres are nearest at ride height first: what clashes is found early, long
 * before the many pairs that are far from each other are proved to be.
 */
export function nearestFirst({ bodies, pairs }: PreparedCheck): number[] {
  const spheres = new Map(bodies.map((body) => [body.key, sphereOf(body)]));
  const gaps = pairs.map(({ first, second, sweep }) => {
    const [variant] = sweep.variants;
    if (!variant) return Number.POSITIVE_INFINITY;
    const [a, b] = [spheres.get(first.key)!, spheres.get(second.key)!];
    const [poseOfA, poseOfB] = [variant.a, variant.b].map((motion) =>
      poseOfMotion(motion, 0, new Float64Array(POSE_SIZE)),
    );
    return distance(applyPose(poseOfA!, a.centre), applyPose(poseOfB!, b.centre)) - a.radius_mm - b.radius_mm;
  });
  return pairs.map((_, index) => index).sort((p, q) => gaps[p]! - gaps[q]! || p - q);
}

/** About the middle of the bounding box. */
function sphereOf({ solid: { positions } }: ModelBody): Sphere {
  const low = [0, 1, 2].map((axis) => extreme(positions, axis, Math.min));
  const high = [0, 1, 2].map((axis) => extreme(positions, axis, Math.max));
  const centre: Vec3 = [(low[0]! + high[0]!) / 2, (low[1]! + high[1]!) / 2, (low[2]! + high[2]!) / 2];
  return { centre, radius_mm: distance(centre, [high[0]!, high[1]!, high[2]!]) };
}

function extreme(positions: Float32Array, axis: number, pick: (a: number, b: number) => number): number {
  let found = positions[axis] ?? 0;
  for (let i = axis; i < positions.length; i += 3) found = pick(found, positions[i]!);
  return found;
}
