import { curvesOf } from "../check/curves.ts";
import type { CurvePoint } from "../check/result.ts";
import { runSide } from "../check/tracks.ts";
import { compileCorner, solveCorner } from "../kinematics/corner.ts";
import { type RollState, rollAxle } from "../kinematics/roll.ts";
import { InputError } from "../scene/error.ts";
import { resolveScene } from "../scene/resolve.ts";
import type { Scene, Side } from "../scene/scene.ts";
import { MORE_CURVES, moreCurves } from "../studies/runningGear/curves.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { stepsOf } from "./numbers.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

const COLUMNS = [
  "travel_mm",
  "toe_deg",
  "camber_deg",
  "halfTrack_mm",
  "wheelbaseShift_mm",
  "rollCentre_mm",
  "damper_mm",
  "damperRatio",
  "shaft_mm",
  "innerAngle_deg",
  "outerAngle_deg",
] as const satisfies readonly (keyof CurvePoint)[];

const ROLL_COLUMNS = [
  "roll_deg",
  "travel_mm",
  "outerCamber_deg",
  "innerCamber_deg",
  "outerToe_deg",
  "innerToe_deg",
  "rollSteer_deg",
  "rollCentre_mm",
  "rollCentreAside_mm",
  "barTwist_deg",
] as const satisfies readonly (keyof RollState)[];

/** `curves`: one row a travel and side, or one a body roll, comma-separated; empty where the scene has no such part. */
export async function runCurves(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document } = await loadScene(path);
  const rolls = options.roll === undefined ? null : stepsOf("roll", options.roll, 45);
  try {
    const scene = resolveScene(withTravel(document, options.travel), path);
    const output = rolls ? rollCurves(scene, rolls) : travelCurves(scene, options.pose ?? "rest");
    return { output, status: 0 };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

function travelCurves(scene: Scene, poseId: string): string {
  const rows = scene.sides.flatMap((side) => {
    const run = runSide(scene, side);
    const more = moreCurves(run);
    return curvesOf(run, scene.travel, poseId).curve.map((point) => {
      const values = more(point, solveCorner(run.corner, point.travel_mm).pose);
      return [side, ...COLUMNS.map((column) => point[column]), ...MORE_CURVES.map((column) => values[column])];
    });
  });
  return csv(["side", ...COLUMNS, ...MORE_CURVES], rows);
}

/** A roll that takes a wheel beyond its reach has no row. Both sides are alike: rolled the other way, outer and inner wheel are exchanged. */
function rollCurves(scene: Scene, rolls: readonly number[]): string {
  const corner = compileCorner(scene, scene.sides[0] as Side);
  const rows = rolls.flatMap((roll_deg) => {
    const axle = rollAxle(corner, roll_deg);
    return axle ? [ROLL_COLUMNS.map((column) => axle[column])] : [];
  });
  return csv(ROLL_COLUMNS, rows);
}

function csv(head: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string {
  return `${[head, ...rows].map((row) => row.map((value) => value ?? "").join(",")).join("\n")}\n`;
}
