import { composePoses, identityPose, type Pose, rotationPose, turnPose } from "../maths/pose.ts";
import { add, scale } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import type { PowertrainPose, Scene } from "../scene/scene.ts";

/**
 * The powertrain's pose in car coordinates: first its place, then the pose `poseId`, each p → about + R(p − about) + shift.
 * `share`: how far it has rocked from rest (0) to the pose (1), R by that share of the angle, shift by that share of it.
 * The same for both sides. Throws InputError "missing-id" for a pose that the scene does not have.
 */
export function powertrainPose(scene: Scene, poseId: string, share = 1): Pose {
  const rocked = rockedPose(findPose(scene, poseId), share);
  return composePoses(rocked, placedPose(scene));
}

/** The powertrain in its place, before any pose. */
export function placedPose({ powertrain: { place } }: Scene): Pose {
  return place ? shifted(turnPose(place.turn_deg, place.about), place.shift_mm) : identityPose();
}

function rockedPose({ axis, angle_deg, about, shift_mm }: PowertrainPose, share: number): Pose {
  return shifted(rotationPose(axis, (share * angle_deg * Math.PI) / 180, about), scale(shift_mm, share));
}

function findPose({ powertrain: { poses } }: Scene, poseId: string): PowertrainPose {
  const pose = poses.find((candidate) => candidate.id === poseId);
  if (!pose) {
    throw new InputError(
      "missing-id",
      { path: "powertrain.poses" },
      `there is no powertrain pose "${poseId}"`,
      `one of ${poses.map((candidate) => candidate.id).join(", ")}`,
    );
  }
  return pose;
}

function shifted(pose: Pose, by: readonly [number, number, number]): Pose {
  const [x, y, z] = add([pose[3]!, pose[7]!, pose[11]!], by);
  pose[3] = x;
  pose[7] = y;
  pose[11] = z;
  return pose;
}
