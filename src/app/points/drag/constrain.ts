import { add, cross, dot, length, normalise, scale, subtract, type Vec3 } from "../../../maths/vec3.ts";
import type { Datum } from "../../../scene/scene.ts";
import type { Ray } from "../../viewport/sight.ts";
import { DIRECTIONS, type Direction } from "../usePointMove.ts";

/** The directions in which a drag may move the point: one is along an axis, two are in a plane, three are freely. */
export type Free = ReadonlySet<Direction>;

export const ALL_FREE: Free = new Set(DIRECTIONS);

/** Unit vectors, car coordinates. */
export type Axes = Readonly<Record<Direction, Vec3>>;

/** A ray that runs along an axis, or along a plane, by less than this sine says nothing of where on it one points. */
const LEAST_SINE = 0.08;

export function axesOf(datum: Datum | null): Axes {
  const { forward, up }: Pick<Datum, "forward" | "up"> = datum ?? { forward: [1, 0, 0], up: [0, 0, 1] };
  return { forward, out: cross(up, forward), up };
}

/** Where the ray points when the point may leave `start` only in the free directions; null where it is seen end on. */
export function pointedAt(ray: Ray, start: Vec3, free: Free, axes: Axes, back: Vec3): Vec3 | null {
  const open = DIRECTIONS.filter((direction) => free.has(direction));
  const [first, second] = open;
  if (first === undefined) return null;
  if (second === undefined) return onLine(ray, start, axes[first]);
  if (open.length === DIRECTIONS.length) return onPlane(ray, start, back);
  return onPlane(ray, start, normalise(cross(axes[first], axes[second])));
}

/** The place of `target` in the free directions, of `start` in the others. */
export function inFree(target: Vec3, start: Vec3, free: Free, axes: Axes): Vec3 {
  const away = subtract(target, start);
  return DIRECTIONS.reduce<Vec3>((place, direction) => {
    return free.has(direction) ? add(place, scale(axes[direction], dot(away, axes[direction]))) : place;
  }, start);
}

/** The point of the line nearest to the ray. */
function onLine({ from, way }: Ray, start: Vec3, axis: Vec3): Vec3 | null {
  const square = cross(axis, way);
  const sine = length(square);
  if (sine < LEAST_SINE) return null;
  const t = dot(cross(subtract(from, start), way), square) / (sine * sine);
  return add(start, scale(axis, t));
}

function onPlane({ from, way }: Ray, start: Vec3, normal: Vec3): Vec3 | null {
  const sine = dot(way, normal);
  if (Math.abs(sine) < LEAST_SINE) return null;
  return add(from, scale(way, dot(subtract(start, from), normal) / sine));
}
