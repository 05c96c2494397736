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

/** Poses of one side's mounts by name, car coordinates. */
export type LiveMounts = ReadonlyMap<Side, ReadonlyMap<string, Pose>>;

/** Every mount of every side for the wheels' travel and the engine's pose that are shown. */
export function liveMounts(scene: Scene, shown: Shown): LiveMounts {
  const pose = scene.powertrain.poses.some(({ id }) => id === shown.pose) ? shown.pose : "rest";
  return new Map(
    scene.sides.map((side) => {
      const { corner } = liveCorner(scene, side);
      return [side, mountPoses(corner, solveCorner(corner, shown.travel_mm[side]).pose, pose, shown.share)] as const;
    }),
  );
}

/** Pose of every body by its key, in car coordinates. */
export function posesOnMounts(scene: Scene, bodies: readonly ModelBody[], mounts: LiveMounts): Map<string, Pose> {
  const poses = new Map<string, Pose>();
  for (const body of bodies) {
    const side = body.side === "both" ? scene.sides[0]! : body.side;
    const found = mounts.get(side)?.get(body.mount);
    if (found) poses.set(body.key, found);
  }
  return poses;
}

/** The same for the wheels' travel and the engine's pose that are shown. */
export function livePoses(scene: Scene, bodies: readonly ModelBody[], shown: Shown): Map<string, Pose> {
  return posesOnMounts(scene, bodies, liveMounts(scene, shown));
}

/** Where the wheel's centre is now, car coordinates. */
export function wheelCentre(scene: Scene, side: Side, travel_mm: number): Vec3 {
  const { corner } = liveCorner(scene, side);
  const { pose } = solveCorner(corner, travel_mm);
  return side === "left"
    ? applyPose(pose, scene.wheel.centre)
    : applyPose(mirrorPose(pose), mirror(scene.wheel.centre));
}
