import {
  add,
  cross,
  distance,
  dot,
  length,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from "../../maths/vec3.ts";
import type { Anchor, Refuse } from "./recipe.ts";

/** Below this two directions count as one; see resolving.ts. */
const PARALLEL = 1e-3;

/** Unit vectors square to each other; `across` = `axis` × `toward`. */
export interface PartFrame {
  readonly axis: Vec3;
  readonly toward: Vec3;
  readonly across: Vec3;
}

/** `axis` is kept, `toward` gives way. */
export function partFrame(axis: Vec3, toward: Vec3, towardKey: string, refuse: Refuse): PartFrame {
  const unit = normalise(axis);
  if (length(unit) === 0) return refuse("axis", "the direction has no length", "a direction such as [0, 1, 0]");
  const wanted = normalise(toward);
  const flat = subtract(wanted, scale(unit, dot(unit, wanted)));
  if (length(flat) < PARALLEL) {
    return refuse(towardKey, "it runs along the other direction", "directions that span a plane");
  }
  const square = normalise(flat);
  return { axis: unit, toward: square, across: cross(unit, square) };
}

/** The same frame for handles, which draw nothing and therefore never refuse. */
export function looseFrame(axis: Vec3, toward: Vec3): PartFrame {
  const unit = normalise(axis);
  const flat = subtract(toward, scale(unit, dot(unit, toward)));
  const square = length(flat) < PARALLEL ? squareTo(unit) : normalise(flat);
  return { axis: unit, toward: square, across: cross(unit, square) };
}

/** From one end to the other. */
export interface Run {
  readonly along: Vec3;
  readonly length_mm: number;
}

export function runBetween(a: Anchor, b: Anchor, refuse: Refuse): Run {
  const length_mm = distance(a.at, b.at);
  if (length_mm < 0.01) return refuse("b", "both ends are at the same place", "two different places");
  return { along: looseRun(a, b), length_mm };
}

export function looseRun(a: Anchor, b: Anchor): Vec3 {
  return normalise(subtract(b.at, a.at));
}

/** x·i + y·j + z·k */
export function sum(...terms: readonly (readonly [number, Vec3])[]): Vec3 {
  return terms.reduce<Vec3>((total, [factor, direction]) => add(total, scale(direction, factor)), [0, 0, 0]);
}

/** A direction as files keep it: a millionth of a degree is far below what can be built. */
export function neat(direction: Vec3): Vec3 {
  return direction.map((value) => Math.round(value * 1e9) / 1e9 + 0) as unknown as Vec3;
}
