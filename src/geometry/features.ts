import { add, cross, distance, dot, length, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Solid } from "./solid.ts";
import { visitNear } from "./triangleRuns.ts";

/** What a builder would put a rule to. */
export interface Feature {
  readonly kind: "corner" | "edge";
  /** Body coordinates, mm. */
  readonly at: Vec3;
}

/** Faces that meet at more than this make an edge for the hand. */
const SHARP = Math.cos((25 * Math.PI) / 180);
/** More triangles than this within reach are a fine scan seen from afar: nothing there is an edge for the hand. */
const MOST = 3000;

interface Edge {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly normals: Vec3[];
}

/**
 * The corner nearest to `p` within `reach_mm`, or where there is none the nearest place on a sharp or open edge. Edges are
 * found among the triangles within reach alone, so that a mesh is asked without being prepared; vertices are the same where
 * they lie in the same place.
 */
export function featureNear(solid: Solid, p: Vec3, reach_mm: number): Feature | null {
  const edges = new Map<string, Edge>();
  let count = 0;
  visitNear(solid, p, reach_mm, (first) => {
    const corners = [0, 1, 2].map((k) => vertexOf(solid, first + k)) as [Vec3, Vec3, Vec3];
    if (!isWithin(corners, p, reach_mm) || count > MOST) return;
    count++;
    const normal = normalise(cross(subtract(corners[1], corners[0]), subtract(corners[2], corners[0])));
    if (length(normal) === 0) return;
    for (let k = 0; k < 3; k++) addEdge(edges, corners[k]!, corners[(k + 1) % 3]!, normal);
  });
  if (count > MOST) return null;
  const sharp = [...edges.values()].filter(isSharp);
  return nearestCorner(sharp, p, reach_mm) ?? nearestOnEdge(sharp, p, reach_mm);
}

function vertexOf({ positions, indices }: Solid, i: number): Vec3 {
  const at = indices[i]! * 3;
  return [positions[at]!, positions[at + 1]!, positions[at + 2]!];
}

/** Whether the triangle's box comes within reach. */
function isWithin(corners: readonly Vec3[], p: Vec3, reach_mm: number): boolean {
  return [0, 1, 2].every((k) => {
    const values = corners.map((corner) => corner[k]!);
    return Math.min(...values) <= p[k]! + reach_mm && Math.max(...values) >= p[k]! - reach_mm;
  });
}

function addEdge(edges: Map<string, Edge>, a: Vec3, b: Vec3, normal: Vec3): void {
  const [one, other] = [nameOf(a), nameOf(b)];
  const key = one < other ? `${one};${other}` : `${other};${one}`;
  const edge = edges.get(key);
  if (edge) edge.normals.push(normal);
  else edges.set(key, { from: a, to: b, normals: [normal] });
}

/** To a thousandth of a millimetre. */
function nameOf(p: Vec3): string {
  return p.map((value) => Math.round(value * 1000)).join();
}

function isSharp({ normals }: Edge): boolean {
  return normals.length === 1 || dot(normals[0]!, normals[1]!) < SHARP;
}

/** A corner is where a sharp edge ends or turns by as much as two faces must to make an edge. */
function nearestCorner(edges: readonly Edge[], p: Vec3, reach_mm: number): Feature | null {
  const ends = new Map<string, { at: Vec3; ways: Vec3[] }>();
  for (const { from, to } of edges) {
    for (const [at, other] of [
      [from, to],
      [to, from],
    ] as const) {
      if (distance(at, p) > reach_mm) continue;
      const end = ends.get(nameOf(at)) ?? { at, ways: [] };
      end.ways.push(normalise(subtract(other, at)));
      ends.set(nameOf(at), end);
    }
  }
  const corners = [...ends.values()].filter(({ ways }) => {
    return ways.length !== 2 || dot(ways[0]!, ways[1]!) > -SHARP;
  });
  corners.sort((a, b) => distance(a.at, p) - distance(b.at, p));
  return corners[0] ? { kind: "corner", at: corners[0].at } : null;
}

function nearestOnEdge(edges: readonly Edge[], p: Vec3, reach_mm: number): Feature | null {
  let best: Vec3 | null = null;
  for (const { from, to } of edges) {
    const along = subtract(to, from);
    const t = Math.min(1, Math.max(0, dot(subtract(p, from), along) / dot(along, along)));
    const at = add(from, scale(along, t));
    if (distance(at, p) <= (best ? distance(best, p) : reach_mm)) best = at;
  }
  return best && { kind: "edge", at: best };
}
