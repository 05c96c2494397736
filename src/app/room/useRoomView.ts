import { useMemo } from "react";
import { solveCorner } from "../../kinematics/corner.ts";
import { mountPoses } from "../../kinematics/mounts.ts";
import { applyPose, identityPose, type Pose } from "../../maths/pose.ts";
import { add, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { ridesOfPoints } from "../../scene/pointRide.ts";
import type { Scene } from "../../scene/scene.ts";
import { liveCorner } from "../store/corners.ts";
import { useApp } from "../store/useApp.ts";
import { useStudies } from "../studies/studiesStore.ts";
import { useTools } from "../tools/toolsStore.ts";
import type { GrabPlace } from "../viewport/gestures.ts";
import type { ShownPlaces } from "../viewport/placeLayer.ts";
import type { Sight } from "../viewport/sight.ts";
import { cloudOf, nearestTo } from "./roomCloud.ts";
import { type RoomRun, useRoom } from "./roomStore.ts";
import { gridOf } from "./roomTold.ts";

/** The map in the view. */
export interface RoomView {
  readonly places: ShownPlaces | null;
  /** Where the point was asked from, then the place that is looked at. */
  readonly marks: readonly Vec3[];
  tap(at: GrabPlace, sight: Sight): boolean;
  hover(at: GrabPlace, sight: Sight): void;
}

const AT_REST = identityPose();
const NONE: RoomView = { places: null, marks: [], tap: () => false, hover() {} };
/** What the mouse passes over is looked up once a frame. */
let hovered = 0;
/** Finger room, and that of a mouse, px. */
const REACH_px = { touch: 24, mouse: 12 };

export function useRoomView(travel_mm: number): RoomView {
  const isStudying = useTools(({ open }) => open === "studies");
  const isOpen = useStudies(({ study }) => study === "room") && isStudying;
  const { run, map, version, place, showsRefused, level, isRunning } = useRoom();
  const scene = useApp((state) => (isOpen ? state.scene : null));
  const pose = useApp((state) => state.pose);
  const share = useApp((state) => state.share);
  const ride = useMemo(
    () => (scene && run ? rideNow(run, scene, travel_mm, pose, share) : AT_REST),
    [scene, run, travel_mm, pose, share],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the version stands for what the map's lists hold
  const cloud = useMemo(
    () => (isOpen && run && map ? cloudOf(map, gridOf(map), run.base, showsRefused) : null),
    [isOpen, run, map, version, showsRefused],
  );
  return useMemo(() => {
    if (!cloud || !run || !map) return NONE;
    const grid = gridOf(map);
    const step_mm = run.question.region.step_mm * (isRunning ? 2 ** level : 1);
    const atPlace = (number: number): Vec3 => applyPose(ride, add(run.base, grid.offsetOf(number)));
    const under = (at: GrabPlace, sight: Sight): number | null =>
      nearestTo(cloud, ride, sight, at, REACH_px[at.isTouch ? "touch" : "mouse"]);
    return {
      places: { positions: cloud.positions, marks: cloud.marks, step_mm, pose: ride },
      marks: [applyPose(ride, run.base), ...(place === null ? [] : [atPlace(place)])],
      tap(at, sight) {
        const hit = under(at, sight);
        if (hit !== null) useRoom.setState({ place: hit });
        return hit !== null;
      },
      hover(at, sight) {
        cancelAnimationFrame(hovered);
        hovered = requestAnimationFrame(() => {
          const pointed = under(at, sight);
          if (pointed !== useRoom.getState().pointed) useRoom.setState({ pointed });
        });
      },
    };
  }, [cloud, run, map, ride, place, level, isRunning]);
}

/** From where the part that the points sit on is drawn to where it stands now. */
function rideNow(run: RoomRun, scene: Scene, travel_mm: number, pose: string, share: number): Pose {
  const mount = rideOf(run.document, run.question.points[0]!);
  if (mount === "chassis" || !scene.sides.includes("left")) return AT_REST;
  const known = scene.powertrain.poses.some(({ id }) => id === pose) ? pose : "rest";
  const { corner } = liveCorner(scene, "left");
  return mountPoses(corner, solveCorner(corner, travel_mm).pose, known, share).get(mount) ?? AT_REST;
}

function rideOf(document: SceneDocument, point: string): string {
  return ridesOfPoints(document).get(point) ?? "chassis";
}
