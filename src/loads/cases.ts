import { barState } from "../kinematics/antiRollBar.ts";
import { type Corner, solveCorner } from "../kinematics/corner.ts";
import { STANDARD_GRAVITY } from "../kinematics/spring.ts";
import { applyPose, type Pose } from "../maths/pose.ts";
import { add, cross, distance, dot, mirror, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import type { LoadCase } from "../scene/loadRecords.ts";
import type { Scene, Side } from "../scene/scene.ts";
import type { TorquePath } from "./forces.ts";

/** Shear modulus of steel, MPa: EN 1993-1-1, 3.2.6 (from memory). */
const STEEL_SHEAR_MPa = 81_000;

/** Names of the usual cases. */
export const USUAL_CASE_IDS = [
  "standing",
  "bump",
  "brake",
  "drive",
  "bend, outer wheel",
  "bend, inner wheel",
  "bend and brake",
  "bump and brake",
  "pothole",
] as const;
type UsualCase = (typeof USUAL_CASE_IDS)[number];

const times = (
  id: UsualCase,
  forward: number,
  out: number,
  up: number,
  torque: TorquePath | null = null,
): LoadCase => ({
  id,
  timesStatic: [forward, out, up],
  force_N: [0, 0, 0],
  torque,
  roll_deg: 0,
});

/**
 * What is tried where the scene has no cases of its own: common practice, no source. In a bend the outer wheel carries
 * the whole axle; the grip of tyre and road is 1.
 */
export const USUAL_CASES: readonly LoadCase[] = [
  times("standing", 0, 0, 1),
  times("bump", 0, 0, 3),
  times("brake", -1, 0, 1),
  times("drive", 1, 0, 1),
  times("bend, outer wheel", 0, -2, 2),
  times("bend, inner wheel", 0, 0.3, 0.3),
  times("bend and brake", -1, -1.2, 1.6),
  times("bump and brake", -1, 0, 2),
  times("pothole", -2, 0, 3, "free"),
];

/** The scene's own cases, else the usual ones; of these no driving without a driveshaft. */
export function casesOf(scene: Scene): readonly LoadCase[] {
  return scene.loads.cases ?? usualCases(scene.driveshaft !== null);
}

export function usualCases(hasShaft: boolean): readonly LoadCase[] {
  return USUAL_CASES.filter(({ timesStatic }) => hasShaft || timesStatic[0] <= 0);
}

/** `force_N`: as wheelForce_N gives it. Braking is held where the brakes sit, driving at the differential, unless the case says otherwise. */
export function torqueOf(loadCase: LoadCase, scene: Scene, force_N: Vec3): TorquePath {
  if (loadCase.torque) return loadCase.torque;
  return force_N[0] > 0 || scene.loads.brakes === "inboard" ? "shaft" : "carrier";
}

/** Static load of one wheel, N; null where the scene does not tell its mass. */
export function staticLoad_N(scene: Scene, side: Side): number | null {
  const mass_kg = scene.loads.cornerMass_kg[side];
  return mass_kg === null ? null : mass_kg * STANDARD_GRAVITY;
}

/** The ground's force on the tyre, forward, out, up. Throws InputError where it needs a mass that the scene does not tell. */
export function wheelForce_N(loadCase: LoadCase, scene: Scene, side: Side): Vec3 {
  const static_N = staticLoad_N(scene, side);
  if (static_N === null && loadCase.timesStatic.some((value) => value !== 0)) {
    throw new InputError(
      "wrong-value",
      { path: "loads.cornerMass_kg" },
      `the load case "${loadCase.id}" counts in static wheel loads, and the mass on this corner is not told`,
      "what a scale under the wheel reads at ride height, kg, or cases in newtons",
    );
  }
  return add(scale(loadCase.timesStatic, static_N ?? 0), loadCase.force_N);
}

/**
 * Torque that winds the bar up about its axis at this wheel's end, N·mm, for a body roll about the middle of the track from ride height: this wheel
 * up by half track × tan(roll), the other down by as much (and the other way for a negative roll). The bar is a straight
 * solid steel rod between its two pivots, T = G·J/L × twist with J = π·d⁴/32 (any textbook of strength of materials), its
 * arms and links rigid. The twist is that of ride height at whatever travel the wheel then stands.
 * Nothing without roll: what the other wheel does is then not known. Throws InputError where that roll is out of reach.
 */
export function barTorque_Nmm(corner: Corner, roll_deg: number): number {
  const bar = corner.scene.antiRollBar;
  if (!bar || roll_deg === 0) return 0;
  const rise_mm = corner.scene.wheel.centre[1] * Math.tan((roll_deg * Math.PI) / 180);
  const [here, there] = [rise_mm, -rise_mm].map((travel_mm) => {
    const { status, pose } = solveCorner(corner, travel_mm);
    const state = status === "solved" ? barState(corner, pose) : null;
    if (state) return (state.angle_deg * Math.PI) / 180;
    throw new InputError(
      "wrong-value",
      { path: "loads.cases" },
      `a roll of ${roll_deg}° takes the wheel ${rise_mm.toFixed(0)} mm up or down, which it does not reach`,
      "a smaller roll_deg",
    );
  });
  return barStiffness_Nmm(bar.diameter_mm, bar.pivotMounted) * (here! - there!);
}

/** Force along the drop link, tension positive, that winds the bar up with this torque at its lever in this pose (left frame). */
export function dropLink_N(corner: Corner, carrier: Pose, torque_Nmm: number): number {
  const bar = corner.scene.antiRollBar;
  const now = torque_Nmm === 0 ? null : barState(corner, carrier);
  if (!bar || !now) return 0;
  const arm = applyPose(now.bar, bar.arm);
  const pickup = applyPose(now.link, bar.pickup);
  const pull = normalise(subtract(arm, pickup));
  // the link drags the arm along: its moment on the bar about the axis is the bar's torque
  const lever_mm = -dot(bar.axis, cross(subtract(arm, bar.pivotMounted), pull));
  return torque_Nmm / lever_mm;
}

/** Torque per radian of twist between the two ends of a solid bar, N·mm. */
export function barStiffness_Nmm(diameter_mm: number, pivot: Vec3): number {
  const polar_mm4 = (Math.PI * diameter_mm ** 4) / 32;
  return (STEEL_SHEAR_MPa * polar_mm4) / distance(pivot, mirror(pivot));
}
