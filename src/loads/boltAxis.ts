import { dot, length, mirror, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { partOfJoint } from "../scene/jointNames.ts";
import type { Scene, Side } from "../scene/scene.ts";

/** The axis of a joint's bolt, left side: `told`, else what the scene's joints tell, else the bush axis of a link's inboard end or the inboard line. Null: not known. */
export function boltAxis(scene: Scene, joint: string, told: Vec3 | null): Vec3 | null {
  const axis = told ?? scene.joints.find((fit) => fit.joint === joint)?.axis;
  if (axis) return axis;
  const member = scene.members.find(({ id }) => id === partOfJoint(joint));
  if (member?.kind === "link" && joint.endsWith(".inboard")) return member.bushAxis;
  if ((member?.kind === "wishbone" || member?.kind === "hinge") && !joint.endsWith(".outboard"))
    return normalise(subtract(member.frontMounted, member.rearMounted));
  return null;
}

/** A force (car axes) across and along a bolt, N, whose axis is told for the left side. */
export function boltShare(force_N: Vec3, axis: Vec3, side: Side): { across_N: number; along_N: number } {
  const bar = side === "left" ? axis : mirror(axis);
  const along = dot(force_N, bar);
  return { across_N: length(subtract(force_N, scale(bar, along))), along_N: Math.abs(along) };
}
