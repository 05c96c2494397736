import { createPointQuery, createSurfacePoint, type PointQuery } from "../clearance/distancePoint.ts";
import { nearestOnTriangle } from "../clearance/pointTriangle.ts";
import { buildTree, type CollisionTree } from "../clearance/tree.ts";
import type { Solid } from "../geometry/solid.ts";
import { Pacer, type Poll } from "../maths/poll.ts";
import type { BareMesh } from "./weldNear.ts";

export interface Proof {
  /** Proved: no point of the mesh is farther from the other surface than it may be. */
  readonly isWithin: boolean;
  /** A vertex is marked that was not before. */
  readonly isNew: boolean;
  /** The greatest distance that was seen: a lower bound of the true one. */
  readonly seen_mm: number;
}

/** A corner of a triangle under test. */
interface Corner {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly off_mm: number;
  /** The triangle of the other surface that is nearest to it. */
  readonly nearest: number;
}

/** Places looked at within one triangle before it counts as not proved: what is so near the bound may as well be beyond it. */
const MOST_PLACES = 250;
/** Where a vertex is too far off, those farther than this share of the bound are marked with it. */
const NEAR_SHARE = 0.75;
const STRETCH = 2000;

/**
 * Proves that every point of `mesh` is within `within_mm` of the surface of `other` (one-sided Hausdorff distance), not only
 * its vertices. The distance to one triangle is a convex function of the place, so it is largest over a triangle at a corner: where
 * all three corners are near enough to one and the same triangle the whole is. Where they are not, it is cut into four, as by
 * M. Tang, M. Lee, Y. J. Kim, "Interactive Hausdorff distance computation for general polygonal models", 2009 (the bound
 * by convexity is theirs, the cutting in four is ours).
 *
 * Marks in `isHeld` (one a vertex of `mesh`) what keeps it from holding: vertices that are too far off or nearly so, or, where
 * none is, the corners of triangles of which it is not proved.
 */
export function holdUnproven(mesh: BareMesh, other: Solid, within_mm: number, isHeld: Uint8Array, poll?: Poll): Proof {
  const search = new Search(buildTree(other, poll), within_mm, new Pacer(poll, STRETCH));
  let isNew = false;
  const hold = (vertex: number): void => {
    isNew ||= isHeld[vertex] === 0;
    isHeld[vertex] = 1;
  };
  search.lookAtVertices(mesh);
  if (search.seen_mm > within_mm) {
    // the next round is another surface there: its triangles can wait
    search.fartherThan(NEAR_SHARE * within_mm).forEach(hold);
    return { isWithin: false, isNew, seen_mm: search.seen_mm };
  }
  let isWithin = true;
  for (const corners of search.unprovenTriangles(mesh)) {
    isWithin = false;
    corners.forEach(hold);
  }
  return { isWithin, isNew, seen_mm: search.seen_mm };
}

class Search {
  private readonly tree: CollisionTree;
  private readonly query: PointQuery;
  private readonly within: number;
  private readonly pacer: Pacer;
  private readonly found = createSurfacePoint();
  private readonly near = new Float64Array(4);
  private nearest = new Int32Array();
  private off = new Float64Array();
  private hasFailed = false;
  /** Looked at since the last triangle was begun. */
  private places = 0;
  seen_mm = 0;

  constructor(tree: CollisionTree, within_mm: number, pacer: Pacer) {
    this.tree = tree;
    this.query = createPointQuery(tree);
    this.within = within_mm;
    this.pacer = pacer;
  }

  lookAtVertices({ positions }: BareMesh): void {
    const count = positions.length / 3;
    this.nearest = new Int32Array(count);
    this.off = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const corner = this.cornerAt(positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!);
      this.nearest[i] = corner.nearest;
      this.off[i] = corner.off_mm;
    }
  }

  fartherThan(far_mm: number): number[] {
    const far: number[] = [];
    for (let i = 0; i < this.off.length; i++) if (this.off[i]! > far_mm) far.push(i);
    return far;
  }

  /** Their corners; all vertices are near enough. */
  *unprovenTriangles({ positions, indices }: BareMesh): Generator<readonly [number, number, number]> {
    const { nearest, off } = this;
    const cornerOf = (i: number): Corner => ({
      x: positions[3 * i]!,
      y: positions[3 * i + 1]!,
      z: positions[3 * i + 2]!,
      off_mm: off[i]!,
      nearest: nearest[i]!,
    });
    for (let t = 0; t < indices.length; t += 3) {
      const [a, b, c] = [indices[t]!, indices[t + 1]!, indices[t + 2]!];
      // all three nearest to one triangle: the commonest case, without making anything
      if (nearest[a] === nearest[b] && nearest[b] === nearest[c]) continue;
      this.places = 0;
      this.hasFailed = false;
      this.prove(cornerOf(a), cornerOf(b), cornerOf(c));
      if (this.hasFailed) yield [a, b, c];
    }
  }

  private cornerAt(x: number, y: number, z: number): Corner {
    this.pacer.spend(1);
    this.places++;
    const { found } = this;
    this.query.nearest(x, y, z, Number.POSITIVE_INFINITY, found);
    if (found.distance_mm > this.seen_mm) this.seen_mm = found.distance_mm;
    if (!(found.distance_mm <= this.within)) this.hasFailed = true;
    return { x, y, z, off_mm: found.distance_mm, nearest: found.triangle };
  }

  private prove(a: Corner, b: Corner, c: Corner): void {
    if (this.hasFailed || this.isNearOne(a, b, c)) return;
    // no point is farther from its nearest corner than the longest side
    const longest = Math.max(apart(a, b), apart(b, c), apart(c, a));
    if (longest + Math.min(a.off_mm, b.off_mm, c.off_mm) <= this.within) return;
    if (this.places > MOST_PLACES) {
      this.hasFailed = true;
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
    return !this.hasFailed && holds(middle.nearest);
  }

  private between(a: Corner, b: Corner): Corner {
    return this.cornerAt((a.x + b.x) / 2, (a.y + b.y) / 2, (a.z + b.z) / 2);
  }
}

function apart(a: Corner, b: Corner): number {
  return Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2 + (a.z - b.z) ** 2);
}
