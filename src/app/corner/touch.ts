import type { ModelBody } from "../../check/model.ts";
import type { PairVerdict } from "../../check/result.ts";
import { applyPose, invertPose, type Pose } from "../../maths/pose.ts";
import { mix, type Vec3 } from "../../maths/vec3.ts";
import type { Scene } from "../../scene/scene.ts";
import { livePoses } from "../store/livePoses.ts";

/**
 * Where a pair's touch is with the wheels where they are now, car coordinates: the middle between the points of its
 * worst state, carried along by the pair's first body.
 */
export function touchNow(
  pair: PairVerdict,
  scene: Scene,
  bodies: readonly ModelBody[],
  poses: ReadonlyMap<string, Pose>,
): Vec3 {
  const worst = mix(pair.pointA, pair.pointB, 0.5);
  const carrier = bodies.find(({ key }) => key === pair.keys[0]);
  const now = poses.get(pair.keys[0]);
  if (!carrier || !now) return worst;
  const { travel_mm, ...engine } = pair.at;
  const then = livePoses(scene, [carrier], { travel_mm: { left: travel_mm, right: travel_mm }, ...engine }).get(
    carrier.key,
  );
  return then ? applyPose(now, applyPose(invertPose(then), worst)) : worst;
}
