import { turnPose } from "../maths/pose.ts";
import { add, cross, distance, dot, length, scale, subtract, type Vec3, ZERO } from "../maths/vec3.ts";
import type { Shape, Wheel } from "../scene/scene.ts";
import { type Frame, frameBetween } from "./frame.ts";
import { tyreSize } from "./tyreSize.ts";
import { wheelFrame } from "./wheelFrame.ts";

/**
 * The axes and sizes of one piece of a shape. A place is told by its shares of the sizes: it then stays where it is on the
 * part when that is moved, turned or made to another size.
 */
export interface Grip {
  /** Design position, car coordinates, mm. */
  readonly origin: Vec3;
  /** Unit vectors, square to each other, right-handed. */
  readonly axes: readonly [Vec3, Vec3, Vec3];
  /** What a share of 1 is along each axis, mm. */
  readonly size_mm: Vec3;
  /** Least and greatest share that the piece fills; for round ones the box about it. */
  readonly low: Vec3;
  readonly high: Vec3;
  /** ball: round about its origin; rod: round about its third axis; block: neither. */
  readonly form: "ball" | "rod" | "block";
  /** Shares of the centres of its circles or of its ball. */
  readonly centres: readonly Vec3[];
}

type DrawnShape = Shape | { readonly kind: "tyre" } | { readonly kind: "rim" };

/** Grips of every piece of a shape in design position, always in the same order for shapes of the same make-up. */
export function gripsOf(shape: DrawnShape, wheel: Wheel): Grip[] {
  const drawn = drawnGrips(shape, wheel);
  if (!("at" in shape) || (!shape.at && !shape.turn_deg)) return drawn;
  const pose = turnPose(shape.turn_deg ?? ZERO);
  const turned = ([x, y, z]: Vec3): Vec3 => [
    pose[0]! * x + pose[1]! * y + pose[2]! * z,
    pose[4]! * x + pose[5]! * y + pose[6]! * z,
    pose[8]! * x + pose[9]! * y + pose[10]! * z,
  ];
  return drawn.map((grip) => ({
    ...grip,
    origin: add(shape.at ?? ZERO, turned(grip.origin)),
    axes: [turned(grip.axes[0]), turned(grip.axes[1]), turned(grip.axes[2])],
  }));
}

const CAR: Grip["axes"] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const ABOUT_Y: Grip["axes"] = [
  [0, 0, 1],
  [1, 0, 0],
  [0, 1, 0],
];

function drawnGrips(shape: DrawnShape, wheel: Wheel): Grip[] {
  switch (shape.kind) {
    case "sphere":
      return [ball(ZERO, shape.diameter_mm / 2)];
    case "cylinder":
    case "capsule":
      return [rod(shape.from, shape.to, shape.diameter_mm / 2)];
    case "cone":
      return [rod(shape.from, shape.to, Math.max(shape.fromDiameter_mm, shape.toDiameter_mm) / 2)];
    case "box":
      return [block(ZERO, CAR, scale(shape.size_mm, 0.5), [-1, -1, -1], [1, 1, 1])];
    case "torus": {
      const [outer_mm, half_mm] = [(shape.diameter_mm + shape.section_mm) / 2, shape.section_mm / 2];
      return [{ ...block(ZERO, ABOUT_Y, [outer_mm, outer_mm, half_mm], [-1, -1, -1], [1, 1, 1]), ...ROUND }];
    }
    case "tube":
      return shape.path.slice(1).map((to, i) => rod(shape.path[i]!, to, shape.diameter_mm / 2));
    case "prism":
      return [plate(shape)];
    case "hull":
      return [
        ...shape.points.map((at) => block(at, CAR, [1, 1, 1], ZERO, ZERO)),
        ...shape.spheres.map(({ at, diameter_mm }) => ball(at, diameter_mm / 2)),
      ];
    case "wheel":
    case "tyre": {
      const { overallDiameter_mm, sectionWidth_mm } = tyreSize(wheel.tyre, wheel.rimWidth_in);
      return [round(wheelFrame(wheel), overallDiameter_mm / 2, sectionWidth_mm / 2)];
    }
    case "rim": {
      const { rimDiameter_mm, rimWidth_mm } = tyreSize(wheel.tyre, wheel.rimWidth_in);
      return [round(wheelFrame(wheel), rimDiameter_mm / 2, rimWidth_mm / 2)];
    }
    case "mesh":
      return [block(ZERO, CAR, [1, 1, 1], [-Infinity, -Infinity, -Infinity], [Infinity, Infinity, Infinity])];
    case "group":
      return shape.parts.flatMap((part) => gripsOf(part, wheel));
  }
}

const ROUND = { form: "rod", centres: [ZERO] } as const;

function block(origin: Vec3, axes: Grip["axes"], size_mm: Vec3, low: Vec3, high: Vec3): Grip {
  return { origin, axes, size_mm, low, high, form: "block", centres: [] };
}

function ball(origin: Vec3, radius_mm: number): Grip {
  return {
    ...block(origin, CAR, [radius_mm, radius_mm, radius_mm], [-1, -1, -1], [1, 1, 1]),
    form: "ball",
    centres: [ZERO],
  };
}

function rod(from: Vec3, to: Vec3, radius_mm: number): Grip {
  const { x, y, z } = frameBetween(from, to);
  const size_mm: Vec3 = [radius_mm, radius_mm, distance(from, to)];
  return { ...block(from, [x, y, z], size_mm, [-1, -1, 0], [1, 1, 1]), form: "rod", centres: [ZERO, [0, 0, 1]] };
}

function round({ origin, x, y, z }: Frame, radius_mm: number, half_mm: number): Grip {
  return { ...block(origin, [x, y, z], [radius_mm, radius_mm, half_mm], [-1, -1, -1], [1, 1, 1]), ...ROUND };
}

/** Of a hole's outline this share of its radius at the most may stray from a circle's. */
const ROUND_SHARE = 0.02;
const FEWEST_CORNERS = 8;

function plate(shape: Extract<Shape, { kind: "prism" }>): Grip {
  const { outline, holes, thickness_mm, origin, u, v } = shape;
  const [us, vs] = [outline.map(([at]) => at), outline.map(([, at]) => at)];
  const axes: Grip["axes"] = [u, v, cross(u, v)];
  const low: Vec3 = [Math.min(...us), Math.min(...vs), 0];
  const high: Vec3 = [Math.max(...us), Math.max(...vs), 1];
  const centres = holes.flatMap((hole): Vec3[] => {
    const [cu, cv] = [0, 1].map((k) => hole.reduce((sum, at) => sum + at[k]!, 0) / hole.length) as [number, number];
    const radii = hole.map(([at, to]) => Math.hypot(at - cu, to - cv));
    const [least, most] = [Math.min(...radii), Math.max(...radii)];
    const isRound = hole.length >= FEWEST_CORNERS && most - least <= ROUND_SHARE * most;
    return isRound
      ? [
          [cu, cv, 0],
          [cu, cv, 1],
        ]
      : [];
  });
  return { ...block(origin, axes, [1, 1, thickness_mm], low, high), centres };
}

/** Design position of a place told in shares. */
export function placeOfShare({ origin, axes, size_mm }: Grip, share: Vec3): Vec3 {
  return [0, 1, 2].reduce<Vec3>((at, k) => add(at, scale(axes[k]!, share[k]! * size_mm[k]!)), origin);
}

export function shareOfPlace({ origin, axes, size_mm }: Grip, place: Vec3): Vec3 {
  const from = subtract(place, origin);
  return [dot(from, axes[0]) / size_mm[0], dot(from, axes[1]) / size_mm[1], dot(from, axes[2]) / size_mm[2]];
}

/** A direction of the piece's own axes, which a change of size does not turn, in car axes. */
export function wayOfShare({ axes }: Grip, way: Vec3): Vec3 {
  return [0, 1, 2].reduce<Vec3>((sum, k) => add(sum, scale(axes[k]!, way[k]!)), ZERO);
}

export function shareOfWay({ axes }: Grip, way: Vec3): Vec3 {
  return [dot(way, axes[0]), dot(way, axes[1]), dot(way, axes[2])];
}

/** The piece on whose surface the place lies, or comes nearest to lying; −1 without any. */
export function gripAt(grips: readonly Grip[], place: Vec3): number {
  let best = -1;
  let least = Infinity;
  for (const [i, grip] of grips.entries()) {
    const off = offSurface(grip, shareOfPlace(grip, place));
    if (off < least) [best, least] = [i, off];
  }
  return best;
}

/** About how far a place is from the piece's surface, mm. */
function offSurface({ form, size_mm, low, high }: Grip, share: Vec3): number {
  if (form === "ball") return Math.abs(length(share) - 1) * size_mm[0];
  const beyond = [0, 1, 2].map((k) => Math.max(low[k]! - share[k]!, share[k]! - high[k]!) * size_mm[k]!);
  const sides = form === "rod" ? [(Math.hypot(share[0], share[1]) - 1) * size_mm[0], beyond[2]!] : beyond;
  const out = Math.hypot(...sides.map((side) => Math.max(side, 0)));
  if (out > 0) return out;
  const inside = Math.max(...sides);
  // a scan has no sizes: it takes what no other piece of its group has on its surface
  return Number.isFinite(inside) ? -inside : 1;
}
