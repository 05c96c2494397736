import { cross, dot, normalise, subtract, type Vec3 } from "../../maths/vec3.ts";

/** From where the car is looked at, without perspective. "corner": from behind, outside and above, where no length shows true. */
export const VIEW_NAMES = ["rear", "front", "left", "right", "plan", "below", "corner"] as const;
export type ViewName = (typeof VIEW_NAMES)[number];

/** Unit vectors in car coordinates: to the right of the picture, up it, and out of it to the eye. */
export interface ViewAxes {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly towards: Vec3;
}

const X: Vec3 = [1, 0, 0];
const Y: Vec3 = [0, 1, 0];
const Z: Vec3 = [0, 0, 1];
const back = ([x, y, z]: Vec3): Vec3 => [0 - x, 0 - y, 0 - z];

function cornerAxes(): ViewAxes {
  const towards = normalise([-1, 0.8, 0.55]);
  const right = normalise(cross(Z, towards));
  return { right, up: cross(towards, right), towards };
}

const AXES: Readonly<Record<ViewName, ViewAxes>> = {
  rear: { right: back(Y), up: Z, towards: back(X) },
  front: { right: Y, up: Z, towards: X },
  left: { right: back(X), up: Z, towards: Y },
  right: { right: X, up: Z, towards: back(Y) },
  plan: { right: back(Y), up: X, towards: Z },
  below: { right: Y, up: X, towards: back(Z) },
  corner: cornerAxes(),
};

export function axesOf(view: ViewName): ViewAxes {
  return AXES[view];
}

/** Whether lengths across the picture and up it are those of the car, by one scale. */
export function isToScale(view: ViewName): boolean {
  return view !== "corner";
}

export type Way = "forward" | "out" | "up";

const WAYS: Readonly<Record<Way, Vec3>> = { forward: X, out: Y, up: Z };

/** Where lengths along a way of the car lie in the view; null: along the line of sight. */
export function wayIn(view: ViewName, way: Way): "across" | "upright" | null {
  const { right, up } = AXES[view];
  if (Math.abs(dot(WAYS[way], right)) === 1) return "across";
  return Math.abs(dot(WAYS[way], up)) === 1 ? "upright" : null;
}

/** A flat drawing of the car: where its places lie in the picture. */
export interface Projection {
  readonly axes: ViewAxes;
  /** The place in the car that lies at `origin` of the picture. */
  readonly about: Vec3;
  readonly originX: number;
  readonly originY: number;
  /** Units of the picture for one millimetre of the car. */
  readonly perMm: number;
}

export interface Flat {
  readonly x: number;
  readonly y: number;
}

/** Where a place of the car lies in the picture, y downwards. */
export function flatOf({ axes, about, originX, originY, perMm }: Projection, p: Vec3): Flat {
  const from = subtract(p, about);
  return { x: originX + perMm * dot(axes.right, from), y: originY - perMm * dot(axes.up, from) };
}
