import { nearestOnTriangle } from "./pointTriangle.ts";
import type { CollisionTree } from "./tree.ts";

/** The surface point nearest to a point; belongs to the caller. */
export interface SurfacePoint {
  distance_mm: number;
  /** Tree triangle, −1 where none is within the limit. */
  triangle: number;
  readonly point: Float64Array;
}

export interface PointQuery {
  /**
   * Nearest surface point to (x, y, z), in the tree's design axes, if it is nearer than `below_mm`; false, and `out` left
   * with triangle −1 and distance `below_mm`, if none is. Any point nearer than `enough_mm` will do: the search ends there.
   */
  nearest(x: number, y: number, z: number, below_mm: number, out: SurfacePoint, enough_mm?: number): boolean;
}

export function createSurfacePoint(): SurfacePoint {
  return { distance_mm: Number.POSITIVE_INFINITY, triangle: -1, point: new Float64Array(3) };
}

/**
 * `neighbours`: points that are asked for one after the other lie near each other, so each search begins with the triangle
 * that the last one found. Distances are the same; of several triangles at that distance another may be told.
 */
export function createPointQuery(tree: CollisionTree, neighbours = false): PointQuery {
  return new TreePoint(tree, neighbours);
}

class TreePoint implements PointQuery {
  private readonly tree: CollisionTree;
  private readonly stack: Int32Array;
  private readonly stackBound: Float64Array;
  private readonly near = new Float64Array(4);

  private readonly neighbours: boolean;
  private last = -1;

  constructor(tree: CollisionTree, neighbours: boolean) {
    this.tree = tree;
    this.neighbours = neighbours;
    this.stack = new Int32Array(tree.depth + 2);
    this.stackBound = new Float64Array(tree.depth + 2);
  }

  nearest(x: number, y: number, z: number, below_mm: number, out: SurfacePoint, enough_mm = 0): boolean {
    const { tree, stack, stackBound, near } = this;
    const { boxes, right, first, count, triangles } = tree;
    let best = below_mm * below_mm;
    const enough = enough_mm > 0 ? enough_mm * enough_mm : 0;
    out.triangle = -1;
    if (this.last >= 0) {
      nearestOnTriangle(triangles, 9 * this.last, x, y, z, near);
      if (near[0]! < best) {
        best = near[0]!;
        out.triangle = this.last;
        for (let k = 0; k < 3; k++) out.point[k] = near[k + 1]!;
      }
    }
    let top = 0;
    if (tree.nodeCount > 0 && (out.triangle < 0 || best >= enough)) {
      stack[0] = 0;
      stackBound[0] = 0;
      top = 1;
    }
    while (top > 0) {
      top--;
      if (stackBound[top]! >= best) continue;
      const node = stack[top]!;
      const second = right[node]!;
      if (second === 0) {
        const end = first[node]! + count[node]!;
        for (let i = first[node]!; i < end; i++) {
          nearestOnTriangle(triangles, 9 * i, x, y, z, near);
          if (near[0]! >= best) continue;
          best = near[0]!;
          out.triangle = i;
          for (let k = 0; k < 3; k++) out.point[k] = near[k + 1]!;
        }
        if (best < enough) break;
        continue;
      }
      let bound0 = 0;
      let bound1 = 0;
      for (let child = 0; child < 2; child++) {
        const box = 6 * (child === 0 ? node + 1 : second);
        const dx = Math.abs(x - boxes[box]!) - boxes[box + 3]!;
        const dy = Math.abs(y - boxes[box + 1]!) - boxes[box + 4]!;
        const dz = Math.abs(z - boxes[box + 2]!) - boxes[box + 5]!;
        const squared = (dx > 0 ? dx * dx : 0) + (dy > 0 ? dy * dy : 0) + (dz > 0 ? dz * dz : 0);
        if (child === 0) bound0 = squared;
        else bound1 = squared;
      }
      // the nearer child goes on top
      const leftFirst = bound0 <= bound1;
      stack[top] = leftFirst ? second : node + 1;
      stackBound[top++] = leftFirst ? bound1 : bound0;
      stack[top] = leftFirst ? node + 1 : second;
      stackBound[top++] = leftFirst ? bound0 : bound1;
    }
    if (this.neighbours && out.triangle >= 0) this.last = out.triangle;
    out.distance_mm = out.triangle < 0 ? below_mm : Math.sqrt(best);
    return out.triangle >= 0;
  }
}
