import { planOwnBodies } from "../../check/ownBodies.ts";
import { add, length, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Scene, Shape, Side, TubeShape } from "../../scene/scene.ts";
import { isBentTube, tubeParts } from "./tubeParts.ts";

/**
 * How one piece of a body's shape follows hard points that move, as it is drawn (design position):
 * stay: not at all; shift: all of it by the same way; stretch: a straight round bar whose ends go different ways; redraw: any
 * other change of its shape.
 */
export type Follows = "stay" | "shift" | "stretch" | "redraw";

export interface Leaf extends LeafName {
  readonly shape: Shape;
  readonly follows: Follows;
}

/** Which piece of a shape. */
export interface LeafName {
  /** Its number in piecesOf; −1: the whole shape, whose pieces are not the same everywhere. */
  readonly leaf: number;
  /** Its number among the straights and bends of that piece, a bent tube; null: all of the piece. */
  readonly part: number | null;
}

/** A straight round bar between two points in car coordinates. */
export type Bar = Extract<Shape, { kind: "cylinder" | "capsule" | "tube" }>;

/** The shapes of the bodies that a scene's parts bring along, and of its own bodies, by the body's key less its side. */
export function shapesByName(scene: Scene, side: Side): Map<string, Shape> {
  const shapes = new Map<string, Shape>();
  for (const { id, part, shape } of planOwnBodies(scene, side)) {
    if (shape.kind !== "tyre" && shape.kind !== "rim") shapes.set(`${id}${part && `#${part}`}`, shape);
  }
  for (const { id, shape } of scene.bodies) shapes.set(id, shape);
  return shapes;
}

/** The pieces of a shape, those of groups that stand as they are drawn one by one, in the order of the file. */
export function piecesOf(shape: Shape): readonly Shape[] {
  return shape.kind === "group" && !shape.at && !shape.turn_deg ? shape.parts.flatMap(piecesOf) : [shape];
}

/** A tube is taken apart where every straight of it stays at least so long, mm. */
const LEAST_STRAIGHT_mm = 10;

/**
 * How the pieces follow, told by the same shape drawn for other places of the points. Null if all stay. A bent tube that would
 * have to be drawn anew is taken apart into its straights and bends.
 */
export function leavesOf(base: Shape, probes: readonly Shape[], tessellation_mm: number): readonly Leaf[] | null {
  const pieces = piecesOf(base);
  const probed = probes.map(piecesOf);
  if (probed.some((others) => others.length !== pieces.length)) {
    return [{ shape: base, leaf: -1, part: null, follows: "redraw" }];
  }
  const leaves = pieces.flatMap((shape, leaf): Leaf[] => {
    const others = probed.map((each) => each[leaf]!);
    const follows = followsOf(shape, others);
    const parts = follows === "redraw" ? partsOf(shape, others, tessellation_mm) : null;
    return parts?.map((each, part) => ({ leaf, part, ...each })) ?? [{ shape, leaf, part: null, follows }];
  });
  return leaves.every(({ follows }) => follows === "stay") ? null : leaves;
}

/** One leaf of a shape, as it is drawn; null where its bends leave no straights between them. */
export function leafOf(shape: Shape, { leaf, part }: LeafName, tessellation_mm: number): Shape | null {
  const piece = leaf < 0 ? shape : keptPieces(shape)[leaf]!;
  if (part === null) return piece;
  return (isBentTube(piece) && keptParts(piece, tessellation_mm)?.[part]) || null;
}

const taken = new WeakMap<Shape, readonly Shape[]>();

/** Every leaf of a shape asks for its own. */
function keptPieces(shape: Shape): readonly Shape[] {
  const pieces = taken.get(shape) ?? piecesOf(shape);
  taken.set(shape, pieces);
  return pieces;
}

const parted = new WeakMap<TubeShape, { readonly tessellation_mm: number; readonly parts: TubeShape[] | null }>();

/** Every straight and bend of a tube asks for its own, on both sides. */
function keptParts(tube: TubeShape, tessellation_mm: number): TubeShape[] | null {
  const known = parted.get(tube);
  if (known?.tessellation_mm === tessellation_mm) return known.parts;
  const parts = tubeParts(tube, tessellation_mm);
  parted.set(tube, { tessellation_mm, parts });
  return parts;
}

function partsOf(
  base: Shape,
  probes: readonly Shape[],
  tessellation_mm: number,
): Pick<Leaf, "shape" | "follows">[] | null {
  const all = [base, ...probes].map((shape) =>
    isBentTube(shape) ? tubeParts(shape, tessellation_mm, LEAST_STRAIGHT_mm) : null,
  );
  const [parts, ...probed] = all;
  if (!parts || probed.some((others) => others?.length !== parts.length)) return null;
  return parts.map((shape, part) => ({
    shape,
    follows: followsOf(
      shape,
      probed.map((others) => others![part]!),
    ),
  }));
}

function followsOf(base: Shape, probes: readonly Shape[]): Follows {
  if (probes.every((probe) => isSame(base, probe))) return "stay";
  if (probes.every((probe) => isSame(shiftedShape(base, wayOf(base, probe)), probe))) return "shift";
  const isStretched = (probe: Shape): boolean => {
    if (!isBar(base) || !isBar(probe)) return false;
    return isSame(withEnds(base, ...endsOf(probe)), probe);
  };
  return probes.every(isStretched) ? "stretch" : "redraw";
}

/** How far a piece that shifts has gone. */
export function wayOf(base: Shape, now: Shape): Vec3 {
  const [from] = anchorsOf(base);
  const [to] = anchorsOf(now);
  return from && to ? subtract(to, from) : [0, 0, 0];
}

export function isBar(shape: Shape): shape is Bar {
  if (shape.at || shape.turn_deg) return false;
  return shape.kind === "cylinder" || shape.kind === "capsule" || (shape.kind === "tube" && shape.path.length === 2);
}

export function endsOf(bar: Bar): readonly [Vec3, Vec3] {
  return bar.kind === "tube" ? [bar.path[0]!, bar.path[1]!] : [bar.from, bar.to];
}

export function withEnds(bar: Bar, from: Vec3, to: Vec3): Bar {
  return bar.kind === "tube" ? { ...bar, path: [from, to] } : { ...bar, from, to };
}

/** The points in car coordinates that say where a shape stands. */
function anchorsOf(shape: Shape): readonly Vec3[] {
  if (shape.at) return [shape.at];
  switch (shape.kind) {
    case "cylinder":
    case "capsule":
    case "cone":
      return [shape.from];
    case "tube":
      return shape.path;
    case "prism":
      return [shape.origin];
    case "hull":
      return [...shape.points, ...shape.spheres.map(({ at }) => at)];
    default:
      return [];
  }
}

function shiftedShape(shape: Shape, by: Vec3): Shape {
  if (length(by) === 0 || (shape.turn_deg && !shape.at)) return shape;
  if (shape.at) return { ...shape, at: add(shape.at, by) };
  switch (shape.kind) {
    case "cylinder":
    case "capsule":
    case "cone":
      return { ...shape, from: add(shape.from, by), to: add(shape.to, by) };
    case "tube":
      return { ...shape, path: shape.path.map((point) => add(point, by)) };
    case "prism":
      return { ...shape, origin: add(shape.origin, by) };
    case "hull":
      return {
        ...shape,
        points: shape.points.map((point) => add(point, by)),
        spheres: shape.spheres.map((sphere) => ({ ...sphere, at: add(sphere.at, by) })),
      };
    default:
      return shape;
  }
}

/** Rounding of sums of coordinates, mm. */
const SAME_MM = 1e-9;

function isSame(a: unknown, b: unknown): boolean {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= SAME_MM;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  const entries = Object.entries(a);
  const other = b as Readonly<Record<string, unknown>>;
  return entries.length === Object.keys(b).length && entries.every(([key, value]) => isSame(value, other[key]));
}
