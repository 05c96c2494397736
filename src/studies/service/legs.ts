import type { Motion } from "../../clearance/types.ts";
import { composePoses, POSE_SIZE, type Pose, rotationPose, translationPose } from "../../maths/pose.ts";
import { add, cross, dot, length, scale, subtract, type Vec3 } from "../../maths/vec3.ts";

/**
 * One stretch of a path in car axes, run through by a length in mm: of a straight one its own, of a turn the arc at `reach_mm` from
 * its axis. The motion between knots is a screw, so it is the path itself, not an approximation of it.
 */
export type Leg =
  | { readonly kind: "straight"; readonly way: Vec3; readonly length_mm: number }
  | {
      readonly kind: "turn";
      readonly about: Vec3;
      readonly axis: Vec3;
      readonly angle_deg: number;
      readonly reach_mm: number;
    };

/** A screw between two knots is told apart from its reverse below half a turn. */
const MOST_KNOT_deg = 30;
const LEAST_REACH_mm = 1;

export function legLength_mm(leg: Leg): number {
  if (leg.kind === "straight") return leg.length_mm;
  return Math.abs(rad(leg.angle_deg)) * Math.max(leg.reach_mm, LEAST_REACH_mm);
}

/** What the leg has done to its bodies after so many mm. */
export function poseOnLeg(leg: Leg, at_mm: number): Pose {
  if (leg.kind === "straight") return translationPose(scale(leg.way, at_mm));
  return rotationPose(leg.axis, rad(angleOnLeg(leg, at_mm)), leg.about);
}

/** Degrees after so many mm of a turn. */
export function angleOnLeg(leg: Extract<Leg, { kind: "turn" }>, at_mm: number): number {
  const whole = legLength_mm(leg);
  return whole === 0 ? 0 : (leg.angle_deg * at_mm) / whole;
}

/** The motion over [0, length] of a body that stands in `pose` at the leg's start. */
export function motionOnLeg(leg: Leg, pose: Pose): Motion {
  const whole = legLength_mm(leg);
  const parts = leg.kind === "straight" ? 1 : Math.max(1, Math.ceil(Math.abs(leg.angle_deg) / MOST_KNOT_deg));
  const travel_mm = new Float64Array(parts + 1);
  const poses = new Float64Array((parts + 1) * POSE_SIZE);
  for (let i = 0; i <= parts; i++) {
    travel_mm[i] = i === parts ? whole : (whole * i) / parts;
    poses.set(composePoses(poseOnLeg(leg, travel_mm[i]!), pose), i * POSE_SIZE);
  }
  return { travel_mm, poses };
}

export function standing(pose: Pose): Motion {
  return { travel_mm: Float64Array.of(0), poses: pose };
}

/** The distance of a point from the line through `about` along the unit vector `axis`. */
export function fromAxis(point: Vec3, about: Vec3, axis: Vec3): number {
  return length(cross(subtract(point, about), axis));
}

/**
 * The least turn about an axis, degrees, that brings a point by `mm` along the unit vector `way`: its way is
 * A(cos θ − 1) + B sin θ, with A and B the parts along `way` of the point's arm from the axis and of axis × arm. null: no turn does.
 */
export function turnThatFrees(point: Vec3, about: Vec3, axis: Vec3, way: Vec3, mm: number): number | null {
  const { a, b } = armsOf(point, about, axis, way);
  const sense = b < 0 ? -1 : 1;
  const size = Math.hypot(a, b);
  if (size === 0 || (mm + a) / size > 1) return null;
  const angle = Math.atan2(Math.abs(b), a) - Math.acos((mm + a) / size);
  return (sense * angle * 180) / Math.PI;
}

/** How far along `way` a turn by the angle brings the point, mm. */
export function freedBy(point: Vec3, about: Vec3, axis: Vec3, way: Vec3, angle_deg: number): number {
  const { a, b } = armsOf(point, about, axis, way);
  return a * (Math.cos(rad(angle_deg)) - 1) + b * Math.sin(rad(angle_deg));
}

function armsOf(point: Vec3, about: Vec3, axis: Vec3, way: Vec3): { a: number; b: number } {
  const from = subtract(point, about);
  const arm = add(from, scale(axis, -dot(from, axis)));
  return { a: dot(arm, way), b: dot(cross(axis, arm), way) };
}

function rad(deg: number): number {
  return (deg * Math.PI) / 180;
}
