import { applyPose, isSamePose, POSE_SIZE, type Pose, rotationPose } from "../maths/pose.ts";
import { cross, distance, dot, length, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import type { AntiRollBar } from "../scene/scene.ts";
import type { Corner } from "./corner.ts";
import { writeLeastTurn } from "./rider.ts";

/** The bar at one carrier pose, left frame. */
export interface BarState {
  /** Turn of the arm from its design position about the bar's axis, right hand. */
  readonly angle_deg: number;
  readonly bar: Pose;
  readonly link: Pose;
}

/** Rounding of the cosine: a drop link drawn in line with its arm reaches where it is drawn. */
const IN_LINE = 1e-12;

interface KnownState {
  readonly carrier: Pose;
  readonly state: BarState | null;
}

/** Of every corner the last answers, by the pose's last number: solver, joints, mounts and links ask in turn for the same poses. */
const known = new WeakMap<Corner, Map<number, KnownState>>();
const MOST_KNOWN = 256;

/** The bar and its drop link for a carrier pose, or null where the drop link does not reach: the bar locks the corner. */
export function barState(corner: Corner, carrier: Pose): BarState | null {
  const answers = known.get(corner) ?? new Map<number, KnownState>();
  const key = carrier[POSE_SIZE - 1]!;
  const before = answers.get(key);
  if (before && isSamePose(before.carrier, carrier)) return before.state;
  const state = newBarState(corner, carrier);
  if (answers.size >= MOST_KNOWN) answers.clear();
  answers.set(key, { carrier: carrier.slice(), state });
  known.set(corner, answers);
  return state;
}

function newBarState(corner: Corner, carrier: Pose): BarState | null {
  const bar = corner.scene.antiRollBar;
  if (!bar) return null;
  const pickup = applyPose(corner.rider(bar.on).pose(carrier, new Float64Array(POSE_SIZE)), bar.pickup);
  const angle = armAngle(bar, pickup);
  if (angle === null) return null;
  const turned = rotationPose(bar.axis, angle, bar.pivot);
  const [x, y, z] = subtract(bar.pivotMounted, bar.pivot);
  turned[3]! += x;
  turned[7]! += y;
  turned[11]! += z;
  const arm = applyPose(turned, bar.arm);
  const link = writeLeastTurn(
    new Float64Array(POSE_SIZE),
    normalise(subtract(bar.pickup, bar.arm)),
    subtract(pickup, arm),
    bar.arm,
    arm,
  );
  return { angle_deg: (angle * 180) / Math.PI, bar: turned, link };
}

export function barLocks(corner: Corner, carrier: Pose): boolean {
  return corner.scene.antiRollBar !== null && barState(corner, carrier) === null;
}

/**
 * Angle (rad) that keeps the drop link's length: with the arm end and the pickup at radii ρa, ρk from the axis and h
 * apart along it, cos of the angle between them is (ρa² + ρk² + h² − L²) / (2 ρa ρk). Of its two signs the bar keeps the
 * drawn one: they meet only where the link locks. Null beyond.
 */
function armAngle(bar: AntiRollBar, pickup: Vec3): number | null {
  const drop_mm = distance(bar.arm, bar.pickup);
  const arm = aboutAxis(subtract(bar.arm, bar.pivot), bar.axis);
  const drawn = aboutAxis(subtract(bar.pickup, bar.pivot), bar.axis);
  const now = aboutAxis(subtract(pickup, bar.pivotMounted), bar.axis);
  const apart = arm.along_mm - now.along_mm;
  const armRadius = length(arm.radial);
  const radius = length(now.radial);
  const cosine = (armRadius ** 2 + radius ** 2 + apart ** 2 - drop_mm ** 2) / (2 * armRadius * radius);
  if (!(Math.abs(cosine) <= 1 + IN_LINE)) return null;
  const branch = Math.sign(angleBetween(drawn.radial, arm.radial, bar.axis)) || 1;
  const target = branch * Math.acos(Math.max(-1, Math.min(1, cosine)));
  const turn = angleBetween(arm.radial, now.radial, bar.axis) + target;
  return Math.atan2(Math.sin(turn), Math.cos(turn));
}

function aboutAxis(arm: Vec3, axis: Vec3): { along_mm: number; radial: Vec3 } {
  const along_mm = dot(arm, axis);
  return { along_mm, radial: subtract(arm, scale(axis, along_mm)) };
}

/** Right-hand angle about the axis from one radial vector to another. */
function angleBetween(from: Vec3, to: Vec3, axis: Vec3): number {
  return Math.atan2(dot(cross(from, to), axis), dot(from, to));
}

/** The bar's arm and drop link at one carrier pose. */
export interface BarReading {
  /** Turn of the arm from its design position about the bar's axis, right hand. */
  readonly turn_deg: number;
  /** Between drop link and arm as it counts for the lever: 90 square to each other, 0 in line, where the arm may go over centre. */
  readonly link_deg: number;
  /** Of the drop link's pull about the bar's axis. */
  readonly lever_mm: number;
}

/** Null where the scene has no bar, or its drop link does not reach. */
export function readBar(corner: Corner, carrier: Pose): BarReading | null {
  const { antiRollBar: bar } = corner.scene;
  const state = barState(corner, carrier);
  if (!bar || !state) return null;
  const arm = applyPose(state.bar, bar.arm);
  const pull = normalise(subtract(applyPose(state.link, bar.pickup), arm));
  const { radial } = aboutAxis(subtract(arm, bar.pivotMounted), bar.axis);
  const lever_mm = Math.abs(dot(bar.axis, cross(radial, pull)));
  return {
    turn_deg: state.angle_deg,
    link_deg: (Math.asin(Math.min(1, lever_mm / length(radial))) * 180) / Math.PI,
    lever_mm,
  };
}
