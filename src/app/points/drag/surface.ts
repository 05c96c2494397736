import type { ModelBody } from "../../../check/model.ts";
import { type Feature, featureNear } from "../../../geometry/features.ts";
import { rayOnSolid } from "../../../geometry/rayOnSolid.ts";
import { applyPose, identityPose, invertPose, type Pose, turnByPose } from "../../../maths/pose.ts";
import { add, distance, scale, type Vec3 } from "../../../maths/vec3.ts";
import type { Ray } from "../../viewport/sight.ts";

export interface SurfaceHit {
  readonly body: ModelBody;
  /** Where it stands now, car coordinates, mm. */
  readonly at: Vec3;
}

const AT_REST = identityPose();

/** The first of the bodies that the ray meets before `farthest_mm`, where they stand now. */
export function surfaceHit(
  bodies: readonly ModelBody[],
  poses: ReadonlyMap<string, Pose>,
  { from, way }: Ray,
  farthest_mm = Infinity,
): SurfaceHit | null {
  let nearest = farthest_mm;
  let hit: ModelBody | null = null;
  for (const body of bodies) {
    const back = invertPose(poses.get(body.key) ?? AT_REST);
    const t = rayOnSolid(body.solid, applyPose(back, from), turnByPose(back, way), nearest);
    if (t < nearest) [nearest, hit] = [t, body];
  }
  return hit && { body: hit, at: add(from, scale(way, nearest)) };
}

/** The corner or edge of the body that was hit, near the hit, car coordinates. */
export function featureAt(hit: SurfaceHit, poses: ReadonlyMap<string, Pose>, reach_mm: number): Feature | null {
  const pose = poses.get(hit.body.key) ?? AT_REST;
  const feature = featureNear(hit.body.solid, applyPose(invertPose(pose), hit.at), reach_mm);
  return feature && { ...feature, at: applyPose(pose, feature.at) };
}

/** Where the line through `at` along the unit vector `axis` meets a surface within reach, the nearest place first. */
export function surfaceAlong(
  bodies: readonly ModelBody[],
  poses: ReadonlyMap<string, Pose>,
  at: Vec3,
  axis: Vec3,
  reach_mm: number,
): SurfaceHit | null {
  const start = add(at, scale(axis, -reach_mm));
  const hits: SurfaceHit[] = [];
  let from = start;
  // a thin part is met twice within reach; more layers than this are not told apart by hand
  for (let layer = 0; layer < 6; layer++) {
    const left = 2 * reach_mm - distance(from, start);
    const hit = left > 0 ? surfaceHit(bodies, poses, { from, way: axis }, left) : null;
    if (!hit) break;
    hits.push(hit);
    from = add(hit.at, scale(axis, 1e-3));
  }
  hits.sort((a, b) => distance(a.at, at) - distance(b.at, at));
  return hits[0] ?? null;
}
