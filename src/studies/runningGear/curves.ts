import type { CurvePoint } from "../../check/result.ts";
import type { SideRun } from "../../check/tracks.ts";
import { readBar } from "../../kinematics/antiRollBar.ts";
import { type Derivatives, derivativesAt } from "../../kinematics/derivatives.ts";
import { readCorner } from "../../kinematics/readings.ts";
import type { Pose } from "../../maths/pose.ts";

/** Readings beside those of the check, for plots; null where the scene does not tell what they hang on. */
export interface MoreReadings extends Derivatives {
  /** Shaft longer than at ride height with the engine at rest. */
  readonly plunge_mm: number | null;
  /** Inner less outer shaft angle. */
  readonly angleDifference_deg: number | null;
  /** Of the bar's arm from as drawn; the bar twists by this less the other side's. */
  readonly barTurn_deg: number | null;
  readonly dropLink_deg: number | null;
}

export const MORE_CURVES = [
  "bumpSteer_deg_per_mm",
  "camberGain_deg_per_mm",
  "frontArm_mm",
  "sideArm_mm",
  "antiSquat_percent",
  "antiLift_percent",
  "plunge_mm",
  "angleDifference_deg",
  "barTurn_deg",
  "dropLink_deg",
] as const satisfies readonly (keyof MoreReadings)[];

/** Reads more of one side at a point of its curves and the carrier's pose there (left frame). */
export function moreCurves({ corner }: SideRun): (point: CurvePoint, carrier: Pose) => MoreReadings {
  const { shaft_mm: ride_mm } = readCorner(corner, corner.ridePose, "rest");
  return ({ shaft_mm, innerAngle_deg, outerAngle_deg }, carrier) => {
    const bar = readBar(corner, carrier);
    return {
      ...derivativesAt(corner, carrier),
      plunge_mm: shaft_mm === null || ride_mm === null ? null : shaft_mm - ride_mm,
      angleDifference_deg: innerAngle_deg === null || outerAngle_deg === null ? null : innerAngle_deg - outerAngle_deg,
      barTurn_deg: bar?.turn_deg ?? null,
      dropLink_deg: bar?.link_deg ?? null,
    };
  };
}
