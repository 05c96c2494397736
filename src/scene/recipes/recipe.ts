import { add, type Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, ShapeDocument } from "../document.ts";
import type { RecipeField } from "./fields.ts";

/** A point that a part hangs on. */
export interface Anchor {
  /** Where it is drawn, car coordinates, mm. */
  readonly at: Vec3;
  /** A POINT that lies `by` from it and follows it; written to a ten-thousandth of a millimetre. */
  near(by: Vec3): PointDocument;
}

type ValueOf<Field extends RecipeField> = Field extends { kind: "point" }
  ? Anchor
  : Field extends { kind: "points" }
    ? readonly Anchor[]
    : Field extends { kind: "direction" }
      ? Vec3
      : Field extends { kind: "choice" }
        ? string
        : number;

export type RecipeValues<Fields extends Readonly<Record<string, RecipeField>>> = {
  readonly [Key in keyof Fields]: ValueOf<Fields[Key]>;
};

/** A size that can be pulled in the view: where its handle stands and which way it grows. */
export interface SizeHandle {
  readonly key: string;
  readonly at: Vec3;
  /** Unit vector. */
  readonly along: Vec3;
  /** Size gained per mm of pull: 2 for a diameter pulled at its rim. */
  readonly perPull: number;
}

/** Throws InputError `wrong-value` at the field. */
export type Refuse = (key: string, wrong: string, wanted: string) => never;

/** How a kind of part is drawn from a few sizes and the points it hangs on: pure, and the same values give the same shape. */
export interface Recipe {
  /** As files write it. */
  readonly name: string;
  /** What parts of this kind mostly ride on. */
  readonly on: "chassis" | "powertrain" | "carrier" | "driveshaft";
  readonly role: string;
  /** Whether it runs from a to b as an arm does, so that a member may take it for its own shape. */
  readonly isArm: boolean;
  readonly fields: Readonly<Record<string, RecipeField>>;
  shape(values: Readonly<Record<string, unknown>>, refuse: Refuse): ShapeDocument;
  handles(values: Readonly<Record<string, unknown>>): readonly SizeHandle[];
}

interface RecipeSource<Fields extends Readonly<Record<string, RecipeField>>>
  extends Omit<Recipe, "fields" | "shape" | "handles" | "isArm"> {
  readonly isArm?: boolean;
  readonly fields: Fields;
  shape(values: RecipeValues<Fields>, refuse: Refuse): ShapeDocument;
  handles(values: RecipeValues<Fields>): readonly SizeHandle[];
}

export function recipe<const Fields extends Readonly<Record<string, RecipeField>>>(
  source: RecipeSource<Fields>,
): Recipe {
  return { isArm: false, ...source } as unknown as Recipe;
}

const FINEST_PER_MM = 1e4;

/** The POINT moved by `by`, hanging on what it hung on. */
export function movedPoint(point: PointDocument, by: Vec3): PointDocument {
  if (typeof point === "string") return isNothing(by) ? point : { from: point, by: fine(by) };
  if ("from" in point) {
    const sum = fine(add(point.by, by));
    return isNothing(sum) ? point.from : { from: point.from, by: sum };
  }
  return fine(add(point, by));
}

/** To a ten-thousandth of a millimetre: files stay readable. */
export function fine(v: Vec3): Vec3 {
  return v.map((value) => fineNumber(value)) as unknown as Vec3;
}

export function fineNumber(value: number): number {
  return Math.round(value * FINEST_PER_MM) / FINEST_PER_MM + 0;
}

function isNothing(by: Vec3): boolean {
  return by.every((value) => Math.abs(value) < 0.5 / FINEST_PER_MM);
}
