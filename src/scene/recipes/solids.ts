import { cross, scale, type Vec3 } from "../../maths/vec3.ts";
import type { ShapeDocument } from "../document.ts";
import { neat, type PartFrame, sum } from "./frames.ts";
import type { Flat } from "./outlines.ts";
import type { Anchor } from "./recipe.ts";

/** Shape records that recipes are put together from. */

type Simple = Exclude<ShapeDocument, { kind: "group" }>;

export function group(parts: readonly (Simple | null)[]): ShapeDocument {
  const present = parts.filter((part) => part !== null);
  return present.length === 1 ? present[0]! : ({ kind: "group", parts: present } as ShapeDocument);
}

/** A cylinder about `anchor`, `back_mm` behind it to `ahead_mm` before it along the unit vector `axis`. */
export function barrel(anchor: Anchor, axis: Vec3, back_mm: number, ahead_mm: number, diameter_mm: number): Simple {
  return {
    kind: "cylinder",
    from: anchor.near(scale(axis, -back_mm)),
    to: anchor.near(scale(axis, ahead_mm)),
    diameter_mm,
  };
}

/** An eye: its bore counts as full, since its bolt fills it. */
export function eye(anchor: Anchor, axis: Vec3, width_mm: number, diameter_mm: number): Simple {
  return barrel(anchor, axis, width_mm / 2, width_mm / 2, diameter_mm);
}

interface PlateSource {
  readonly outline: readonly Flat[];
  readonly holes?: readonly (readonly Flat[])[];
  readonly thickness_mm: number;
  /** Where the outline's origin lies, from the anchor. */
  readonly offset: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
}

/** A plate that grows along u×v. */
export function plate(anchor: Anchor, { outline, holes = [], thickness_mm, offset, u, v }: PlateSource): Simple {
  return {
    kind: "prism",
    outline: outline.map(([a, b]): [number, number] => [a, b]),
    ...(holes.length > 0 ? { holes: holes.map((hole) => hole.map(([a, b]): [number, number] => [a, b])) } : {}),
    thickness_mm,
    origin: anchor.near(offset),
    u: neat(u),
    v: neat(v),
  };
}

/** Directions u, v of a plate that grows along `normal` and whose u is `u`. */
export function growingAlong(normal: Vec3, u: Vec3): { readonly u: Vec3; readonly v: Vec3 } {
  return { u, v: cross(normal, u) };
}

export interface Loaf {
  /** Centre, from the anchor. */
  readonly offset: Vec3;
  /** Over all, along axis, toward, across. */
  readonly size_mm: readonly [number, number, number];
  readonly corner_mm: number;
}

/** A box with rounded edges in any attitude: the hull of a ball in each corner. */
export function loaf(
  anchor: Anchor,
  { axis, toward, across }: PartFrame,
  { offset, size_mm, corner_mm }: Loaf,
): Simple {
  const reach = size_mm.map((size) => size / 2 - corner_mm) as [number, number, number];
  const corners = EIGHT.map(([i, j, k]) =>
    anchor.near(sum([1, offset], [i * reach[0], axis], [j * reach[1], toward], [k * reach[2], across])),
  );
  return corner_mm > 0
    ? { kind: "hull", spheres: corners.map((at) => ({ at, diameter_mm: 2 * corner_mm })) }
    : { kind: "hull", points: corners };
}

export const EIGHT: readonly Vec3[] = [-1, 1].flatMap((i) =>
  [-1, 1].flatMap((j) => [-1, 1].map((k): Vec3 => [i, j, k])),
);
