import { composePoses, identityPose, type Pose, rotationPose, turnPose } from "../maths/pose.ts";
import { add } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import type { Scene } from "../scene/scene.ts";

/**
 * The powertrain's pose in car coordinates: first its place, then the pose `poseId`, each p → about + R(p − about) + shift.
 * The same for both sides. Throws InputError "missing-id" for a pose that the scene does not have.
 */
export function powertrainPose(scene: Scene, poseId: string): Pose {
  const { place, poses } = scene.powertrain;
  const pose = poses.find((candidate) => candidate.id === poseId);
  if (!pose) {
    throw new InputError(
      "missing-id",
      { path: "powertrain.poses" },
      `there is no powertrain pose "${poseId}"`,
      `one of ${poses.map((candidate) => candidate.id).join(", ")}`,
    );
  }
  const placed = place ? shifted(turnPose(place.turn_deg, place.about), place.shift_mm) : identityPose();
  const rocked = rotationPose(pose.axis, (pose.angle_deg * Math.PI) / 180, pose.about);
  return composePoses(shifted(rocked, pose.shift_mm), placed);
}

function shifted(pose: Pose, by: readonly [number, number, number]): Pose {
  const [x, y, z] = add([pose[3]!, pose[7]!, pose[11]!], by);
  pose[3] = x;
  pose[7] = y;
  pose[11] = z;
  return pose;
}
