import type { Vec3 } from "../../maths/vec3.ts";
import type { Flat, Ring } from "./drawing.ts";
import type { Bend } from "./fold.ts";
import type { RoundHole } from "./roundOff.ts";

/** A fold across the flat plate: its middle line, and how wide the bend is. */
export interface FoldLine extends Bend {
  readonly from: Flat;
  readonly to: Flat;
  /** Of flat plate, the middle line in its middle. */
  readonly allowance_mm: number;
}

/** Whether the steel goes to one side alone, or to both; the right one is the left one turned over. */
export type OnSides = "one" | "both";

/** A piece that is cut from plate, laid flat, as one sees it looking at its `face`. */
export interface FlatPart {
  readonly kind: "plate";
  /** "upper-hanger 2"; the body's own id where it is one piece alone. */
  readonly id: string;
  /** The body it belongs to. */
  readonly of: string;
  readonly thickness_mm: number;
  /** Alike within the body, on one side of the car. */
  readonly count: number;
  readonly sides: OnSides;
  readonly outline: Ring;
  readonly holes: readonly (RoundHole | Ring)[];
  readonly folds: readonly FoldLine[];
  readonly kFactor: number | null;
  /** Where the drawn face looks in the car, and which way the template's u and v run there; null where a fold turns them, or alike pieces look different ways. */
  readonly stands: Standing | null;
  /** What differs from the part as it is drawn. */
  readonly differs: readonly Difference[];
}

export interface Standing {
  readonly face: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
}

export type Difference =
  /** Folded from the lugs' thickness; the base was drawn thicker or thinner. */
  { readonly what: "base-thickness"; readonly drawn_mm: number; readonly folded_mm: number };
