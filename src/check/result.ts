import type { Measure } from "../clearance/types.ts";
import type { Vec3 } from "../maths/vec3.ts";
import type { Side } from "../scene/scene.ts";
import type { UncheckedPart } from "./unchecked.ts";

/** The one result that ledger, curves, cards and the terminal share. Field names are the command line's contract. */
export interface CheckResult {
  readonly scene: string;
  readonly sides: Readonly<Partial<Record<Side, SideCurves>>>;
  readonly pairs: readonly PairVerdict[];
  readonly limits: readonly LimitVerdict[];
  readonly summary: Readonly<Record<Verdict, number>>;
  /** Parts of which no pair is here, and why; left out where every part is checked. */
  readonly unchecked?: readonly UncheckedPart[];
}

export type Verdict = "clash" | "tight" | "clear" | "accepted";

export interface SideCurves {
  readonly curve: readonly CurvePoint[];
  /** Travel at which the corner binds, nearest to ride height; null: it runs through. */
  readonly bindsAt_mm: number | null;
}

/** Readings of one wheel at one travel, powertrain at rest. Shaft and damper columns are null where the scene has none. */
export interface CurvePoint {
  readonly travel_mm: number;
  readonly toe_deg: number;
  readonly camber_deg: number;
  readonly halfTrack_mm: number;
  readonly wheelbaseShift_mm: number;
  readonly rollCentre_mm: number;
  readonly damper_mm: number | null;
  readonly damperRatio: number | null;
  readonly shaft_mm: number | null;
  readonly innerAngle_deg: number | null;
  readonly outerAngle_deg: number | null;
}

/** What a point of the curves reads beside its travel, in the order in which tables have it. */
export const CURVE_READINGS = [
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

export interface StateAt {
  readonly travel_mm: number;
  readonly pose: string;
  /** How far the engine has got from rest to the pose, 0 to 1; left out where it has got there. */
  readonly share?: number;
}

export interface PairVerdict {
  readonly side: Side | "both";
  /** Body ids, a before b in alphabetical order. */
  readonly a: string;
  readonly b: string;
  readonly required_mm: number;
  readonly clearance_mm: number;
  /**
   * The clearance is what the pair is proved to keep after an edit, the verdict its own; the exact one follows. Until then
   * state, points and direction are those of before the edit, and profile and poses are left out.
   */
  readonly isAtLeast?: true;
  readonly verdict: Verdict;
  readonly measure: Measure;
  /**
   * The checked surfaces may be so far, together, from the parts' own (scans welded or thinned out): clearances are told
   * smaller by it, depths greater. Left out where it is nothing.
   */
  readonly within_mm?: number;
  /** How far the two may be pushed towards each other as bushes and mounts give: clearances are told smaller by that too. */
  readonly give_mm?: number;
  /** Ids of those of the two whose surface is open: what is inside them is not found, only what meets the surface. */
  readonly open?: readonly string[];
  readonly at: StateAt;
  readonly pointA: Vec3;
  readonly pointB: Vec3;
  readonly clashTravel_mm: readonly (readonly [number, number])[];
  /** Unit vector along which `a` parts from `b`, car coordinates. */
  readonly partingOfA: Vec3;
  /** Why the pair is left out of the count; only with verdict "accepted". */
  readonly why?: string;
  /** [travel_mm, clearance_mm] at the states looked at in the worst pose at the worst share, travel ascending. */
  readonly profile: readonly (readonly [number, number])[];
  /**
   * Worst clearance of each powertrain pose: on the way to it where it is worse there than at both ends. A pose in which the
   * pair is known to be farther apart than in its worst may be left out.
   */
  readonly byPose: Readonly<Record<string, number>>;
  /** Poses, not in `byPose`, of which no more is known than that the pair stays farther off in them. */
  readonly farther?: readonly string[];
  /** Keys of the two bodies of the model that gave the worst clearance. */
  readonly keys: readonly [string, string];
}

export type LimitName =
  | "shaft-length"
  | "inner-angle"
  | "outer-angle"
  | "damper-length"
  | "stop"
  | "strap"
  | "coil-bind"
  | "joint-tilt"
  | "joint-twist"
  | "binds";

export interface LimitVerdict {
  readonly side: Side;
  /** Shortest and longest of one length are two limits, the one with less to spare first. */
  readonly what: LimitName;
  /** Of joint-tilt and joint-twist: the joint, or the link that twists between its two rod ends. */
  readonly joint?: string;
  readonly verdict: "clash" | "clear";
  readonly value: number;
  readonly limit: number;
  readonly at: StateAt;
  /** Travel at which the limit is first passed, going out from ride height in the worst pose; null: it never is. */
  readonly passedAt_mm: number | null;
}
