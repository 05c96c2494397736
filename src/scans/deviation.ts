import { createPointQuery, createSurfacePoint, type PointQuery } from "../clearance/distancePoint.ts";
import { nearestOnTriangle } from "../clearance/pointTriangle.ts";
import { buildTree, type CollisionTree } from "../clearance/tree.ts";
import type { Solid } from "../geometry/solid.ts";
import { Pacer, type Poll } from "../maths/poll.ts";
import type { Vec3 } from "../maths/vec3.ts";

/** Whether no point of one surface is farther than a bound from another, and if not where it is. */
export type Deviation =
  | {
      readonly isWithin: true /** The farthest vertex: a lower bound of the true deviation. */;
      readonly seen_mm: number;
    }
  | { readonly isWithin: false; readonly seen_mm: number; readonly at: Vec3 };

/** A corner of a triangle under test. */
interface Corner {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly off_mm: number;
  /** The triangle of the other surface that is nearest to it. */
  readonly nearest: number;
}

/** Pieces smaller than this share of the bound are not cut any more: then the triangle counts as outside. */
const SMALLEST = 1e-4;
const STRETCH = 2000;

/**
 * Proves that every point of `mesh` is within `within_mm` of the surface of `other` (one-sided Hausdorff distance), not only
 * its vertices. The distance to one triangle is a convex function of the place, so it is largest over a triangle at a corner: where
 * all three corners are near enough to one and the same triangle the whole is. Where they are not, it is cut into four, as by
 * M. Tang, M. Lee, Y. J. Kim, "Interactive Hausdorff distance computation for general polygonal models", 2009 (the bound
 * by convexity is theirs, the cutting in four is ours).
 */
export function provenWithin(
  mesh: Pick<Solid, "positions" | "indices">,
  other: Solid,
  within_mm: number,
  poll?: Poll,
): Deviation {
  const pacer = new Pacer(poll, STRETCH);
  return new Proof(buildTree(other, poll), within_mm, pacer).of(mesh);
}

class Proof {
  private readonly tree: CollisionTree;
  private readonly query: PointQuery;
  private readonly within: number;
  private readonly pacer: Pacer;
  private readonly found = createSurfacePoint();
  private readonly near = new Float64Array(4);
  private seen = 0;
  private fault: Vec3 | null = null;

  constructor(tree: CollisionTree, within_mm: number, pacer: Pacer) {
    this.tree = tree;
    this.query = createPointQuery(tree);
    this.within = within_mm;
    this.pacer = pacer;
  }

  of({ positions, indices }: Pick<Solid, "positions" | "indices">): Deviation {
    const count = positions.length / 3;
    const nearest = new Int32Array(count);
    const off = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const corner = this.cornerAt(positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!);
      nearest[i] = corner.nearest;
      off[i] = corner.off_mm;
      if (this.fault) return { isWithin: false, seen_mm: this.seen, at: this.fault };
    }
    const cornerOf = (i: number): Corner => ({
      x: positions[3 * i]!,
      y: positions[3 * i + 1]!,
      z: positions[3 * i + 2]!,
      off_mm: off[i]!,
      nearest: nearest[i]!,
    });
    for (let t = 0; t < indices.length && !this.fault; t += 3) {
      const [a, b, c] = [indices[t]!, indices[t + 1]!, indices[t + 2]!];
      // all three nearest to one triangle: the commonest case, without making anything
      if (nearest[a] === nearest[b] && nearest[b] === nearest[c]) continue;
      this.prove(cornerOf(a), cornerOf(b), cornerOf(c));
    }
    return this.fault
      ? { isWithin: false, seen_mm: this.seen, at: this.fault }
      : { isWithin: true, seen_mm: this.seen };
  }

  private cornerAt(x: number, y: number, z: number): Corner {
    this.pacer.spend(1);
    const { found } = this;
    this.query.nearest(x, y, z, Number.POSITIVE_INFINITY, found);
    this.seen = Math.max(this.seen, found.distance_mm);
    if (!(found.distance_mm <= this.within)) this.fault = [x, y, z];
    return { x, y, z, off_mm: found.distance_mm, nearest: found.triangle };
  }

  private prove(a: Corner, b: Corner, c: Corner): void {
    if (this.fault || this.isNearOne(a, b, c)) return;
    const longest = Math.max(apart(a, b), apart(b, c), apart(c, a));
    // no point is farther from its nearest corner than the longest side
    const most = longest + Math.min(a.off_mm, b.off_mm, c.off_mm);
    if (most <= this.within) return;
    if (longest < SMALLEST * this.within) {
      this.fault = [a.x, a.y, a.z];
      return;
    }
    const [ab, bc, ca] = [this.between(a, b), this.between(b, c), this.between(c, a)];
    this.prove(a, ab, ca);
    this.prove(ab, b, bc);
    this.prove(ca, bc, c);
    this.prove(ab, bc, ca);
  }

  /** Whether one triangle of the other surface is near enough to all three corners. */
  private isNearOne(a: Corner, b: Corner, c: Corner): boolean {
    const { near, tree, within } = this;
    const isNear = (triangle: number, corner: Corner): boolean => {
      if (corner.nearest === triangle) return true;
      nearestOnTriangle(tree.triangles, 9 * triangle, corner.x, corner.y, corner.z, near);
      return near[0]! <= within * within;
    };
    const holds = (triangle: number) => isNear(triangle, a) && isNear(triangle, b) && isNear(triangle, c);
    if (holds(a.nearest) || holds(b.nearest) || holds(c.nearest)) return true;
    // at an edge the corners may all be nearest to faces beside the one that the middle lies over
    const middle = this.cornerAt((a.x + b.x + c.x) / 3, (a.y + b.y + c.y) / 3, (a.z + b.z + c.z) / 3);
    return !this.fault && holds(middle.nearest);
  }

  private between(a: Corner, b: Corner): Corner {
    return this.cornerAt((a.x + b.x) / 2, (a.y + b.y) / 2, (a.z + b.z) / 2);
  }
}

function apart(a: Corner, b: Corner): number {
  return Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2 + (a.z - b.z) ** 2);
}
