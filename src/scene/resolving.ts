import { cross, distance, dot, length, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { InputError, type InputErrorCode } from "./error.ts";
import type { PointResolver } from "./pointResolver.ts";

/** What every part of resolving a scene needs at hand. */
export interface Resolving extends PointResolver {
  readonly refuse: (code: InputErrorCode, path: string, wrong: string, wanted: string) => InputError;
}

export function resolving(points: PointResolver, file: string): Resolving {
  return { ...points, refuse: (code, path, wrong, wanted) => new InputError(code, { file, path }, wrong, wanted) };
}

/** Two points nearer than this are one: far below what can be measured, far above rounding at car size. */
export const SAME_PLACE_MM = 0.01;
/** Sine below which two directions count as parallel (0.06°). */
const PARALLEL = 1e-3;

export function unitVector(direction: Vec3, path: string, { refuse }: Resolving): Vec3 {
  if (length(direction) < 1e-9)
    throw refuse("zero-length", path, "the direction has no length", "a direction such as [0, 1, 0]");
  return normalise(direction);
}

/** `second` turned square to the unit vector `first` in their common plane. */
export function squaredTo(first: Vec3, second: Vec3, path: string, context: Resolving): Vec3 {
  const unit = unitVector(second, path, context);
  if (length(cross(first, unit)) < PARALLEL) {
    throw context.refuse("wrong-value", path, "the two directions are parallel", "directions that span a plane");
  }
  return normalise(subtract(unit, scale(first, dot(first, unit))));
}

export function apart(a: Vec3, b: Vec3, path: string, what: string, { refuse }: Resolving): void {
  if (distance(a, b) < SAME_PLACE_MM) {
    throw refuse("zero-length", path, `${what} has no length: both ends are at the same place`, "two different places");
  }
}

/** Distance of `p` from the line through `a` along the unit vector `axis`. */
export function offLine(p: Vec3, a: Vec3, axis: Vec3): number {
  return length(cross(subtract(p, a), axis));
}
