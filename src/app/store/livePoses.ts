import type { ModelBody } from "../../check/model.ts";
import { solveCorner } from "../../kinematics/corner.ts";
import { mountPoses } from "../../kinematics/mounts.ts";
import { applyPose, mirrorPose, type Pose } from "../../maths/pose.ts";
import { mirror, type Vec3 } from "../../maths/vec3.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { liveCorner } from "./corners.ts";
import type { SessionState } from "./state.ts";

/** Without a share the engine is in the pose. */
type Shown = Pick<SessionState, "travel_mm" | "pose"> & { readonly share?: number | undefined };

/** Pose of every body by its key, in car coordinates, for the wheels' travel and the engine's pose that are shown. */
export function livePoses(scene: Scene, bodies: readonly ModelBody[], shown: Shown): Map<string, Pose> {
  const bySide = new Map<Side, Map<string, Pose>>();
  const pose = scene.powertrain.poses.some(({ id }) => id === shown.pose) ? shown.pose : "rest";
  for (const side of scene.sides) {
    const { corner } = liveCorner(scene, side);
    bySide.set(side, mountPoses(corner, solveCorner(corner, shown.travel_mm[side]).pose, pose, shown.share));
  }
  const poses = new Map<string, Pose>();
  for (const body of bodies) {
    const side = body.side === "both" ? scene.sides[0]! : body.side;
    const found = bySide.get(side)?.get(body.mount);
    if (found) poses.set(body.key, found);
  }
  return poses;
}

/** Where the wheel's centre is now, car coordinates. */
export function wheelCentre(scene: Scene, side: Side, travel_mm: number): Vec3 {
  const { corner } = liveCorner(scene, side);
  const { pose } = solveCorner(corner, travel_mm);
  return side === "left"
    ? applyPose(pose, scene.wheel.centre)
    : applyPose(mirrorPose(pose), mirror(scene.wheel.centre));
}
