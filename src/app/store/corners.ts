import type { CurvePoint } from "../../check/result.ts";
import { type Corner, compileCorner } from "../../kinematics/corner.ts";
import { readCorner } from "../../kinematics/readings.ts";
import { runTravel, type TravelRun } from "../../kinematics/travel.ts";
import { poseOfTrack } from "../../maths/pose.ts";
import type { Scene, Side } from "../../scene/scene.ts";

/** Distance between the readings of a drawn curve. */
const CURVE_STEP_mm = 2.5;

/** One corner of the shown scene, made ready for the view: it solves on the main thread in microseconds. */
export interface LiveCorner {
  readonly corner: Corner;
  readonly run: TravelRun;
}

const made = new WeakMap<Scene, Map<Side, LiveCorner>>();
const curves = new WeakMap<LiveCorner, readonly CurvePoint[]>();

/** The same scene and side give the same corner. Throws InputError where the members do not make one (see compileCorner). */
export function liveCorner(scene: Scene, side: Side): LiveCorner {
  let sides = made.get(scene);
  if (!sides) {
    sides = new Map();
    made.set(scene, sides);
  }
  let live = sides.get(side);
  if (!live) {
    const corner = compileCorner(scene, side);
    const { bump_mm, droop_mm } = scene.travel;
    live = { corner, run: runTravel(corner, { bump_mm, droop_mm, step_mm: CURVE_STEP_mm }) };
    sides.set(side, live);
  }
  return live;
}

/** Readings over the travel that the corner reaches, powertrain at rest, travel ascending. */
export function liveCurve(scene: Scene, side: Side): readonly CurvePoint[] {
  const live = liveCorner(scene, side);
  let curve = curves.get(live);
  if (!curve) {
    curve = Array.from(live.run.travel_mm, (travel_mm, i) => ({
      travel_mm,
      ...readCorner(live.corner, poseOfTrack(live.run.carrier, i), "rest"),
    }));
    curves.set(live, curve);
  }
  return curve;
}
