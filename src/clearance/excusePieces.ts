import { Pacer, type Poll } from "../maths/poll.ts";
import type { Ball } from "./excuse.ts";

/** Triangles to join, or vertices to measure, before polling: some 2 ms. */
const STRETCH = 50_000;

/**
 * 3·k coordinates: of each connected piece of a surface (triangles in one or more lists that share vertices) the corner
 * farthest from the balls, whose radii count.
 */
export function farthestOfPieces(
  positions: ArrayLike<number>,
  lists: readonly Uint32Array[],
  balls: readonly Ball[],
  poll?: Poll,
): Float64Array {
  const pacer = new Pacer(poll, STRETCH);
  const pieces = joinedVertices(positions.length / 3, lists, pacer);
  /** Of the piece with that root its farthest corner; −1 for what is no root of a piece that is used. */
  const best = new Int32Array(positions.length / 3).fill(-1);
  const clear = new Float64Array(positions.length / 3);
  const roots: number[] = [];
  const seen = new Uint8Array(positions.length / 3);
  for (const list of lists) {
    for (let i = 0; i < list.length; i++) {
      const vertex = list[i]!;
      if (seen[vertex] === 1) continue;
      pacer.spend(1);
      seen[vertex] = 1;
      const root = rootOf(pieces, vertex);
      const distance = clearOf(positions, vertex, balls);
      if (best[root] === -1) roots.push(root);
      else if (distance <= clear[root]!) continue;
      best[root] = vertex;
      clear[root] = distance;
    }
  }
  return Float64Array.from(roots.flatMap((root) => [0, 1, 2].map((k) => positions[3 * best[root]! + k]!)));
}

/** Sets of vertices that triangles join, each vertex with its parent in the set. */
function joinedVertices(count: number, lists: readonly Uint32Array[], pacer: Pacer): Uint32Array {
  const parent = new Uint32Array(count);
  for (let i = 0; i < count; i++) parent[i] = i;
  for (const list of lists) {
    for (let i = 0; i < list.length; i += 3) {
      pacer.spend(1);
      const root = rootOf(parent, list[i]!);
      parent[rootOf(parent, list[i + 1]!)] = root;
      parent[rootOf(parent, list[i + 2]!)] = root;
    }
  }
  return parent;
}

function rootOf(parent: Uint32Array, vertex: number): number {
  let root = vertex;
  while (parent[root] !== root) {
    parent[root] = parent[parent[root]!]!;
    root = parent[root]!;
  }
  return root;
}

function clearOf(positions: ArrayLike<number>, vertex: number, balls: readonly Ball[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { centre, radius_mm } of balls) {
    const x = positions[3 * vertex]! - centre[0];
    const y = positions[3 * vertex + 1]! - centre[1];
    const z = positions[3 * vertex + 2]! - centre[2];
    least = Math.min(least, Math.sqrt(x * x + y * y + z * z) - radius_mm);
  }
  return least;
}
