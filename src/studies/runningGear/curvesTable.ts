import Papa from "papaparse";
import { curvesOf } from "../../check/curves.ts";
import { CURVE_READINGS } from "../../check/result.ts";
import { runSide } from "../../check/tracks.ts";
import { compileCorner, solveCorner } from "../../kinematics/corner.ts";
import { type RollState, rollAxle } from "../../kinematics/roll.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { MORE_CURVES, moreCurves } from "./curves.ts";

const COLUMNS = ["travel_mm", ...CURVE_READINGS] as const;

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

/** Every curve against travel with the powertrain in a pose, a row each travel and side; empty where the scene has no such part. */
export function curvesTable(scene: Scene, poseId: string): string {
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

/**
 * The same against body roll. A roll that takes a wheel beyond its reach has no row. Both sides are alike: rolled the other way, outer
 * and inner wheel are exchanged.
 */
export function rollTable(scene: Scene, rolls: readonly number[]): string {
  const corner = compileCorner(scene, scene.sides[0] as Side);
  const rows = rolls.flatMap((roll_deg) => {
    const axle = rollAxle(corner, roll_deg);
    return axle ? [ROLL_COLUMNS.map((column) => axle[column])] : [];
  });
  return csv(ROLL_COLUMNS, rows);
}

function csv(head: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string {
  const data = rows.map((row) => [...row]);
  return `${Papa.unparse({ fields: [...head], data }, { newline: "\n" })}\n`;
}
