import type { Solid } from "../geometry/solid.ts";
import type { Poll } from "../maths/poll.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { type Ball, cutOut } from "./excuse.ts";
import { isWithin } from "./excuseCut.ts";
import { farthestOfPieces } from "./excusePieces.ts";
import type { CollisionTree } from "./tree.ts";
import { verticesOf } from "./treeRefine.ts";

/** What balls leave of a body's surface, told by what they change of its tree. */
export interface ClippedLeaves {
  /** Leaves of the tree with a triangle that the balls touch. */
  readonly leaves: Uint32Array;
  /** What is left of those leaves' triangles: one open shell; may have none. */
  readonly rest: Solid;
  /** As Clipped has it, of all that is left. */
  readonly farthest: Float64Array;
}

/**
 * The same surface as clipOutside leaves, for a body of so many triangles that a copy of them for every joint would take
 * too much time and memory: only leaves near the balls are cut. Null if the balls touch no triangle.
 */
export function clipLeaves(tree: CollisionTree, balls: readonly Ball[], poll?: Poll): ClippedLeaves | null {
  const leaves = leavesWithin(
    tree,
    balls.filter((ball) => ball.radius_mm > 0),
  );
  if (leaves.length === 0) return null;
  poll?.();
  const { corners, halved, solid } = tree;
  const vertices = verticesOf(solid.positions, halved);
  // a solid of the touched leaves alone, whose vertices are numbered anew
  const numbers: number[] = [];
  const known = new Map<number, number>();
  const indices: number[] = [];
  for (const leaf of leaves) {
    const end = 3 * (tree.first[leaf]! + tree.count[leaf]!);
    for (let k = 3 * tree.first[leaf]!; k < end; k++) {
      const vertex = corners[k]!;
      if (!known.has(vertex)) known.set(vertex, numbers.push(vertex) - 1);
      indices.push(known.get(vertex)!);
    }
  }
  poll?.();
  const positions = Float32Array.from(numbers.flatMap((vertex) => [0, 1, 2].map((k) => vertices[3 * vertex + k]!)));
  const rest = cutOut({ positions, indices: Uint32Array.from(indices) }, balls, poll);
  if (rest === null) throw new Error("a leaf that balls touch has a triangle that they touch");
  return { leaves, rest, farthest: farthestOf(tree, leaves, vertices, numbers, rest, balls, poll) };
}

function leavesWithin(tree: CollisionTree, balls: readonly Ball[]): Uint32Array {
  const { right } = tree;
  const found: number[] = [];
  const stack = tree.nodeCount > 0 ? [0] : [];
  for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
    const near = balls.filter((ball) => distanceToBox(tree, node!, ball.centre) < ball.radius_mm);
    if (near.length === 0) continue;
    if (right[node] !== 0) stack.push(right[node]!, node + 1);
    else if (near.some((ball) => touchesLeaf(tree, node!, ball))) found.push(node);
  }
  return Uint32Array.from(found);
}

function distanceToBox({ boxes }: CollisionTree, node: number, centre: Vec3): number {
  const at = 6 * node;
  return Math.hypot(...centre.map((c, k) => Math.max(0, Math.abs(c - boxes[at + k]!) - boxes[at + 3 + k]!)));
}

function touchesLeaf({ triangles, first, count }: CollisionTree, leaf: number, ball: Ball): boolean {
  for (let i = first[leaf]!; i < first[leaf]! + count[leaf]!; i++) {
    if (isWithin(triangles, 9 * i, ball.centre, ball.radius_mm)) return true;
  }
  return false;
}

/** Over the triangles of all other leaves and of the rest, whose vertices are the tree's as far as they were there before. */
function farthestOf(
  tree: CollisionTree,
  leaves: Uint32Array,
  vertices: Float64Array,
  numbers: readonly number[],
  rest: Solid,
  balls: readonly Ball[],
  poll: Poll | undefined,
): Float64Array {
  const { first, count, corners } = tree;
  const before = vertices.length / 3;
  const all = new Float64Array(vertices.length + rest.positions.length - 3 * numbers.length);
  all.set(vertices);
  all.set(rest.positions.subarray(3 * numbers.length), vertices.length);
  const ofRest = rest.indices.map((vertex) => numbers[vertex] ?? before + vertex - numbers.length);
  const lists: Uint32Array[] = [ofRest];
  let from = 0;
  for (const leaf of [...leaves].sort((p, q) => first[p]! - first[q]!)) {
    lists.push(corners.subarray(3 * from, 3 * first[leaf]!));
    from = first[leaf]! + count[leaf]!;
  }
  lists.push(corners.subarray(3 * from));
  return farthestOfPieces(all, lists, balls, poll);
}
