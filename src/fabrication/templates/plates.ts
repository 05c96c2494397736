import { turnByPose } from "../../maths/pose.ts";
import { cross, dot, type Vec3 } from "../../maths/vec3.ts";
import type { CutPart } from "./cutParts.ts";
import type { FlatPart, Standing } from "./flatPart.ts";
import { type PlacedPiece, placedPieces } from "./pieces.ts";
import { holeOf, ringOf } from "./roundOff.ts";

/** Common practice, no source: what is thicker, or not three times as wide as thick, is bar or block, not plate. */
const THICKEST_mm = 20;
const WIDE_PER_THICK = 3;

/**
 * The flat pieces of a body: its prisms and boxes that are thin for their width, alike ones once. Outlines stay in the prism's own u, v,
 * seen from the side that it grows to.
 */
export function platesOf(part: CutPart): FlatPart[] {
  const flats = placedPieces(part.shape).flatMap((placed) => flatPiece(placed) ?? []);
  const kinds: { readonly flat: FlatPiece; count: number; isOneWay: boolean }[] = [];
  for (const flat of flats) {
    const same = kinds.find((kind) => isAlike(kind.flat, flat));
    if (!same) kinds.push({ flat, count: 1, isOneWay: true });
    else {
      same.count++;
      same.isOneWay &&= dot(same.flat.stands.face, flat.stands.face) > SAME_WAY;
    }
  }
  return kinds.map(({ flat, count, isOneWay }, i) => ({
    kind: "plate",
    id: kinds.length === 1 ? part.id : `${part.id} ${i + 1}`,
    of: part.id,
    thickness_mm: flat.thickness_mm,
    count,
    sides: part.sides,
    outline: ringOf(flat.outline),
    holes: flat.holes.map(holeOf),
    folds: [],
    kFactor: null,
    stands: isOneWay ? flat.stands : null,
    differs: [],
  }));
}

/** Cosine of what two faces may differ by and still look the same way. */
const SAME_WAY = 0.999;

type Outline = readonly (readonly [number, number])[];

interface FlatPiece {
  readonly outline: Outline;
  readonly holes: readonly Outline[];
  readonly thickness_mm: number;
  readonly stands: Standing;
}

function flatPiece({ piece, pose }: PlacedPiece): FlatPiece | null {
  if (piece.kind === "box") {
    if (piece.edge_mm !== null) return null;
    const axes: Vec3[] = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
    const block = axes.map((axis, i) => ({ length_mm: piece.size_mm[i]!, along: turnByPose(pose, axis) }));
    return slab(block);
  }
  if (piece.kind !== "prism") return null;
  const { outline, holes, thickness_mm } = piece;
  const u = turnByPose(pose, piece.u);
  const v = turnByPose(pose, piece.v);
  const size = sizeOf(outline);
  if (isPlate(thickness_mm, Math.min(...size)))
    return { outline, holes, thickness_mm, stands: { face: cross(u, v), u, v } };
  // a plate drawn on edge: a thin rectangle that grows along the plate
  if (holes.length > 0 || !isSquareTo(outline)) return null;
  return slab([
    { length_mm: size[0], along: u },
    { length_mm: size[1], along: v },
    { length_mm: thickness_mm, along: cross(u, v) },
  ]);
}

function slab(block: readonly { readonly length_mm: number; readonly along: Vec3 }[]): FlatPiece | null {
  const [thin, narrow, long] = [...block].sort((a, b) => a.length_mm - b.length_mm) as [
    (typeof block)[0],
    (typeof block)[0],
    (typeof block)[0],
  ];
  if (!isPlate(thin.length_mm, narrow.length_mm)) return null;
  const face = cross(long.along, narrow.along);
  return {
    outline: [
      [0, 0],
      [long.length_mm, 0],
      [long.length_mm, narrow.length_mm],
      [0, narrow.length_mm],
    ],
    holes: [],
    thickness_mm: thin.length_mm,
    stands: { face, u: long.along, v: narrow.along },
  };
}

function isPlate(thickness_mm: number, width_mm: number): boolean {
  return thickness_mm <= THICKEST_mm && width_mm >= WIDE_PER_THICK * thickness_mm;
}

function sizeOf(outline: Outline): [number, number] {
  const [u, v] = [outline.map((p) => p[0]), outline.map((p) => p[1])];
  return [Math.max(...u) - Math.min(...u), Math.max(...v) - Math.min(...v)];
}

/** Whether it is a rectangle along u and v. */
function isSquareTo(outline: Outline): boolean {
  return (
    outline.length === 4 &&
    outline.every(([u, v], i) => {
      const [nextU, nextV] = outline[(i + 1) % 4]!;
      return Math.abs(u - nextU) < 1e-6 || Math.abs(v - nextV) < 1e-6;
    })
  );
}

const ALIKE_mm = 1e-3;

function isAlike(a: FlatPiece, b: FlatPiece): boolean {
  const same = (one: Outline, other: Outline) =>
    one.length === other.length &&
    one.every(([u, v], i) => Math.abs(u - other[i]![0]) < ALIKE_mm && Math.abs(v - other[i]![1]) < ALIKE_mm);
  return (
    Math.abs(a.thickness_mm - b.thickness_mm) < ALIKE_mm &&
    same(a.outline, b.outline) &&
    a.holes.length === b.holes.length &&
    a.holes.every((hole, i) => same(hole, b.holes[i]!))
  );
}
