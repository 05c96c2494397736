import { poseOfMotion } from "../clearance/motion.ts";
import type { Motion } from "../clearance/types.ts";
import type { Poll } from "../maths/poll.ts";
import { applyPose, POSE_SIZE } from "../maths/pose.ts";
import { distance, type Vec3 } from "../maths/vec3.ts";
import type { PreparedCheck } from "./check.ts";
import { extentOfSolid } from "./extents.ts";
import type { ModelBody } from "./model.ts";
import { recall } from "./shelf.ts";

interface Sphere {
  readonly centre: Vec3;
  readonly radius_mm: number;
}

/**
 * Numbers of the pairs, those whose bounding spheres are nearest at ride height first: what clashes is found early, long
 * before the many pairs that are far from each other are proved to be.
 */
export function nearestFirst({ pairs }: PreparedCheck, poll?: Poll): number[] {
  const placed = new Map<Motion, Map<ModelBody, Sphere>>();
  const sphereOf = (body: ModelBody, motion: Motion): Sphere => {
    const inMotion = recall(placed, motion, () => new Map<ModelBody, Sphere>());
    return recall(inMotion, body, () => {
      poll?.();
      return sphereAtRide(body, motion);
    });
  };
  const gaps = Float64Array.from(pairs, ({ first, second, sweep }) => {
    const [variant] = sweep.variants;
    if (!variant) return Number.POSITIVE_INFINITY;
    const [a, b] = [sphereOf(first, variant.a), sphereOf(second, variant.b)];
    return distance(a.centre, b.centre) - a.radius_mm - b.radius_mm;
  });
  return pairs.map((_, index) => index).sort((p, q) => gaps[p]! - gaps[q]! || p - q);
}

/** About the middle of the bounding box. */
function sphereAtRide({ solid }: ModelBody, motion: Motion): Sphere {
  const [x0, y0, z0, x1, y1, z1] = extentOfSolid(solid) as unknown as [number, number, number, number, number, number];
  const centre: Vec3 = [(x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2];
  const pose = poseOfMotion(motion, 0, new Float64Array(POSE_SIZE));
  return { centre: applyPose(pose, centre), radius_mm: distance(centre, [x1, y1, z1]) };
}
