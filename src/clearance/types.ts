import type { Solid } from "../geometry/solid.ts";
import type { Vec3 } from "../maths/vec3.ts";

/**
 * How one body moves through the travel in one powertrain pose: n knots, ascending, at most 1 mm apart, and 12·n numbers
 * of poses (maths/pose.ts). Between knots the motion is the screw from one to the next. A body that stands still
 * has one knot, whose travel does not matter.
 */
export interface Motion {
  readonly travel_mm: Float64Array;
  readonly poses: Float64Array;
}

export interface SweepBody {
  /** Unique in the job. */
  readonly key: string;
  readonly solid: Solid;
  /** Equal content means an equal solid: trees are kept by it. */
  readonly content: string;
}

/** One powertrain pose in which a pair is swept. */
export interface SweepVariant {
  readonly pose: string;
  readonly a: Motion;
  readonly b: Motion;
  /** Travel range that counts in this pose, within the knots. */
  readonly from_mm: number;
  readonly to_mm: number;
  /** The way from rest to this pose, which counts with it; left out: the pose alone counts. */
  readonly rock?: Rock;
}

/**
 * How two bodies get from rest (share 0) to a named pose (share 1), whose own motions are the variant's `a` and `b`.
 * At one travel no point of either moves faster, a unit of share, than its `speed_mm`, nor is accelerated by more than
 * its `bend_mm`, a unit of share squared: proven bounds, zero for a body that does not rock.
 */
export interface Rock {
  /** With equal motions in the pose, equal content means an equal way: sweeps are kept by it. */
  readonly content: string;
  readonly a: RockBound;
  readonly b: RockBound;
  motionsAt(share: number): { readonly a: Motion; readonly b: Motion };
}

export interface RockBound {
  readonly speed_mm: number;
  readonly bend_mm: number;
}

/** Surfaces of either body within `radius_mm` of the joint do not count in this pair. Centres are in design position. */
export interface JointExcuse {
  readonly centreInA: Vec3;
  readonly centreInB: Vec3;
  readonly radius_mm: number;
}

export interface SweepPair {
  /** Keys of two bodies. */
  readonly a: string;
  readonly b: string;
  readonly required_mm: number;
  readonly excuses: readonly JointExcuse[];
  readonly variants: readonly SweepVariant[];
}

/**
 * surface: exact surface distance; convex: minus the exact depth over convex pieces; inside: a body wholly within the
 * other, depth by pieces or sampled; sampled: minus the deepest point found at 2 mm spacing (scans, joints excused).
 */
export type Measure = "surface" | "convex" | "inside" | "sampled";

export interface PairSweep {
  readonly clearance_mm: number;
  readonly measure: Measure;
  readonly at: SweptState;
  /** Nearest points at the worst state, car coordinates; while overlapping, the points between which the depth runs. */
  readonly pointA: Vec3;
  readonly pointB: Vec3;
  /** Unit vector along which moving `a` by the depth parts the two (or opens the gap fastest). */
  readonly partingOfA: Vec3;
  /** Travel in which the two overlap, any variant at any share, united, ends to 0.1 mm. */
  readonly clashTravel_mm: readonly (readonly [number, number])[];
  /** The worst of each variant, in the order of the pair's variants. */
  readonly byVariant: readonly VariantSweep[];
}

export interface SweptState {
  readonly travel_mm: number;
  readonly pose: string;
  /** How far the pose has got on its way from rest; left out at the pose itself. */
  readonly share?: number;
}

/** The worst of one pose: on its way from rest where it is worse there than at both ends, otherwise at the pose itself. */
export interface VariantSweep extends SweptState {
  /** The smallest that was measured; exact as sweepPair says. */
  readonly clearance_mm: number;
  /** The pose is only known to keep at least this clearance, which is more than the pair's worst; travel and share mean nothing. */
  readonly isAtLeast?: true;
  /** [travel, clearance] pairs at the states measured at this share, travel ascending: for plots, not for verdicts. */
  readonly profile: Float64Array;
}

/** The surface of one body nearer than the required clearance, in that body's design position. */
export interface PatchMesh {
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
  /** Clearance at each vertex, mm; negative where it is buried in the other body, −30 at the lowest. */
  readonly clearance_mm: Float32Array;
  readonly area_mm2: number;
}

export interface ContactPatch {
  readonly a: PatchMesh;
  readonly b: PatchMesh;
  /** Curves in which the surfaces cross, car coordinates at the asked state: one array of 3·k coordinates a polyline. */
  readonly crossing: readonly Float32Array[];
}
