import type { Vec3 } from "../maths/vec3.ts";
import type { Loads } from "./loadRecords.ts";
import type { Service } from "./serviceRecords.ts";

/**
 * The scene with every default filled in and every POINT turned into car coordinates (mm, ISO 8855: X forward, Y left,
 * Z up). This is what the rooms below read; the document (document.ts) is what the builder edits and what a file holds.
 * A corner is written for the left side.
 */
export interface Scene {
  readonly title: string;
  readonly notes: string;
  readonly sides: readonly Side[];
  readonly points: ReadonlyMap<string, HardPoint>;
  readonly datums: readonly Datum[];
  readonly wheel: Wheel;
  readonly travel: Travel;
  readonly members: readonly Member[];
  readonly damper: Damper | null;
  readonly antiRollBar: AntiRollBar | null;
  readonly driveshaft: Driveshaft | null;
  readonly powertrain: Powertrain;
  readonly joints: readonly JointFit[];
  readonly vehicle: Vehicle | null;
  readonly loads: Loads;
  readonly service: Service;
  readonly bodies: readonly Body[];
  readonly tessellation_mm: number;
  readonly clearances: Clearances;
  /** How far any place of what rides on something may be pushed off, whichever way. */
  readonly give: readonly { readonly on: string; readonly mm: number }[];
}

export type Side = "left" | "right";

export interface HardPoint {
  readonly at: Vec3;
  /** Where the mount really is when it was moved with every part keeping its length; null: where it is drawn. */
  readonly boltedUpAt: Vec3 | null;
  readonly tolerance_mm: number | null;
  readonly how: string | null;
}

export interface Datum {
  readonly id: string;
  readonly at: Vec3;
  /** Unit vectors; `up` square to `forward`. */
  readonly forward: Vec3;
  readonly up: Vec3;
}

export interface Wheel {
  readonly centre: Vec3;
  readonly tyre: string;
  readonly rimWidth_in: number;
  readonly rimOffset_mm: number;
  readonly toe_deg: number;
  readonly camber_deg: number;
  /** How much farther out the tread may stand at speed, and each sidewall under load; left out: nothing. */
  readonly growth_mm?: number;
  readonly bulge_mm?: number;
}

export interface Travel {
  readonly bump_mm: number;
  readonly droop_mm: number;
  readonly step_mm: number;
}

/** Made parts may be cut to a new length, donor parts keep their shape. */
export type Stock = "made" | "donor";

interface MemberBase {
  readonly id: string;
  readonly stock: Stock;
  /** null: bare; undefined: the default body of its kind (a link's capsule, a wishbone's two); a shape: that one. */
  readonly body: Shape | null | undefined;
  readonly diameter_mm: number;
}

/**
 * Chassis-side points come twice: as drawn, which gives the part its length, and `…Mounted`, where its mount is now.
 * They differ only after a move that keeps every part's length.
 */
export interface BallMember extends MemberBase {
  readonly kind: "ball";
  readonly at: Vec3;
  readonly atMounted: Vec3;
}
export interface LinkMember extends MemberBase {
  readonly kind: "link";
  readonly inboard: Vec3;
  readonly inboardMounted: Vec3;
  readonly outboard: Vec3;
  /** Unit axis of the inboard bush, which holds the link against spinning; null: ball joints, least turn. */
  readonly bushAxis: Vec3 | null;
}
export interface WishboneMember extends MemberBase {
  readonly kind: "wishbone";
  readonly front: Vec3;
  readonly rear: Vec3;
  readonly frontMounted: Vec3;
  readonly rearMounted: Vec3;
  readonly outboard: Vec3;
}
export interface HingeMember extends MemberBase {
  readonly kind: "hinge";
  readonly front: Vec3;
  readonly rear: Vec3;
  readonly frontMounted: Vec3;
  readonly rearMounted: Vec3;
}
export interface StrutMember extends MemberBase {
  readonly kind: "strut";
  readonly top: Vec3;
  readonly topMounted: Vec3;
  readonly bottom: Vec3;
}
export type Member = BallMember | LinkMember | WishboneMember | HingeMember | StrutMember;

export interface Damper {
  readonly top: Vec3;
  readonly topMounted: Vec3;
  readonly bottom: Vec3;
  /** "carrier" or a member's id. */
  readonly on: string;
  readonly closed_mm: number;
  readonly open_mm: number;
  readonly body_mm: number;
  readonly spring_mm: number | null;
  readonly springRate_N_per_mm: number | null;
  /** Length of the bare spring, with its turns touching, and between its seats at ride height. */
  readonly springFree_mm: number | null;
  readonly springSolid_mm: number | null;
  readonly springAtRide_mm: number | null;
  /** Lengths of the damper. */
  readonly stopTouches_mm: number | null;
  readonly stopSolid_mm: number | null;
  readonly strapTight_mm: number | null;
}

export interface AntiRollBar {
  readonly pivot: Vec3;
  readonly pivotMounted: Vec3;
  /** Unit vector. */
  readonly axis: Vec3;
  readonly arm: Vec3;
  readonly pickup: Vec3;
  /** "carrier" or a member's id. */
  readonly on: string;
  readonly diameter_mm: number;
}

export interface Driveshaft {
  readonly outer: Vec3;
  readonly diameter_mm: number;
  readonly outerAngleLimit_deg: number | null;
  readonly innerJoint: ShaftJoint;
  readonly outerJoint: ShaftJoint;
  /** Inner end by side. The right one is given in car coordinates; unless the scene says otherwise it is the left one mirrored. */
  readonly inner: Readonly<Record<Side, ShaftInner>>;
}
/** "universal": a single cross, whose far side speeds up and slows down as it bends. */
export type ShaftJoint = "constant velocity" | "universal";
export interface ShaftInner {
  readonly at: Vec3;
  /** Unit vector. */
  readonly axis: Vec3;
  readonly shortest_mm: number | null;
  readonly longest_mm: number | null;
  /** Of the bar alone, end to end. */
  readonly bar_mm: number | null;
  readonly angleLimit_deg: number | null;
}

export interface Powertrain {
  readonly place: { readonly shift_mm: Vec3; readonly turn_deg: Vec3; readonly about: Vec3 } | null;
  /** "rest" always comes first. */
  readonly poses: readonly PowertrainPose[];
}
export interface PowertrainPose {
  readonly id: string;
  readonly about: Vec3;
  /** Unit vector. */
  readonly axis: Vec3;
  readonly angle_deg: number;
  readonly shift_mm: Vec3;
  /** Travel within which the pose is credible, [from, to]; null: the whole travel. */
  readonly within_mm: readonly [number, number] | null;
}

/** How a joint is made and how far it may go; what is null is not limited. */
export interface JointFit {
  /** As kinematics/joints.ts names it, such as "upper.inboard". */
  readonly joint: string;
  readonly kind: "rod end" | "ball joint" | "bush";
  /** Unit vector of the bolt or stud, as drawn. */
  readonly axis: Vec3;
  readonly tilt_deg: number | null;
  readonly twist_deg: number | null;
  /** How far the bracket may stand crooked, in the worst direction. */
  readonly crooked_deg: number;
}

export interface Vehicle {
  readonly wheelbase_mm: number;
  readonly cgHeight_mm: number;
  readonly rearBrakeShare: number | null;
}

export interface Body {
  readonly id: string;
  /** chassis | powertrain | carrier | a member's id | damper-upper | damper-lower | driveshaft */
  readonly on: string;
  readonly shape: Shape;
  readonly role: string | null;
  readonly mirror: boolean;
}

export interface Clearances {
  readonly default_mm: number;
  readonly jointRadius_mm: number;
  /** `a` and `b` are a body's id, "role:NAME" or "*". */
  readonly rules: readonly { readonly a: string; readonly b: string; readonly mm: number }[];
  readonly accept: readonly { readonly a: string; readonly b: string; readonly why: string }[];
}

interface Placed {
  /** Where the shape's own origin goes; null: car origin. */
  readonly at: Vec3 | null;
  /** Intrinsic X, Y, Z, degrees, about `at`. */
  readonly turn_deg: Vec3 | null;
}
export interface SphereShape extends Placed {
  readonly kind: "sphere";
  readonly diameter_mm: number;
}
export interface CylinderShape extends Placed {
  readonly kind: "cylinder";
  readonly from: Vec3;
  readonly to: Vec3;
  readonly diameter_mm: number;
}
export interface CapsuleShape extends Placed {
  readonly kind: "capsule";
  readonly from: Vec3;
  readonly to: Vec3;
  readonly diameter_mm: number;
}
export interface ConeShape extends Placed {
  readonly kind: "cone";
  readonly from: Vec3;
  readonly to: Vec3;
  readonly fromDiameter_mm: number;
  readonly toDiameter_mm: number;
}
export interface BoxShape extends Placed {
  readonly kind: "box";
  /** Over all. */
  readonly size_mm: Vec3;
  /** Edge radius; null: sharp. */
  readonly edge_mm: number | null;
}
export interface TorusShape extends Placed {
  readonly kind: "torus";
  /** Of the centre circle, whose axis is Y. */
  readonly diameter_mm: number;
  readonly section_mm: number;
}
export interface TubeShape extends Placed {
  readonly kind: "tube";
  readonly path: readonly Vec3[];
  readonly diameter_mm: number;
  /** Centre-line radius of the bends; null: mitred corners. */
  readonly bend_mm: number | null;
  /** null: solid. The outside is what clashes. */
  readonly wall_mm: number | null;
}
export interface PrismShape extends Placed {
  readonly kind: "prism";
  readonly outline: readonly (readonly [number, number])[];
  readonly holes: readonly (readonly (readonly [number, number])[])[];
  readonly thickness_mm: number;
  readonly origin: Vec3;
  /** Unit vectors, square to each other; the plate grows along u×v. */
  readonly u: Vec3;
  readonly v: Vec3;
}
export interface HullShape extends Placed {
  readonly kind: "hull";
  readonly points: readonly Vec3[];
  readonly spheres: readonly { readonly at: Vec3; readonly diameter_mm: number }[];
}
export interface WheelShape extends Placed {
  readonly kind: "wheel";
}
export interface MeshShape extends Placed {
  readonly kind: "mesh";
  /** Relative to the scene's folder, never out of it. */
  readonly file: string;
  readonly unit: "mm" | "cm" | "m" | "in";
  readonly repair: MeshRepair | null;
  readonly thinned: MeshThinning | null;
}
/** What is mended in a mesh each time its file is read. */
export interface MeshRepair {
  /** Vertices this near to each other become one. */
  readonly weldWithin_mm?: number | undefined;
  /** Loose pieces smaller than this over their box are left out. */
  readonly straysBelow_mm?: number | undefined;
  /** Flat holes no larger than this across are closed. */
  readonly holesUpTo_mm?: number | undefined;
}
/** The mesh is checked thinned out: no point of it is farther than `within_mm` from what is checked. */
export interface MeshThinning {
  readonly within_mm: number;
  /** What the simplifier is asked for. */
  readonly error_mm: number;
}
export interface GroupShape extends Placed {
  readonly kind: "group";
  readonly parts: readonly Shape[];
}
export type Shape =
  | SphereShape
  | CylinderShape
  | CapsuleShape
  | ConeShape
  | BoxShape
  | TorusShape
  | TubeShape
  | PrismShape
  | HullShape
  | WheelShape
  | MeshShape
  | GroupShape;
