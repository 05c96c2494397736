import { applyPose, POSE_SIZE, type Pose, turnByPose } from "../maths/pose.ts";
import { cross, dot, length, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Damper, Driveshaft, Wheel } from "../scene/scene.ts";
import type { Corner } from "./corner.ts";
import { powertrainPose } from "./powertrain.ts";
import { type InnerJoint, innerJoint } from "./shaft.ts";
import type { CarrierRates } from "./solver.ts";

/** Readings of one wheel at one state. Damper and shaft values are null where the scene has none. */
export interface Readings {
  /** Toe-in positive, of this wheel. */
  readonly toe_deg: number;
  /** Top out positive, angle of the wheel plane to the vertical. */
  readonly camber_deg: number;
  /** Distance of the ground point from the car's centre plane. */
  readonly halfTrack_mm: number;
  /** Wheel centre's x less the drawn one's; forward positive. */
  readonly wheelbaseShift_mm: number;
  /** Above the ground point. */
  readonly rollCentre_mm: number;
  readonly damper_mm: number | null;
  /** Shortening of the damper per wheel travel. */
  readonly damperRatio: number | null;
  readonly shaft_mm: number | null;
  readonly innerAngle_deg: number | null;
  readonly outerAngle_deg: number | null;
}

const DEGREES = 180 / Math.PI;

/**
 * Reads wheel, damper and shaft at a carrier pose (left frame) of this corner. Rates are exact, from the constraint
 * equations' Jacobian; exactly at a lock, where they are infinite, roll centre and damper ratio are NaN. `share`: as
 * powertrainPose takes it.
 */
export function readCorner(corner: Corner, carrierLeft: Pose, powertrainPoseId: string, share = 1): Readings {
  const { scene } = corner;
  const { wheel, driveshaft } = scene;
  const powertrain = powertrainPose(scene, powertrainPoseId, share);
  const rates = corner.solver.ratesAt(carrierLeft) ?? LOCKED;
  const spin = turnByPose(carrierLeft, spinAxis(wheel));
  const centre = applyPose(carrierLeft, wheel.centre);
  const ground = groundPoint(wheel, centre, spin, rates);
  return {
    toe_deg: Math.atan2(spin[0], spin[1]) * DEGREES,
    camber_deg: Math.atan2(-spin[2], Math.hypot(spin[0], spin[1])) * DEGREES,
    halfTrack_mm: Math.abs(ground.at[1]),
    wheelbaseShift_mm: centre[0] - wheel.centre[0],
    rollCentre_mm: (ground.at[1] * ground.rate[1]) / ground.rate[2],
    ...readDamper(corner, carrierLeft, rates),
    ...(driveshaft
      ? readShaft(innerJoint(driveshaft, corner.side, powertrain), outerEnd(driveshaft, wheel, carrierLeft))
      : NO_SHAFT),
  };
}

/** The drawn left wheel's unit spin axis, pointing outboard: (sin t·cos c, cos t·cos c, −sin c). */
export function spinAxis(wheel: Wheel): Vec3 {
  const toe = wheel.toe_deg / DEGREES;
  const camber = wheel.camber_deg / DEGREES;
  return [Math.sin(toe) * Math.cos(camber), Math.cos(toe) * Math.cos(camber), -Math.sin(camber)];
}

const LOCKED: CarrierRates = { turn: [Number.NaN, Number.NaN, Number.NaN], centre: [Number.NaN, Number.NaN, 1] };

/** The loaded radius below the wheel centre along the wheel plane's steepest line. `centre` and `spin` as they are now. */
export function groundContact(wheel: Wheel, centre: Vec3, spin: Vec3): Vec3 {
  return groundPoint(wheel, centre, spin, STILL).at;
}

const STILL: CarrierRates = { turn: [0, 0, 0], centre: [0, 0, 0] };

/**
 * The loaded radius below the wheel centre along the wheel plane's steepest line, and its velocity per mm of travel.
 * With s the spin axis and n = √(1 − s_z²), the line's direction is d = (s_z·s − k)/n.
 */
function groundPoint(wheel: Wheel, centre: Vec3, spin: Vec3, rates: CarrierRates): { at: Vec3; rate: Vec3 } {
  const radius = wheel.centre[2] / Math.cos(wheel.camber_deg / DEGREES);
  const spinRate = cross(rates.turn, spin);
  const [, , sz] = spin;
  const [, , szRate] = spinRate;
  const n = Math.hypot(spin[0], spin[1]);
  const nRate = (-sz * szRate) / n;
  const at: number[] = [];
  const rate: number[] = [];
  for (let i = 0; i < 3; i++) {
    const raw = sz * spin[i]! - (i === 2 ? 1 : 0);
    const rawRate = szRate * spin[i]! + sz * spinRate[i]!;
    at.push(centre[i]! + (radius * raw) / n);
    rate.push(rates.centre[i]! + radius * (rawRate / n - (raw * nRate) / (n * n)));
  }
  return { at: [at[0]!, at[1]!, at[2]!], rate: [rate[0]!, rate[1]!, rate[2]!] };
}

/** How the wheel's readings go, per unit of whatever moves the carrier at `rates`. */
export interface ReadingRates {
  readonly toe_deg: number;
  readonly camber_deg: number;
  readonly halfTrack_mm: number;
  readonly wheelbaseShift_mm: number;
}

/** Exact derivatives of what readCorner reads of the wheel at a carrier pose (left frame). */
export function readingRates(
  { wheel }: { readonly wheel: Wheel },
  carrierLeft: Pose,
  rates: CarrierRates,
): ReadingRates {
  const spin = turnByPose(carrierLeft, spinAxis(wheel));
  const centre = applyPose(carrierLeft, wheel.centre);
  const [dx, dy, dz] = cross(rates.turn, spin);
  const flat = spin[0] * spin[0] + spin[1] * spin[1];
  const ground = groundPoint(wheel, centre, spin, rates);
  return {
    toe_deg: ((dx * spin[1] - spin[0] * dy) / flat) * DEGREES,
    camber_deg: (-dz / Math.sqrt(flat)) * DEGREES,
    halfTrack_mm: Math.sign(ground.at[1]) * ground.rate[1],
    wheelbaseShift_mm: rates.centre[0],
  };
}

/** Eye to eye at a carrier pose (left frame), mm; null without a damper. */
export function readDamperLength(corner: Corner, carrierLeft: Pose): number | null {
  const { damper } = corner.scene;
  return damper && length(damperLine(corner, damper, carrierLeft));
}

function damperLine(corner: Corner, damper: Damper, carrier: Pose): Vec3 {
  const bottom = applyPose(corner.rider(damper.on).pose(carrier, new Float64Array(POSE_SIZE)), damper.bottom);
  return subtract(bottom, damper.topMounted);
}

function readDamper(corner: Corner, carrier: Pose, rates: CarrierRates) {
  const { damper } = corner.scene;
  if (!damper) return { damper_mm: null, damperRatio: null };
  const rider = corner.rider(damper.on);
  const line = damperLine(corner, damper, carrier);
  const lengthening = dot(normalise(line), rider.pointRate(carrier, rates, damper.bottom));
  return { damper_mm: length(line), damperRatio: -lengthening };
}

export type ShaftReadings = Pick<Readings, "shaft_mm" | "innerAngle_deg" | "outerAngle_deg">;

/** The shaft's outer joint and the wheel's spin axis, left frame. */
export interface OuterEnd {
  readonly at: Vec3;
  readonly spin: Vec3;
}

/** The outer end at a carrier pose (left frame). */
export function outerEnd(driveshaft: Driveshaft, wheel: Wheel, carrierLeft: Pose): OuterEnd {
  return { at: applyPose(carrierLeft, driveshaft.outer), spin: turnByPose(carrierLeft, spinAxis(wheel)) };
}

/** The shaft alone, between its two ends. */
export function readShaft(inner: InnerJoint, outer: OuterEnd): ShaftReadings {
  const line = subtract(outer.at, inner.at);
  return {
    shaft_mm: length(line),
    innerAngle_deg: lineAngle_deg(line, inner.axis),
    outerAngle_deg: lineAngle_deg(line, outer.spin),
  };
}

/** Of a scene without driveshaft. */
export const NO_SHAFT: ShaftReadings = { shaft_mm: null, innerAngle_deg: null, outerAngle_deg: null };

/** Angle between two lines, 0 to 90°. */
export function lineAngle_deg(a: Vec3, b: Vec3): number {
  const size = length(a);
  const unit = scale(a, 1 / size);
  return Math.atan2(length(cross(unit, b)), Math.abs(dot(unit, b))) * DEGREES;
}
