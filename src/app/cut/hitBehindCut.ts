import type { ModelBody } from "../../check/model.ts";
import { rayOnSolid } from "../../geometry/rayOnSolid.ts";
import { applyPose, identityPose, invertPose, type Pose, turnByPose } from "../../maths/pose.ts";
import { add, dot, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import { faceAt } from "../measure/faceAt.ts";
import { type SurfaceHit, surfaceHit } from "../points/drag/surface.ts";
import type { Cut } from "../viewport/cut.ts";
import type { Ray } from "../viewport/sight.ts";

const AT_REST = identityPose();

/**
 * The first of the bodies that the ray meets where they stand now, with what is cut away left out: what is picked is what
 * is seen. Where the cut goes through a closed body its fill is met, in the plane.
 */
export function hitBehindCut(
  bodies: readonly ModelBody[],
  poses: ReadonlyMap<string, Pose>,
  ray: Ray,
  cut: Cut | null,
): SurfaceHit | null {
  if (!cut) return surfaceHit(bodies, poses, ray);
  const { at, normal } = cut;
  const height = dot(normal, subtract(ray.from, at));
  const climb = dot(normal, ray.way);
  const crossing = climb === 0 ? Infinity : -height / climb;
  if (height <= 0) {
    // from the side that stays: up to the plane
    return surfaceHit(bodies, poses, ray, crossing > 0 ? crossing : Infinity);
  }
  if (!(crossing > 0) || crossing === Infinity) return null;
  const from = add(ray.from, scale(ray.way, crossing));
  const filled = bodies.find((body) => isWithin(body, poses, from, ray.way));
  return filled ? { body: filled, at: from } : surfaceHit(bodies, poses, { from, way: ray.way });
}

/** Whether a closed body is left by the ray before it is entered: its start lies within. */
function isWithin(body: ModelBody, poses: ReadonlyMap<string, Pose>, from: Vec3, way: Vec3): boolean {
  if (!body.solid.shells.every(({ closed }) => closed)) return false;
  const back = invertPose(poses.get(body.key) ?? AT_REST);
  const [start, along] = [applyPose(back, from), turnByPose(back, way)];
  const t = rayOnSolid(body.solid, start, along);
  if (t === Infinity) return false;
  const normal = faceAt(body.solid, add(start, scale(along, t)));
  return normal !== null && dot(normal, along) > 0;
}
