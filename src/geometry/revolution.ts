import { add, cross, dot, length, normalise, scale, squareTo, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Solid } from "./solid.ts";

/** A body of revolution as drawn: its axis, and the rings that its outline runs through in order. */
export interface Revolution {
  readonly centre: Vec3;
  readonly axis: Vec3;
  /** [along the axis from the centre, radius] of each ring, mm; the outline closes from the last to the first. */
  readonly outline: readonly (readonly [along_mm: number, radius_mm: number])[];
}

/**
 * Reads axis and outline back from a ring-shaped solid of revolution (a tyre) made of rings of vertices; null if it is not
 * one. The axis is the direction in which the vertices vary differently from the two equal ones; the outline follows the
 * triangles from ring to ring.
 */
export function readRevolution(solid: Solid, tolerance_mm = 0.05): Revolution | null {
  const { positions, indices } = solid;
  const count = positions.length / 3;
  if (count < 12) return null;
  const vertex = (i: number): Vec3 => [positions[i * 3]!, positions[i * 3 + 1]!, positions[i * 3 + 2]!];
  let centre: Vec3 = [0, 0, 0];
  for (let i = 0; i < count; i++) centre = add(centre, vertex(i));
  centre = scale(centre, 1 / count);
  const axis = oddAxis(covariance(count, vertex, centre));
  if (axis === null) return null;

  const ringOf = new Int32Array(count);
  const rings: [number, number][] = [];
  const seen = new Map<string, number>();
  for (let i = 0; i < count; i++) {
    const d = subtract(vertex(i), centre);
    const along = dot(d, axis);
    const radius = length(subtract(d, scale(axis, along)));
    ringOf[i] = findRing(rings, seen, along, radius, tolerance_mm);
  }
  if (rings.length < 3 || rings.length > 400 || rings.some(([, radius]) => radius < 1)) return null;
  const outline = walk(ringNeighbours(indices, ringOf, rings.length));
  return outline === null ? null : { centre, axis, outline: outline.map((ring) => rings[ring]!) };
}

function findRing(
  rings: [number, number][],
  seen: Map<string, number>,
  along: number,
  radius: number,
  tolerance: number,
): number {
  const i = Math.round(along / tolerance);
  const j = Math.round(radius / tolerance);
  for (let di = -1; di <= 1; di++) {
    for (let dj = -1; dj <= 1; dj++) {
      const found = seen.get(`${i + di},${j + dj}`);
      if (found !== undefined) return found;
    }
  }
  seen.set(`${i},${j}`, rings.length);
  rings.push([along, radius]);
  return rings.length - 1;
}

function ringNeighbours(indices: Uint32Array, ringOf: Int32Array, ringCount: number): Set<number>[] {
  const neighbours = Array.from({ length: ringCount }, () => new Set<number>());
  for (let t = 0; t < indices.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const a = ringOf[indices[t + k]!]!;
      const b = ringOf[indices[t + ((k + 1) % 3)]!]!;
      if (a === b) continue;
      neighbours[a]!.add(b);
      neighbours[b]!.add(a);
    }
  }
  return neighbours;
}

/** The rings in order round a closed outline, or null if they do not form a single one. */
function walk(neighbours: readonly Set<number>[]): number[] | null {
  if (neighbours.some((near) => near.size !== 2)) return null;
  const order = [0];
  let before = 0;
  let at = [...neighbours[0]!][0]!;
  while (at !== 0) {
    order.push(at);
    const next = [...neighbours[at]!].find((ring) => ring !== before)!;
    before = at;
    at = next;
  }
  return order.length === neighbours.length ? order : null;
}

function covariance(count: number, vertex: (i: number) => Vec3, centre: Vec3): readonly [Vec3, Vec3, Vec3] {
  const m = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  for (let i = 0; i < count; i++) {
    const d = subtract(vertex(i), centre);
    for (let r = 0; r < 3; r++) for (let c = 0; c < 3; c++) m[r]![c]! += (d[r]! * d[c]!) / count;
  }
  return m as unknown as readonly [Vec3, Vec3, Vec3];
}

/**
 * The eigenvector of a symmetric matrix whose two other eigenvalues are equal: M = p·I + (q − p)·a·aᵀ, so that any column
 * of M − p·I is along a. p follows from trace and the sum of principal minors (a quadratic). Null where all three are equal.
 */
function oddAxis(m: readonly [Vec3, Vec3, Vec3]): Vec3 | null {
  const trace = m[0][0] + m[1][1] + m[2][2];
  const minors =
    m[0][0] * m[1][1] - m[0][1] ** 2 + (m[0][0] * m[2][2] - m[0][2] ** 2) + (m[1][1] * m[2][2] - m[1][2] ** 2);
  // 2p + q = trace, p² + 2pq = minors
  const root = Math.sqrt(Math.max(trace * trace - 3 * minors, 0));
  if (root < 1e-6 * trace) return null;
  for (const p of [(trace + root) / 3, (trace - root) / 3]) {
    const columns = m.map((row, r) => row.map((value, c) => (r === c ? value - p : value)) as unknown as Vec3);
    const longest = columns.reduce((a, b) => (length(b) > length(a) ? b : a));
    const axis = normalise(longest);
    const across = columns.every((column) => length(cross(column, axis)) < 2e-3 * root);
    if (across) return axis;
  }
  return null;
}

/** Closed mesh of a revolution with `segments` round, facing outwards whichever way the outline runs. */
export function revolve(
  { centre, axis }: Pick<Revolution, "centre" | "axis">,
  outline: readonly (readonly [number, number])[],
  segments: number,
): { positions: Float32Array; indices: Uint32Array } {
  const u = squareTo(axis);
  const v = cross(axis, u);
  const n = outline.length;
  const positions = new Float32Array(n * segments * 3);
  const indices = new Uint32Array(n * segments * 6);
  const area = outline.reduce((sum, [x, y], i) => {
    const [x2, y2] = outline[(i + 1) % n]!;
    return sum + x * y2 - x2 * y;
  }, 0);
  let at = 0;
  for (let s = 0; s < segments; s++) {
    const angle = (2 * Math.PI * s) / segments;
    const radial = add(scale(u, Math.cos(angle)), scale(v, Math.sin(angle)));
    for (let i = 0; i < n; i++) {
      const [along, radius] = outline[i]!;
      positions.set(add(centre, add(scale(axis, along), scale(radial, radius))), (s * n + i) * 3);
      const a = s * n + i;
      const b = s * n + ((i + 1) % n);
      const c = ((s + 1) % segments) * n + i;
      const d = ((s + 1) % segments) * n + ((i + 1) % n);
      indices.set(area > 0 ? [a, b, c, b, d, c] : [a, c, b, b, c, d], at);
      at += 6;
    }
  }
  return { positions, indices };
}
