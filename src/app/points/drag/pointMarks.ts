import { useMemo } from "react";
import { solveCorner } from "../../../kinematics/corner.ts";
import { mountPoses } from "../../../kinematics/mounts.ts";
import { applyPose, identityPose, type Pose } from "../../../maths/pose.ts";
import type { Vec3 } from "../../../maths/vec3.ts";
import type { SceneDocument } from "../../../scene/document.ts";
import { ridesOfPoints } from "../../../scene/pointRide.ts";
import type { Scene } from "../../../scene/scene.ts";
import { liveCorner } from "../../store/corners.ts";
import { useApp } from "../../store/useApp.ts";
import { type PointInfo, pointInfos } from "../pointInfo.ts";
import { usePointsLook } from "../pointsStore.ts";

/** A hard point as the view shows it, on the left side. */
export interface PointMark {
  readonly info: PointInfo;
  /** From where its part is drawn to where it stands now. */
  readonly pose: Pose;
  /** Car coordinates now, mm. */
  readonly at: Vec3;
}

const NONE: readonly PointMark[] = [];
const AT_REST = identityPose();

/** Every hard point where it stands now, while points are looked at. */
export function usePointMarks(): readonly PointMark[] {
  const isParts = usePointsLook((look) => look.list === "parts");
  const isShown = useApp((state) => state.place === "points" && (!isParts || state.heldPoint !== null));
  const document = useApp((state) => state.document);
  const scene = useApp((state) => state.scene);
  const travel_mm = useApp((state) => state.travel_mm.left);
  const pose = useApp((state) => state.pose);
  const share = useApp((state) => state.share);
  return useMemo(
    () => (isShown && document && scene ? pointMarks(document, scene, travel_mm, pose, share) : NONE),
    [isShown, document, scene, travel_mm, pose, share],
  );
}

function pointMarks(
  document: SceneDocument,
  scene: Scene,
  travel_mm: number,
  pose: string,
  share: number,
): readonly PointMark[] {
  const side = scene.sides[0]!;
  // marks stand on the left, where the corner is written
  const left = side === "left" ? liveCorner(scene, "left") : null;
  const known = scene.powertrain.poses.some(({ id }) => id === pose) ? pose : "rest";
  const mounts = left && mountPoses(left.corner, solveCorner(left.corner, travel_mm).pose, known, share);
  const rides = ridesOfPoints(document);
  return pointInfos(document).flatMap((info): PointMark[] => {
    const point = scene.points.get(info.name);
    if (!point) return [];
    const now = mounts?.get(rides.get(info.name) ?? "chassis") ?? AT_REST;
    return [{ info, pose: now, at: applyPose(now, point.boltedUpAt ?? point.at) }];
  });
}
