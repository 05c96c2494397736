import { applyPose, type Pose, turnByPose } from "../maths/pose.ts";
import { add, cross, subtract } from "../maths/vec3.ts";
import type { Corner } from "./corner.ts";
import { groundContact, readCorner, readingRates, spinAxis } from "./readings.ts";

/** How one wheel goes on from one state, per mm of its travel; null where the scene does not tell what is needed, NaN exactly at a lock. */
export interface Derivatives {
  /** Toe, toe-in positive, per mm: bump steer. */
  readonly bumpSteer_deg_per_mm: number;
  /** Camber, top out positive, per mm. */
  readonly camberGain_deg_per_mm: number;
  /**
   * Length of the arm about whose inner end the wheel swings as seen from the front: from the wheel centre inboard, by the
   * carrier's turn about the fore-aft axis; null where it does not turn.
   */
  readonly frontArm_mm: number | null;
  /** The same as seen from the side, forward positive: by the turn about the crosswise axis. */
  readonly sideArm_mm: number | null;
  /**
   * 100 × tan θ × wheelbase / height of the centre of gravity, θ the slope at which the wheel centre goes back as it
   * rises: the drive torque is held by a differential on the chassis (Milliken & Milliken, Race Car Vehicle Dynamics,
   * chapter 17; from memory).
   */
  readonly antiSquat_percent: number | null;
  /**
   * The same for braking, times the rear wheels' share of it, θ at the ground point of the locked wheel: the brake's torque
   * is held on the hub. With brakes at the differential θ is that of the wheel centre.
   */
  readonly antiLift_percent: number | null;
}

/** Below this turn in rad per mm an arm is longer than a kilometre: the wheel goes straight. */
const STRAIGHT = 1e-6;

/** Exact, from the constraint equations' Jacobian. `carrier`: a pose of this corner in the left frame. */
export function derivativesAt(corner: Corner, carrier: Pose): Derivatives {
  const { wheel, vehicle, loads } = corner.scene;
  const rates = corner.solver.ratesAt(carrier);
  if (!rates) return LOCKED;
  const { toe_deg, camber_deg } = readingRates(corner.scene, carrier, rates);
  const centre = applyPose(carrier, wheel.centre);
  const contact = groundContact(wheel, centre, turnByPose(carrier, spinAxis(wheel)));
  const dragged = add(rates.centre, cross(rates.turn, subtract(contact, centre)));
  const centreSlope = -rates.centre[0];
  const brakeSlope = loads.brakes === "inboard" ? centreSlope : -dragged[0] / dragged[2];
  const share = vehicle?.rearBrakeShare ?? null;
  const perSlope = vehicle && (100 * vehicle.wheelbase_mm) / vehicle.cgHeight_mm;
  return {
    bumpSteer_deg_per_mm: toe_deg,
    camberGain_deg_per_mm: camber_deg,
    frontArm_mm: armOf(rates.turn[0]),
    sideArm_mm: armOf(rates.turn[1]),
    antiSquat_percent: perSlope && centreSlope * perSlope,
    antiLift_percent: perSlope && share !== null ? brakeSlope * perSlope * share : null,
  };
}

function armOf(turn: number): number | null {
  return Math.abs(turn) < STRAIGHT ? null : 1 / turn;
}

const LOCKED: Derivatives = {
  bumpSteer_deg_per_mm: Number.NaN,
  camberGain_deg_per_mm: Number.NaN,
  frontArm_mm: null,
  sideArm_mm: null,
  antiSquat_percent: null,
  antiLift_percent: null,
};

/** Half of the travel over which the ratio's rate is taken from two exact ratios. */
const EITHER_SIDE_mm = 0.25;

/**
 * Rate of the damper ratio per mm of travel, by a difference over half a millimetre of exact ratios, one-sided where the
 * corner locks; null without a damper.
 */
export function damperRatioRate_per_mm(corner: Corner, travel_mm: number): number | null {
  if (!corner.scene.damper) return null;
  const [below, above] = [-EITHER_SIDE_mm, EITHER_SIDE_mm].map((by) => {
    const { travel_mm: reached_mm, pose } = corner.solver.solve(travel_mm + by);
    return { reached_mm, ratio: readCorner(corner, pose, "rest").damperRatio! };
  });
  return (above!.ratio - below!.ratio) / (above!.reached_mm - below!.reached_mm);
}
