import { edgeTable, nextHalfEdge } from "../geometry/edgeTable.ts";
import type { Solid } from "../geometry/solid.ts";
import { cross, distance, dot, length, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { type FittedCylinder, fitCylinder } from "./fitCylinder.ts";
import { type FittedPlane, fitPlane } from "./fitPlane.ts";

export type Mesh = Pick<Solid, "positions" | "indices">;

export interface PickedPatch {
  readonly fitted: FittedPlane | FittedCylinder;
  /** Points of it on the mesh, evenly taken, at most MOST_POINTS. */
  readonly points: readonly Vec3[];
  /** Triangles of the mesh that belong to it. */
  readonly triangles: Uint32Array;
}

/** More points than this make no fit better. */
const MOST_POINTS = 3000;
/** A patch grows over what is this many times as far off as its own points are, */
const GROW = 3;
/** but never over what is less off than a hand scanner is rough: common practice, no source. */
const ROUGH_mm = 0.3;
/** A face turned farther than this from the surface is another one. */
const TURNED = Math.cos((35 * Math.PI) / 180);
/** It begins with faces that are turned less than this against the picked one. */
const START = Math.cos((12 * Math.PI) / 180);
/** A round begins with faces that are turned less than this against their neighbours. */
const SMOOTH = Math.cos((25 * Math.PI) / 180);
const LEAST_TRIANGLES = 6;
const ROUNDS = 6;

/** Which triangles of a mesh meet at edges; made once for any number of picks. */
export interface Neighbours {
  readonly mesh: Mesh;
  /** By half-edge: the triangle across, −1 at an open edge or one of many triangles. */
  readonly across: Int32Array;
}

export function neighboursOf(mesh: Mesh): Neighbours {
  const { edgeOf, uses, first, second } = edgeTable(mesh.indices);
  const across = new Int32Array(mesh.indices.length).fill(-1);
  for (let h = 0; h < across.length; h++) {
    const edge = edgeOf[h]!;
    if (uses[edge] === 2) across[h] = Math.floor((first[edge] === h ? second[edge]! : first[edge]!) / 3);
  }
  return { mesh, across };
}

/**
 * The flat or the round round a picked triangle. It begins with what hangs together within `reach_mm` of the pick, is fitted, and
 * grows over joined triangles that lie in the fitted surface, until it stays the same. Null where there is no such surface.
 */
export function pickPatch(
  { mesh, across }: Neighbours,
  triangle: number,
  at: Vec3,
  kind: "plane" | "cylinder",
  reach_mm: number,
): PickedPatch | null {
  const start = normalOf(mesh, triangle);
  let found = grow(across, triangle, (t, from) => {
    const [normal, before] = [normalOf(mesh, t), normalOf(mesh, from)];
    const isAlike = kind === "plane" ? dot(normal, start) > START : dot(normal, before) > SMOOTH;
    return isAlike && cornersOf(mesh, t).every((p) => distance(p, at) <= reach_mm);
  });
  for (let round = 0; round < ROUNDS; round++) {
    const fitted = fitTo(mesh, found, kind);
    if (fitted === null) return null;
    const within = Math.max(ROUGH_mm, GROW * fitted.rms_mm);
    const grown = grow(across, triangle, (t) => isIn(mesh, t, fitted, within));
    if (grown.length === found.length) break;
    found = grown;
  }
  const fitted = fitTo(mesh, found, kind);
  return fitted && { fitted, points: verticesOf(mesh, found).points, triangles: Uint32Array.from(found) };
}

function fitTo(mesh: Mesh, triangles: readonly number[], kind: "plane" | "cylinder"): PickedPatch["fitted"] | null {
  if (kind === "cylinder" && triangles.length < LEAST_TRIANGLES) return null;
  const { points, normals } = verticesOf(mesh, triangles);
  return kind === "plane" ? fitPlane(points) : fitCylinder(points, normals);
}

function isIn(mesh: Mesh, triangle: number, fitted: PickedPatch["fitted"], within_mm: number): boolean {
  const normal = normalOf(mesh, triangle);
  return cornersOf(mesh, triangle).every((p) => {
    const from = subtract(p, fitted.at);
    if (fitted.kind === "plane") {
      return Math.abs(dot(from, fitted.normal)) <= within_mm && Math.abs(dot(normal, fitted.normal)) > TURNED;
    }
    const across = subtract(from, scale(fitted.axis, dot(from, fitted.axis)));
    return (
      Math.abs(length(across) - fitted.radius_mm) <= within_mm && Math.abs(dot(normal, normalise(across))) > TURNED
    );
  });
}

/** Triangles that hang together with the first by edges, each taken if `belongs` says so. */
function grow(across: Int32Array, first: number, belongs: (triangle: number, from: number) => boolean): number[] {
  const met = new Set([first]);
  const found = [first];
  for (let i = 0; i < found.length; i++) {
    const from = found[i]!;
    for (let h = 3 * from; h < 3 * from + 3; h++) {
      const next = across[h]!;
      if (next < 0 || met.has(next)) continue;
      met.add(next);
      if (belongs(next, from)) found.push(next);
    }
  }
  return found;
}

/** Each vertex once, with the mean normal of the patch there; every so many-th where there are very many. */
function verticesOf(mesh: Mesh, triangles: readonly number[]): { points: Vec3[]; normals: Vec3[] } {
  const sums = new Map<number, [number, number, number]>();
  for (const t of triangles) {
    const normal = normalOf(mesh, t);
    for (let k = 0; k < 3; k++) {
      const vertex = mesh.indices[3 * t + k]!;
      const sum = sums.get(vertex) ?? [0, 0, 0];
      for (const axis of [0, 1, 2] as const) sum[axis] += normal[axis];
      sums.set(vertex, sum);
    }
  }
  const every = Math.ceil(sums.size / MOST_POINTS);
  const taken = [...sums].filter((_, i) => i % every === 0);
  return { points: taken.map(([vertex]) => pointOf(mesh, vertex)), normals: taken.map(([, sum]) => normalise(sum)) };
}

function pointOf({ positions: p }: Mesh, vertex: number): Vec3 {
  return [p[3 * vertex]!, p[3 * vertex + 1]!, p[3 * vertex + 2]!];
}

function cornersOf(mesh: Mesh, triangle: number): [Vec3, Vec3, Vec3] {
  const h = 3 * triangle;
  return [h, nextHalfEdge(h), nextHalfEdge(nextHalfEdge(h))].map((i) => pointOf(mesh, mesh.indices[i]!)) as [
    Vec3,
    Vec3,
    Vec3,
  ];
}

function normalOf(mesh: Mesh, triangle: number): Vec3 {
  const [a, b, c] = cornersOf(mesh, triangle);
  return normalise(cross(subtract(b, a), subtract(c, a)));
}
