import { solveCorner } from "../../kinematics/corner.ts";
import { mountPoses } from "../../kinematics/mounts.ts";
import { identityPose, type Pose } from "../../maths/pose.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { liveCorner } from "./corners.ts";
import { keptSceneOf } from "./tried.ts";

/** Where every mount's parts stand at ride height, the engine at rest: solved, for a corner that was bolted up elsewhere. */
export function rideHeightPoses(document: SceneDocument): (mount: string) => Pose {
  const scene = keptSceneOf(document);
  const { corner } = liveCorner(scene, scene.sides[0]!);
  const poses = mountPoses(corner, solveCorner(corner, 0).pose, "rest");
  return (mount) => poses.get(mount) ?? identityPose();
}
