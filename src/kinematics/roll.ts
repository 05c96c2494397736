import { applyPose, type Pose, turnByPose } from "../maths/pose.ts";
import { add, dot, length, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { barState } from "./antiRollBar.ts";
import { type Corner, solveCorner } from "./corner.ts";
import { spinAxis } from "./readings.ts";

/**
 * An axle with the body rolled on level ground, both wheels on it: the outer wheel is the one pushed up. Angles are to the
 * ground, not to the body.
 */
export interface RollState {
  readonly roll_deg: number;
  /** Up at the outer wheel and as far down at the inner one. */
  readonly travel_mm: number;
  /** Top out positive. */
  readonly outerCamber_deg: number;
  readonly innerCamber_deg: number;
  /** Toe-in positive. */
  readonly outerToe_deg: number;
  readonly innerToe_deg: number;
  /** How far the axle steers into the bend: half of the outer wheel's toe-in less the inner one's. */
  readonly rollSteer_deg: number;
  /** Where the lines of both ground points cross, above the ground; null where they run alongside. */
  readonly rollCentre_mm: number | null;
  /** How far it stands off the middle between the ground points, towards the outer wheel. */
  readonly rollCentreAside_mm: number | null;
  /** Twist of the anti-roll bar between its ends; null where the scene has none. */
  readonly barTwist_deg: number | null;
}

const RAD = Math.PI / 180;
const MOST_ROUNDS = 40;
const ALIKE_mm = 1e-9;
/** Half of the travel over which the ground points' ways are taken. */
const EITHER_SIDE_mm = 0.01;

/**
 * The axle at one roll of the body, left and right corners alike; null where a wheel does not reach. The ground point is
 * the loaded radius down the wheel's steepest line to the tilted ground, found anew. Its line runs square to its way
 * against the body; where both lines cross is the roll centre (Dixon, Suspension Geometry and Computation, chapter 8; from
 * memory).
 */
export function rollAxle(corner: Corner, roll_deg: number): RollState | null {
  const roll = roll_deg * RAD;
  // the ground as the body sees it: higher at the outer, left wheel; the right one in the mirror
  const normals = [ground(roll), ground(-roll)] as const;
  const poses = (travel_mm: number): [Pose, Pose] | null => {
    const solved = [solveCorner(corner, travel_mm), solveCorner(corner, -travel_mm)] as const;
    return solved.every(({ status }) => status === "solved") ? [solved[0].pose, solved[1].pose] : null;
  };
  /** Ground points in the body's front view, y left and z up. */
  const contacts = ([outer, inner]: [Pose, Pose]): [Vec3, Vec3] => {
    const [x, y, z] = contactOn(corner, inner, normals[1]);
    return [contactOn(corner, outer, normals[0]), [x, -y, z]];
  };
  const offGround = (both: [Pose, Pose]): number => {
    const [outer, inner] = contacts(both);
    return dot(subtract(outer, inner), normals[0]);
  };
  const travel_mm = roll === 0 ? 0 : settle(poses, offGround, corner.scene.wheel.centre[1] * Math.tan(roll));
  const both = travel_mm === null ? null : poses(travel_mm);
  if (travel_mm === null || !both) return null;
  const [outer, inner] = both.map((pose, i) => wheelTo(corner, pose, normals[i]!));
  const [above, below] = [poses(travel_mm + EITHER_SIDE_mm), poses(travel_mm - EITHER_SIDE_mm)];
  const centre = above && below ? crossing(contacts(both), contacts(above), contacts(below), roll) : null;
  const bars = both.map((pose) => barState(corner, pose));
  return {
    roll_deg,
    travel_mm,
    outerCamber_deg: outer!.camber_deg,
    innerCamber_deg: inner!.camber_deg,
    outerToe_deg: outer!.toe_deg,
    innerToe_deg: inner!.toe_deg,
    rollSteer_deg: (outer!.toe_deg - inner!.toe_deg) / 2,
    rollCentre_mm: centre?.height_mm ?? null,
    rollCentreAside_mm: centre?.aside_mm ?? null,
    barTwist_deg: bars[0] && bars[1] ? bars[0].angle_deg - bars[1].angle_deg : null,
  };
}

function ground(roll: number): Vec3 {
  return [0, -Math.sin(roll), Math.cos(roll)];
}

/** Secant steps to the travel at which both ground points lie on the ground; null where a wheel does not reach it. */
function settle(
  poses: (travel_mm: number) => [Pose, Pose] | null,
  offGround: (both: [Pose, Pose]) => number,
  guess_mm: number,
): number | null {
  let [last_mm, next_mm] = [0, guess_mm];
  let lastOff = offGround(poses(0)!);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const both = poses(next_mm);
    if (!both) return null;
    const off = offGround(both);
    if (Math.abs(off) < ALIKE_mm || off === lastOff) return next_mm;
    [last_mm, next_mm, lastOff] = [next_mm, next_mm - (off * (next_mm - last_mm)) / (off - lastOff), off];
  }
  return next_mm;
}

/** The loaded radius from the wheel centre down the wheel plane's steepest line to ground with this normal, left frame. */
function contactOn(corner: Corner, carrier: Pose, normal: Vec3): Vec3 {
  const { wheel } = corner.scene;
  const spin = turnByPose(carrier, spinAxis(wheel));
  const down = subtract(scale(spin, dot(spin, normal)), normal);
  const radius_mm = wheel.centre[2] / Math.cos(wheel.camber_deg * RAD);
  return add(applyPose(carrier, wheel.centre), scale(down, radius_mm / length(down)));
}

function wheelTo(corner: Corner, carrier: Pose, normal: Vec3): { camber_deg: number; toe_deg: number } {
  const spin = turnByPose(carrier, spinAxis(corner.scene.wheel));
  const out: Vec3 = [0, normal[2], -normal[1]];
  const [ahead, outward, upward] = [spin[0], dot(spin, out), dot(spin, normal)];
  return {
    camber_deg: Math.atan2(-upward, Math.hypot(ahead, outward)) / RAD,
    toe_deg: Math.atan2(ahead, outward) / RAD,
  };
}

/** Where the lines square to the ground points' ways cross in the front view. As the outer point rises the inner one falls. */
function crossing(
  at: readonly [Vec3, Vec3],
  above: readonly [Vec3, Vec3],
  below: readonly [Vec3, Vec3],
  roll: number,
): { height_mm: number; aside_mm: number } | null {
  const lines = at.map((point, i): { at: Vec3; along: Vec3 } => {
    const [, vy, vz] = subtract(above[i]!, below[i]!);
    const size = Math.hypot(vy, vz);
    return { at: point, along: [0, vz / size, -vy / size] };
  }) as [{ at: Vec3; along: Vec3 }, { at: Vec3; along: Vec3 }];
  const [a, b] = lines;
  const [, dy, dz] = subtract(b.at, a.at);
  const across = a.along[1] * b.along[2] - a.along[2] * b.along[1];
  if (Math.abs(across) < 1e-9) return null;
  const far_mm = (dy * b.along[2] - dz * b.along[1]) / across;
  const cross = add(a.at, scale(a.along, far_mm));
  const middle = scale(add(at[0], at[1]), 0.5);
  const off = subtract(cross, middle);
  return { height_mm: dot(off, ground(roll)), aside_mm: dot(off, [0, Math.cos(roll), Math.sin(roll)]) };
}
