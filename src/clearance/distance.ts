import type { Pose } from "../maths/pose.ts";
import { createLeafTest, type LeafTest } from "./distanceLeaf.ts";
import type { CollisionTree } from "./tree.ts";

/** Where two surfaces are nearest. Belongs to the caller, who hands it back as the hint of the next, similar query. */
export interface Witness {
  distance_mm: number;
  /** Tree triangles (see tree.ts), −1 where none is known yet. */
  triangleA: number;
  triangleB: number;
  /** On A's and on B's surface, both in A's design axes. */
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
  /** Unit vector from A's point to B's, A's design axes; kept while the surfaces cross or are farther than asked. */
  readonly direction: Float64Array;
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
  distance(relative: Pose, witness: Witness, below_mm?: number): boolean;
  /** Whether the surfaces cross or touch (to 1e-9 mm). A body inside another does not: see inside.ts. */
  intersects(relative: Pose, witness: Witness): boolean;
}

export const TOUCHING_mm = 1e-9;

export function createWitness(): Witness {
  return {
    distance_mm: Number.POSITIVE_INFINITY,
    triangleA: -1,
    triangleB: -1,
    pointA: new Float64Array(3),
    pointB: new Float64Array(3),
    direction: new Float64Array(3),
  };
}

export function createDistanceQuery(a: CollisionTree, b: CollisionTree): DistanceQuery {
  return new TreeDistance(a, b);
}

/**
 * Branch and bound over pairs of nodes, nearest pair first. A pair is dropped when any of four tests shows it to be no
 * nearer than the best pair of triangles so far: boxes (B's turned box in an upright one of A's axes), the gap along
 * the direction of the best pair, and the gaps along the two nodes' slab directions.
 */
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

  constructor(a: CollisionTree, b: CollisionTree) {
    this.a = a;
    this.b = b;
    this.leaf = createLeafTest(a, b);
    const size = a.depth + b.depth + 2;
    this.stackA = new Int32Array(size);
    this.stackB = new Int32Array(size);
    this.stackBound = new Float64Array(size);
  }

  distance(relative: Pose, witness: Witness, below_mm = Number.POSITIVE_INFINITY): boolean {
    const { a, b, leaf } = this;
    if (a.nodeCount === 0 || b.nodeCount === 0) {
      witness.distance_mm = below_mm;
      return false;
    }
    leaf.start(relative, witness, below_mm);
    if (leaf.best[0]! > 0) this.descend();
    return leaf.finish(witness, below_mm);
  }

  intersects(relative: Pose, witness: Witness): boolean {
    return this.distance(relative, witness, TOUCHING_mm);
  }

  private descend(): void {
    const { a, b, leaf, stackA, stackB, stackBound, bound, spread } = this;
    const rightA = a.right;
    const rightB = b.right;
    const radiusA = a.radius;
    const radiusB = b.radius;
    const best = leaf.best;
    let top = 0;
    let nodeA = 0;
    let nodeB = 0;
    this.boundPairs(0, 0, -1, -1);
    if (bound[0] === Number.POSITIVE_INFINITY) return;
    while (true) {
      const secondA = rightA[nodeA]!;
      const secondB = rightB[nodeB]!;
      let descended = false;
      if (secondA === 0 && secondB === 0) {
        leaf.test(nodeA, nodeB);
        if (best[0] === 0) return;
      } else {
        const splitA = secondB === 0 || (secondA !== 0 && radiusA[nodeA]! >= radiusB[nodeB]!);
        const nearA = splitA ? nodeA + 1 : nodeA;
        const nearB = splitA ? nodeB : nodeB + 1;
        const farA = splitA ? secondA : nodeA;
        const farB = splitA ? nodeB : secondB;
        this.boundPairs(nearA, nearB, farA, farB);
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
          descended = true;
          nodeA = farA;
          nodeB = farB;
        }
      }
      if (descended) continue;
      do {
        if (top === 0) return;
        top--;
      } while (stackBound[top]! >= best[0]!);
      nodeA = stackA[top]!;
      nodeB = stackB[top]!;
    }
  }

  /** Bounds one or two pairs of nodes (the second is absent if negative) against the best so far. */
  private boundPairs(a0: number, b0: number, a1: number, b1: number): void {
    const { bound, spread } = this;
    const frame = this.leaf.frame;
    const best = this.leaf.best[0]!;
    const boxesA = this.a.boxes;
    const boxesB = this.b.boxes;
    const slabsA = this.a.slabs;
    const slabsB = this.b.slabs;
    for (let pair = 0; pair < 2; pair++) {
      bound[pair] = Number.POSITIVE_INFINITY;
      const nodeA = pair === 0 ? a0 : a1;
      const nodeB = pair === 0 ? b0 : b1;
      if (nodeA < 0) continue;
      const boxA = 6 * nodeA;
      const boxB = 6 * nodeB;
      const bx = boxesB[boxB]!;
      const by = boxesB[boxB + 1]!;
      const bz = boxesB[boxB + 2]!;
      const hx = boxesB[boxB + 3]!;
      const hy = boxesB[boxB + 4]!;
      const hz = boxesB[boxB + 5]!;
      const ax = boxesA[boxA]!;
      const ay = boxesA[boxA + 1]!;
      const az = boxesA[boxA + 2]!;
      const gx = boxesA[boxA + 3]!;
      const gy = boxesA[boxA + 4]!;
      const gz = boxesA[boxA + 5]!;
      // From A's centre to B's, in A's axes.
      const cx = frame[0]! * bx + frame[1]! * by + frame[2]! * bz + frame[3]! - ax;
      const cy = frame[4]! * bx + frame[5]! * by + frame[6]! * bz + frame[7]! - ay;
      const cz = frame[8]! * bx + frame[9]! * by + frame[10]! * bz + frame[11]! - az;
      const dx = Math.abs(cx) - gx - (frame[12]! * hx + frame[13]! * hy + frame[14]! * hz);
      const dy = Math.abs(cy) - gy - (frame[15]! * hx + frame[16]! * hy + frame[17]! * hz);
      const dz = Math.abs(cz) - gz - (frame[18]! * hx + frame[19]! * hy + frame[20]! * hz);
      let squared = (dx > 0 ? dx * dx : 0) + (dy > 0 ? dy * dy : 0) + (dz > 0 ? dz * dz : 0);
      if (squared >= best) continue;
      let gap =
        cx * frame[21]! +
        cy * frame[22]! +
        cz * frame[23]! -
        (gx * frame[24]! + gy * frame[25]! + gz * frame[26]!) -
        (hx * frame[27]! + hy * frame[28]! + hz * frame[29]!);
      if (gap > 0 && gap * gap > squared) {
        squared = gap * gap;
        if (squared >= best) continue;
      }
      // A's slab against B's box.
      const slabA = 5 * nodeA;
      let nx = slabsA[slabA]!;
      let ny = slabsA[slabA + 1]!;
      let nz = slabsA[slabA + 2]!;
      let reach =
        hx * Math.abs(nx * frame[0]! + ny * frame[4]! + nz * frame[8]!) +
        hy * Math.abs(nx * frame[1]! + ny * frame[5]! + nz * frame[9]!) +
        hz * Math.abs(nx * frame[2]! + ny * frame[6]! + nz * frame[10]!);
      let along = nx * (cx + ax) + ny * (cy + ay) + nz * (cz + az);
      gap = Math.max(along - slabsA[slabA + 4]!, slabsA[slabA + 3]! - along) - reach;
      if (gap > 0 && gap * gap > squared) {
        squared = gap * gap;
        if (squared >= best) continue;
      }
      // B's slab, turned into A's axes, against A's box.
      const slabB = 5 * nodeB;
      const mx = slabsB[slabB]!;
      const my = slabsB[slabB + 1]!;
      const mz = slabsB[slabB + 2]!;
      nx = frame[0]! * mx + frame[1]! * my + frame[2]! * mz;
      ny = frame[4]! * mx + frame[5]! * my + frame[6]! * mz;
      nz = frame[8]! * mx + frame[9]! * my + frame[10]! * mz;
      reach = gx * Math.abs(nx) + gy * Math.abs(ny) + gz * Math.abs(nz);
      along = mx * bx + my * by + mz * bz - (nx * cx + ny * cy + nz * cz);
      gap = Math.max(along - slabsB[slabB + 4]!, slabsB[slabB + 3]! - along) - reach;
      if (gap > 0 && gap * gap > squared) {
        squared = gap * gap;
        if (squared >= best) continue;
      }
      bound[pair] = squared;
      spread[pair] = cx * cx + cy * cy + cz * cz;
    }
  }
}
