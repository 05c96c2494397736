import { Pacer, type Poll } from "../maths/poll.ts";
import type { Pose } from "../maths/pose.ts";
import { boundNodes } from "./distanceBound.ts";
import { createLeafTest, type LeafTest } from "./distanceLeaf.ts";
import { countQuery } from "./queryCounts.ts";
import type { CollisionTree } from "./tree.ts";

/** Where two surfaces are nearest. Belongs to the caller, who hands it back as the hint of the next, similar query. */
export interface Witness {
  distance_mm: number;
  /** No two points are nearer: the same, unless the query had leeway. */
  least_mm: number;
  /** Tree triangles (see tree.ts), −1 where none is known yet. */
  triangleA: number;
  triangleB: number;
  /** On A's and on B's surface, both in A's design axes. */
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
  /** Unit vector from A's point to B's, A's design axes; kept while the surfaces cross or are farther than asked. */
  readonly direction: Float64Array;
}

/**
 * How far a distance may be from the smallest: where `distance_mm` comes out above `floor_mm`, no two points are nearer than
 * that less `share` (0 to 1) of what is above. It saves most of the work of telling apart what is almost equally far.
 */
export interface Leeway {
  floor_mm: number;
  share: number;
}

export interface DistanceQuery {
  /**
   * Smallest distance between the two surfaces, mm; 0 where they cross or touch. Relative error below 1e-12 of the
   * coordinates' size (plus what float32 positions cost).
   *
   * True: `witness` holds the exact distance, which is below `below_mm`. False: the distance is `below_mm` or more (or a
   * solid has no triangles), and `witness` keeps its triangles and direction, which still speed up the next query; its
   * distance is then `below_mm`. The witness is also the hint: its triangles and direction, if any, are tried first.
   */
  distance(relative: Pose, witness: Witness, below_mm?: number, leeway?: Leeway): boolean;
  /** Whether the surfaces cross or touch (to 1e-9 mm). A body inside another does not: see inside.ts. */
  intersects(relative: Pose, witness: Witness): boolean;
}

export const TOUCHING_mm = 1e-9;

export function createWitness(): Witness {
  return {
    distance_mm: Number.POSITIVE_INFINITY,
    least_mm: Number.POSITIVE_INFINITY,
    triangleA: -1,
    triangleB: -1,
    pointA: new Float64Array(3),
    pointB: new Float64Array(3),
    direction: new Float64Array(3),
  };
}

export const NO_LEEWAY: Leeway = { floor_mm: 0, share: 0 };

/** What a distance that was measured with leeway proves. */
export function leastWithin(distance_mm: number, { floor_mm, share }: Leeway): number {
  return distance_mm > floor_mm ? distance_mm - (distance_mm - floor_mm) * share : distance_mm;
}

export function createDistanceQuery(a: CollisionTree, b: CollisionTree, poll?: Poll): DistanceQuery {
  return new TreeDistance(a, b, new Pacer(poll, STRETCH));
}

/** Pairs of nodes and triangles between two polls: some 2 ms. */
const STRETCH = 8000;
/** So many are told to the pacer at a time. */
const BATCH = 500;

/** Branch and bound over pairs of nodes, nearest pair first; distanceBound.ts says when a pair is dropped. */
class TreeDistance implements DistanceQuery {
  private readonly a: CollisionTree;
  private readonly b: CollisionTree;
  private readonly leaf: LeafTest;
  private readonly stackA: Int32Array;
  private readonly stackB: Int32Array;
  private readonly stackBound: Float64Array;
  /** Squared bounds of the two pairs into which a pair was split; Infinity: dropped. */
  private readonly bound = new Float64Array(2);
  /** Squared distances of their centres, which decide between equal bounds. */
  private readonly spread = new Float64Array(2);
  private readonly pacer: Pacer;

  constructor(a: CollisionTree, b: CollisionTree, pacer: Pacer) {
    this.a = a;
    this.b = b;
    this.pacer = pacer;
    this.leaf = createLeafTest(a, b, pacer);
    const size = a.depth + b.depth + 2;
    this.stackA = new Int32Array(size);
    this.stackB = new Int32Array(size);
    this.stackBound = new Float64Array(size);
  }

  distance(relative: Pose, witness: Witness, below_mm = Number.POSITIVE_INFINITY, leeway: Leeway = NO_LEEWAY): boolean {
    const { a, b, leaf } = this;
    if (a.nodeCount === 0 || b.nodeCount === 0) {
      witness.distance_mm = below_mm;
      witness.least_mm = below_mm;
      return false;
    }
    leaf.start(relative, witness, below_mm, leeway);
    const nodePairs = leaf.best[0]! > 0 ? this.descend() : 0;
    this.pacer.spend((nodePairs + leaf.tested) % BATCH);
    countQuery(nodePairs, leaf.tested);
    return leaf.finish(witness, below_mm);
  }

  intersects(relative: Pose, witness: Witness): boolean {
    return this.distance(relative, witness, TOUCHING_mm);
  }

  /** How many pairs of nodes were bounded. */
  private descend(): number {
    const { a, b, leaf, stackA, stackB, stackBound, bound, spread, pacer } = this;
    const rightA = a.right;
    const rightB = b.right;
    const radiusA = a.radius;
    const radiusB = b.radius;
    const { best, limit } = leaf;
    let pairs = 1;
    let top = 0;
    let nodeA = 0;
    let nodeB = 0;
    boundNodes(a, 0, b, 0, leaf.frame, limit, bound, spread, 0);
    if (bound[0] === Number.POSITIVE_INFINITY) return pairs;
    let spent = 0;
    while (true) {
      if (pairs + leaf.tested - spent > BATCH) {
        pacer.spend(pairs + leaf.tested - spent);
        spent = pairs + leaf.tested;
      }
      const secondA = rightA[nodeA]!;
      const secondB = rightB[nodeB]!;
      let descended = false;
      if (secondA === 0 && secondB === 0) {
        leaf.test(nodeA, nodeB);
        if (best[0] === 0) return pairs;
      } else {
        const splitA = secondB === 0 || (secondA !== 0 && radiusA[nodeA]! >= radiusB[nodeB]!);
        const nearA = splitA ? nodeA + 1 : nodeA;
        const nearB = splitA ? nodeB : nodeB + 1;
        const farA = splitA ? secondA : nodeA;
        const farB = splitA ? nodeB : secondB;
        pairs += 2;
        boundNodes(a, nearA, b, nearB, leaf.frame, limit, bound, spread, 0);
        boundNodes(a, farA, b, farB, leaf.frame, limit, bound, spread, 1);
        const first = bound[0]!;
        const second = bound[1]!;
        if (first < second || (first === second && spread[0]! <= spread[1]!)) {
          if (second < Number.POSITIVE_INFINITY) {
            stackA[top] = farA;
            stackB[top] = farB;
            stackBound[top++] = second;
          }
          descended = first < Number.POSITIVE_INFINITY;
          nodeA = nearA;
          nodeB = nearB;
        } else {
          if (first < Number.POSITIVE_INFINITY) {
            stackA[top] = nearA;
            stackB[top] = nearB;
            stackBound[top++] = first;
          }
          descended = second < Number.POSITIVE_INFINITY;
          nodeA = farA;
          nodeB = farB;
        }
      }
      if (descended) continue;
      do {
        if (top === 0) return pairs;
        top--;
      } while (stackBound[top]! >= limit[0]!);
      nodeA = stackA[top]!;
      nodeB = stackB[top]!;
    }
  }
}
