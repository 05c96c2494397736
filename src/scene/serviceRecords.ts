import type { Vec3 } from "../maths/vec3.ts";
import type { SceneDocument } from "./document.ts";
import type { Side } from "./scene.ts";

type Document = NonNullable<SceneDocument["service"]>;
export type ToolDocument = NonNullable<Document["tools"]>[number];
export type JobDocument = NonNullable<Document["jobs"]>[number];
export type FastenerDocument = NonNullable<Document["fasteners"]>[number];
export type StepDocument = Extract<JobDocument, { kind: "out" }>["steps"][number];

/** What the scene says of service, with points in car coordinates of the left corner and the defaults filled in. */
export interface Service {
  readonly fasteners: readonly Fastener[];
  readonly tools: readonly ServiceTool[];
  readonly jobs: readonly ServiceJob[];
}

export const NO_SERVICE: Service = { fasteners: [], tools: [], jobs: [] };

export interface Fastener {
  readonly id: string;
  /** A mount: chassis, powertrain, carrier, a member's id, damper-upper, damper-lower, driveshaft, bar, bar-link. */
  readonly mount: string;
  /** Id of the part that it sits in, whose surface around it does not count; null: only the mount is told. */
  readonly part: string | null;
  /** Whether the right side has an image of it. */
  readonly isMirrored: boolean;
  readonly at: Vec3;
  /** Unit vector. */
  readonly facing: Vec3;
  readonly size_mm: number | null;
}

export type ServiceTool =
  | { readonly id: string; readonly kind: "socket"; readonly diameter_mm: number; readonly length_mm: number }
  | {
      readonly id: string;
      readonly kind: "spanner";
      readonly length_mm: number;
      readonly width_mm: number;
      readonly thickness_mm: number;
      readonly swing_deg: number;
      readonly off_mm: number;
    }
  | {
      readonly id: string;
      readonly kind: "arm";
      readonly diameter_mm: number;
      readonly by: readonly Vec3[];
      readonly off_mm: number;
    };

interface JobBase {
  readonly id: string;
  readonly side: Side | null;
  /** Ids of parts (aliases as bodiesOf knows them) and names of joints. */
  readonly removed: readonly string[];
}
export interface ReachJob extends JobBase {
  readonly kind: "reach";
  readonly fastener: Fastener;
  readonly tools: readonly ServiceTool[];
}
export interface OutJob extends JobBase {
  readonly kind: "out";
  readonly parts: readonly string[];
  readonly steps: readonly ServiceStep[];
}
export type ServiceJob = ReachJob | OutJob;

export type ServiceStep = StraightStep | TurnStep | SwingStep;
export interface StraightStep {
  readonly kind: "straight";
  /** Unit vector. */
  readonly way: Vec3;
  readonly length_mm: number;
}
export interface TurnStep {
  readonly kind: "turn";
  readonly about: Vec3;
  /** Unit vector. */
  readonly axis: Vec3;
  readonly angle_deg: number;
}
export interface SwingStep {
  readonly kind: "swing";
  readonly member: string;
  readonly about: Vec3;
  readonly axis: Vec3;
  readonly by:
    | { readonly kind: "angle"; readonly angle_deg: number }
    | { readonly kind: "frees"; readonly at: Vec3; readonly way: Vec3; readonly mm: number };
  /** null: not limited. */
  readonly allows_deg: number | null;
  /** Name of the joint at `about`; null: it is at none. */
  readonly joint: string | null;
}
