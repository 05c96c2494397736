import type { Solid } from "../geometry/solid.ts";

/** Longer edges are halved: halves the triangle tests of distance queries; finer cuts cost more than they save. */
const LONGEST_EDGE_mm = 150;

/** Loose triangles: 9 coordinates each, and the solid's triangle each comes from. */
export interface TriangleSoup {
  readonly corners: Float64Array;
  readonly original: Uint32Array;
}

/**
 * The solid's triangles with every edge over 150 mm halved (longest first) until none is left. Whether and where an edge
 * is halved depends on that edge alone, so neighbours still share whole edges.
 */
export function refineLongEdges(solid: Solid): TriangleSoup {
  const { positions, indices } = solid;
  const source = indices.length / 3;
  let corners = new Float64Array(9 * source);
  let original = new Uint32Array(source);
  let size = 0;
  const pending: number[] = [];
  for (let triangle = 0; triangle < source; triangle++) {
    for (let corner = 0; corner < 3; corner++) {
      const vertex = 3 * indices[3 * triangle + corner]!;
      pending.push(positions[vertex]!, positions[vertex + 1]!, positions[vertex + 2]!);
    }
    while (pending.length > 0) {
      if (halveLongest(pending)) continue;
      if (size === original.length) {
        corners = grown(corners, new Float64Array(2 * corners.length));
        original = grown(original, new Uint32Array(2 * original.length));
      }
      const top = pending.length - 9;
      for (let k = 0; k < 9; k++) corners[9 * size + k] = pending[top + k]!;
      pending.length = top;
      original[size++] = triangle;
    }
  }
  return { corners: corners.slice(0, 9 * size), original: original.slice(0, size) };
}

/** Replaces the last triangle of the list by its two halves if its longest edge is too long; false if it is not. */
function halveLongest(list: number[]): boolean {
  const top = list.length - 9;
  let longest = LONGEST_EDGE_mm;
  let from = -1;
  for (let corner = 0; corner < 3; corner++) {
    const p = top + 3 * corner;
    const q = top + 3 * ((corner + 1) % 3);
    const edge = Math.hypot(list[p]! - list[q]!, list[p + 1]! - list[q + 1]!, list[p + 2]! - list[q + 2]!);
    if (edge > longest) {
      longest = edge;
      from = corner;
    }
  }
  if (from < 0) return false;
  const p = top + 3 * from;
  const q = top + 3 * ((from + 1) % 3);
  const r = top + 3 * ((from + 2) % 3);
  const middle = [(list[p]! + list[q]!) / 2, (list[p + 1]! + list[q + 1]!) / 2, (list[p + 2]! + list[q + 2]!) / 2];
  const second = [...middle, ...list.slice(q, q + 3), ...list.slice(r, r + 3)];
  for (let k = 0; k < 3; k++) list[q + k] = middle[k]!;
  list.push(...second);
  return true;
}

function grown<T extends Float64Array | Uint32Array>(from: T, into: T): T {
  into.set(from);
  return into;
}
