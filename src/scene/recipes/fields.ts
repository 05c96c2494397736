import type { Vec3 } from "../../maths/vec3.ts";

/** What a recipe asks for. Each has a label for errors and a value that suits a first try: trade practice, no source. */

/** Which of the scene's own points suits the field. */
export type PointHint = "wheel" | "inboard" | "outboard";

export interface PointField {
  readonly kind: "point";
  readonly label: string;
  /** Where it would be in a rear corner of common size, car coordinates, mm. */
  readonly usual: Vec3;
  readonly hint: PointHint | null;
}
export interface PointsField {
  readonly kind: "points";
  readonly label: string;
  readonly usual: readonly Vec3[];
  readonly min: number;
  readonly max: number;
  readonly hint: PointHint | null;
}
export interface LengthField {
  readonly kind: "length";
  readonly label: string;
  readonly usual: number;
  /** A length of 0 leaves the thing out. */
  readonly mayBeNone: boolean;
}
export interface AngleField {
  readonly kind: "angle";
  readonly label: string;
  readonly usual: number;
  readonly min: number;
  readonly max: number;
}
export interface CountField {
  readonly kind: "count";
  readonly label: string;
  readonly usual: number;
  readonly min: number;
  readonly max: number;
}
export interface DirectionField {
  readonly kind: "direction";
  readonly label: string;
  readonly usual: Vec3;
}
export interface ChoiceField {
  readonly kind: "choice";
  readonly label: string;
  readonly usual: string;
  readonly options: readonly string[];
}

export type RecipeField =
  | PointField
  | PointsField
  | LengthField
  | AngleField
  | CountField
  | DirectionField
  | ChoiceField;

export function pointAt(label: string, usual: Vec3, hint: PointHint | null = null): PointField {
  return { kind: "point", label, usual, hint };
}

export function pointsAt(
  label: string,
  usual: readonly Vec3[],
  [min, max]: readonly [number, number],
  hint: PointHint | null = null,
): PointsField {
  return { kind: "points", label, usual, min, max, hint };
}

export function lengthOf(label: string, usual: number): LengthField {
  return { kind: "length", label, usual, mayBeNone: false };
}

/** 0: without it. */
export function lengthOrNone(label: string, usual: number): LengthField {
  return { kind: "length", label, usual, mayBeNone: true };
}

export function angleOf(label: string, usual: number, [min, max]: readonly [number, number]): AngleField {
  return { kind: "angle", label, usual, min, max };
}

export function countOf(label: string, usual: number, [min, max]: readonly [number, number]): CountField {
  return { kind: "count", label, usual, min, max };
}

export function directionOf(label: string, usual: Vec3): DirectionField {
  return { kind: "direction", label, usual };
}

export function choiceOf(label: string, options: readonly string[]): ChoiceField {
  return { kind: "choice", label, usual: options[0]!, options };
}
