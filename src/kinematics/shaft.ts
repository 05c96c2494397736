import { applyPose, type Pose, turnByPose } from "../maths/pose.ts";
import { add, distance, mirror, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Driveshaft, Scene, Side } from "../scene/scene.ts";
import { powertrainPose } from "./powertrain.ts";
import { writeLeastTurn } from "./rider.ts";

/** The shaft's inner joint and its axis as the powertrain carries them, in the left frame (mirrored for the right side). */
export interface InnerJoint {
  readonly at: Vec3;
  readonly axis: Vec3;
}

/** The inner joint in the powertrain's pose `pose` (car coordinates). */
export function innerJoint(driveshaft: Driveshaft, side: Side, pose: Pose): InnerJoint {
  const { at, axis } = driveshaft.inner[side];
  const [movedAt, movedAxis] = [applyPose(pose, at), turnByPose(pose, axis)];
  return side === "left" ? { at: movedAt, axis: movedAxis } : { at: mirror(movedAt), axis: mirror(movedAxis) };
}

/** The direction in which the shaft is drawn, from its inner joint to its outer one, left frame. */
export function drawnShaftLine({ outer, inner }: Driveshaft): Vec3 {
  return normalise(subtract(outer, inner.left.at));
}

/** The shaft's pose: held at the outer joint, laid on the line from the inner joint `innerAt`. All in the left frame. */
export function writeShaftPose(driveshaft: Driveshaft, innerAt: Vec3, carrierLeft: Pose, out: Pose): void {
  const outer = applyPose(carrierLeft, driveshaft.outer);
  writeLeastTurn(out, drawnShaftLine(driveshaft), subtract(outer, innerAt), driveshaft.outer, outer);
}

/**
 * Where the shaft stands in its design position, in the left frame: the line as drawn on the left, from the outer joint
 * to as far in as this side's inner joint is at ride height with the powertrain in its place. A shaft's solid is built
 * between these ends (mirrored for the right side); its pose then lays it on the line of its two joints.
 */
export function shaftDesign(scene: Scene, side: Side): { inner: Vec3; outer: Vec3 } | null {
  const { driveshaft } = scene;
  if (!driveshaft) return null;
  const { outer } = driveshaft;
  const inward = normalise(subtract(driveshaft.inner.left.at, outer));
  const reach = distance(innerJoint(driveshaft, side, powertrainPose(scene, "rest")).at, outer);
  return { inner: add(outer, scale(inward, reach)), outer };
}
