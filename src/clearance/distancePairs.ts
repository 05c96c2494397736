import { Pacer, type Poll } from "../maths/poll.ts";
import type { Pose } from "../maths/pose.ts";
import { boundNodes, createFrame, placeFrame } from "./distanceBound.ts";
import { PLACED_SIZE, placeTriangle } from "./distancePlace.ts";
import type { CollisionTree } from "./tree.ts";
import { TRIANGLE_RESULT_SIZE, triangleDistance } from "./triangleDistance.ts";

/** Gets tree triangles of A and B and their distance (0: they cross or touch); returns true to stop the search. May not throw. */
export type PairVisitor = (triangleA: number, triangleB: number, distance_mm: number) => boolean;

export interface PairQuery {
  /** Visits every pair of triangles at most `limit_mm` apart, each once, in no set order. True if the visitor stopped it. */
  forEachPairWithin(relative: Pose, limit_mm: number, visit: PairVisitor): boolean;
}

export function createPairQuery(a: CollisionTree, b: CollisionTree, poll?: Poll): PairQuery {
  return new TreePairs(a, b, poll);
}

/** Pairs of triangles to compare before polling, and how many a pair of nodes, or an exact distance, counts for. */
const STRETCH = 50_000;
const MEASURED = 10;

class TreePairs implements PairQuery {
  private readonly a: CollisionTree;
  private readonly b: CollisionTree;
  private readonly stackA: Int32Array;
  private readonly stackB: Int32Array;
  private readonly frame = createFrame();
  private readonly limit = new Float64Array(1);
  private readonly bound = new Float64Array(1);
  private readonly spread = new Float64Array(1);
  private readonly placed: Float64Array;
  private readonly result = new Float64Array(TRIANGLE_RESULT_SIZE);
  private readonly pacer: Pacer;

  constructor(a: CollisionTree, b: CollisionTree, poll: Poll | undefined) {
    this.a = a;
    this.b = b;
    this.pacer = new Pacer(poll, STRETCH);
    const size = a.depth + b.depth + 2;
    this.stackA = new Int32Array(size);
    this.stackB = new Int32Array(size);
    this.placed = new Float64Array(PLACED_SIZE * b.largestLeaf);
  }

  forEachPairWithin(relative: Pose, limit_mm: number, visit: PairVisitor): boolean {
    const { a, b, stackA, stackB, frame, limit, bound, spread, pacer } = this;
    if (a.nodeCount === 0 || b.nodeCount === 0) return false;
    placeFrame(frame, relative);
    // boundNodes drops what reaches the limit; here the limit itself still counts
    limit[0] = limit_mm * limit_mm * (1 + 1e-12) + 1e-18;
    let top = 1;
    stackA[0] = 0;
    stackB[0] = 0;
    while (top > 0) {
      top--;
      pacer.spend(MEASURED);
      const nodeA = stackA[top]!;
      const nodeB = stackB[top]!;
      boundNodes(a, nodeA, b, nodeB, frame, limit, bound, spread, 0);
      if (bound[0] === Number.POSITIVE_INFINITY) continue;
      const secondA = a.right[nodeA]!;
      const secondB = b.right[nodeB]!;
      if (secondA === 0 && secondB === 0) {
        if (this.visitLeaves(nodeA, nodeB, limit_mm, visit)) return true;
        continue;
      }
      const splitA = secondB === 0 || (secondA !== 0 && a.radius[nodeA]! >= b.radius[nodeB]!);
      stackA[top] = splitA ? secondA : nodeA;
      stackB[top++] = splitA ? nodeB : secondB;
      stackA[top] = splitA ? nodeA + 1 : nodeA;
      stackB[top++] = splitA ? nodeB : nodeB + 1;
    }
    return false;
  }

  private visitLeaves(nodeA: number, nodeB: number, limit_mm: number, visit: PairVisitor): boolean {
    const { a, b, frame, placed, result, pacer } = this;
    const limit = this.limit[0]!;
    const triangles = a.triangles;
    const firstA = a.first[nodeA]!;
    const endA = firstA + a.count[nodeA]!;
    const firstB = b.first[nodeB]!;
    const endB = firstB + b.count[nodeB]!;
    for (let j = firstB; j < endB; j++) placeTriangle(b, j, frame, placed, PLACED_SIZE * (j - firstB));
    for (let i = firstA; i < endA; i++) {
      pacer.spend(endB - firstB);
      const k = 9 * i;
      const lowX = Math.min(triangles[k]!, triangles[k + 3]!, triangles[k + 6]!);
      const lowY = Math.min(triangles[k + 1]!, triangles[k + 4]!, triangles[k + 7]!);
      const lowZ = Math.min(triangles[k + 2]!, triangles[k + 5]!, triangles[k + 8]!);
      const highX = Math.max(triangles[k]!, triangles[k + 3]!, triangles[k + 6]!);
      const highY = Math.max(triangles[k + 1]!, triangles[k + 4]!, triangles[k + 7]!);
      const highZ = Math.max(triangles[k + 2]!, triangles[k + 5]!, triangles[k + 8]!);
      for (let j = firstB, at = 0; j < endB; j++, at += PLACED_SIZE) {
        const dx = Math.max(placed[at + 9]! - highX, lowX - placed[at + 12]!, 0);
        const dy = Math.max(placed[at + 10]! - highY, lowY - placed[at + 13]!, 0);
        const dz = Math.max(placed[at + 11]! - highZ, lowZ - placed[at + 14]!, 0);
        if (dx * dx + dy * dy + dz * dz > limit) continue;
        pacer.spend(MEASURED);
        triangleDistance(triangles, k, placed, at, result);
        const distance_mm = Math.sqrt(result[0]!);
        if (distance_mm <= limit_mm && visit(i, j, distance_mm)) return true;
      }
    }
    return false;
  }
}
