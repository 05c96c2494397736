import type { Vec3 } from "../maths/vec3.ts";
import type { Member, Side } from "../scene/scene.ts";

/** A force (N, car axes) and a place on its line (mm). */
export interface PointForce {
  readonly at: Vec3;
  readonly force_N: Vec3;
}

/**
 * How the wheel's torque about its spin axis is held. "carrier": by a brake whose caliper sits on the carrier. "shaft":
 * by the driveshaft at the differential or at an inboard brake there, both fixed to the chassis or powertrain.
 * "free": by nothing, the wheel only spins faster or slower.
 */
export type TorquePath = "carrier" | "shaft" | "free";

/** What acts on one wheel. */
export interface WheelLoad {
  /** Of the ground on the tyre, at the ground point: forward, out, up in car axes. */
  readonly force_N: Vec3;
  readonly torque: TorquePath;
  /** Force along the anti-roll bar's drop link, tension positive; 0: the bar does nothing. */
  readonly dropLink_N: number;
}

/** What one joint passes, as the first part of `between` acts on the second. */
export interface JointLoad {
  /** As kinematics/joints.ts names it, such as "upper.inboard". */
  readonly id: string;
  readonly between: readonly [string, string];
  /** Where the joint is now, car coordinates. */
  readonly at: Vec3;
  readonly force_N: Vec3;
  /** Couple beside the force; nothing at ball joints and bushes. */
  readonly moment_Nmm: Vec3;
}

/** A stretch of a member that is checked as one bar. */
export interface MemberSection {
  /** "whole", or which stretch, leg or cut: "inboard", "outboard", "front", "rear", "cut 1". */
  readonly name: string;
  /** Tension positive. */
  readonly axial_N: number;
  /** Largest bending moment in the stretch from loads between its ends; the bow of a cranked bar is not in it. */
  readonly bending_Nmm: number;
  /** Between the centres of its ends. */
  readonly length_mm: number;
}

export interface MemberLoad {
  readonly id: string;
  readonly kind: Member["kind"];
  /** Of what is one with the hub (ball, hinge): where the scene cuts it, else nothing, as its form decides where it is weakest. */
  readonly sections: readonly MemberSection[];
  /** Moment about a link's own axis, which its inboard bush must hold; null for other kinds. */
  readonly spin_Nmm: number | null;
  /** Thrust along the inboard line of a wishbone or hinge, shared equally between its two bushes; null for other kinds. */
  readonly thrust_N: number | null;
}

export interface ShaftLoad {
  /** Torque about the shaft's own axis. */
  readonly torque_Nmm: number;
  readonly inner_deg: number;
  readonly outer_deg: number;
}

/** Everything that one corner's parts pass in one state, in car coordinates. */
export interface CornerLoads {
  readonly side: Side;
  readonly ground: PointForce;
  readonly joints: readonly JointLoad[];
  readonly members: readonly MemberLoad[];
  /** Of damper, spring and stop together, compression positive. */
  readonly damper_N: number;
  /** null: no torque goes through a shaft, or the scene has none. */
  readonly shaft: ShaftLoad | null;
  /** What is left over of any body's equilibrium: worst force, and worst moment about that body's first joint. */
  readonly residual_N: number;
  readonly residual_Nmm: number;
}
