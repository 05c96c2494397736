import { solveCorner } from "../kinematics/corner.ts";
import { readCorner } from "../kinematics/readings.ts";
import type { TravelRun } from "../kinematics/travel.ts";
import { poseOfTrack } from "../maths/pose.ts";
import type { Travel } from "../scene/scene.ts";
import type { CurvePoint, SideCurves } from "./result.ts";
import type { SideRun } from "./tracks.ts";

/**
 * Readings of one wheel in powertrain pose `poseId` at whole steps from ride height, ascending, ending exactly at bump and
 * droop, or at the travel where the corner binds.
 */
export function curvesOf({ corner, run }: SideRun, travel: Travel, poseId = "rest"): SideCurves {
  const curve: CurvePoint[] = [];
  for (const travel_mm of curveTravels(travel, run)) {
    const knot = run.travel_mm.indexOf(travel_mm);
    const pose = knot >= 0 ? poseOfTrack(run.carrier, knot) : solveCorner(corner, travel_mm).pose;
    curve.push({ travel_mm, ...readCorner(corner, pose, poseId) });
  }
  return { curve, bindsAt_mm: run.bindsAt_mm };
}

/** Whole steps from ride height, ascending, and the ends that the run reaches. */
export function curveTravels(
  { bump_mm, droop_mm, step_mm }: Travel,
  { from_mm, to_mm }: Pick<TravelRun, "from_mm" | "to_mm">,
): number[] {
  const steps: number[] = [];
  const last = (reach: number) => Math.ceil(reach / step_mm - 1e-9);
  for (let k = 1 - last(droop_mm); k < last(bump_mm); k++) steps.push(tidy(k * step_mm));
  const within = steps.filter((travel_mm) => travel_mm > from_mm && travel_mm < to_mm);
  return from_mm === to_mm ? [from_mm] : [from_mm, ...within, to_mm];
}

function tidy(value: number): number {
  return Math.round(value * 1e9) / 1e9 + 0;
}
