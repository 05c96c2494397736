import type { Poll } from "../maths/poll.ts";
import type { Pose } from "../maths/pose.ts";
import { createWitness, type DistanceQuery, type Leeway, NO_LEEWAY, TOUCHING_mm, type Witness } from "./distance.ts";
import { createSurfacePoint, type PointQuery, type SurfacePoint } from "./distancePoint.ts";
import { createDistanceQuery, createPointQuery } from "./kernelChoice.ts";
import type { CollisionTree } from "./tree.ts";

/** A surface in one tree or in several, which share no triangle; none: there is no surface. Triangles are numbered through. */
export type Surface = readonly CollisionTree[];

export function triangleCountOf(surface: Surface): number {
  return surface.reduce((sum, { triangleCount }) => sum + triangleCount, 0);
}

/** Distance of two surfaces, as of two trees. */
export function createSurfaceDistance(a: Surface, b: Surface, poll?: Poll): DistanceQuery {
  return a.length === 1 && b.length === 1 ? createDistanceQuery(a[0]!, b[0]!, poll) : new PartsDistance(a, b, poll);
}

/** The nearest point of a surface, as of a tree. */
export function createSurfacePoints(surface: Surface, neighbours = false): PointQuery {
  return surface.length === 1 ? createPointQuery(surface[0]!, neighbours) : new PartsPoints(surface, neighbours);
}

/** One tree of either surface. */
interface Parts {
  readonly query: DistanceQuery;
  /** Number of the first triangle of each in its surface. */
  readonly startA: number;
  readonly startB: number;
  readonly endA: number;
  readonly endB: number;
  /** Where these two were nearest last. */
  readonly witness: Witness;
}

class PartsDistance implements DistanceQuery {
  private readonly parts: readonly Parts[];

  constructor(a: Surface, b: Surface, poll?: Poll) {
    const [startsA, startsB] = [startsOf(a), startsOf(b)];
    this.parts = a.flatMap((treeA, i) =>
      b.map((treeB, j): Parts => {
        const [startA, startB] = [startsA[i]!, startsB[j]!];
        const [endA, endB] = [startA + treeA.triangleCount, startB + treeB.triangleCount];
        return { query: createDistanceQuery(treeA, treeB, poll), startA, startB, endA, endB, witness: createWitness() };
      }),
    );
  }

  distance(relative: Pose, witness: Witness, below_mm = Number.POSITIVE_INFINITY, leeway: Leeway = NO_LEEWAY): boolean {
    const { parts } = this;
    const hinted = parts.findIndex((each) => holds(each, witness));
    let least = below_mm;
    let found = false;
    // those that were nearest first: it makes the search through the others short
    for (let turn = hinted < 0 ? 0 : -1; turn < parts.length && least > 0; turn++) {
      if (turn === hinted && turn >= 0) continue;
      const each = parts[turn < 0 ? hinted : turn]!;
      const own = each.witness;
      if (turn < 0) {
        own.triangleA = witness.triangleA - each.startA;
        own.triangleB = witness.triangleB - each.startB;
      }
      own.direction.set(witness.direction);
      if (!each.query.distance(relative, own, least, leeway)) continue;
      found = true;
      least = own.distance_mm;
      take(each, witness);
    }
    if (!found) {
      witness.distance_mm = below_mm;
      witness.least_mm = below_mm;
    }
    return found;
  }

  intersects(relative: Pose, witness: Witness): boolean {
    return this.distance(relative, witness, TOUCHING_mm);
  }
}

function startsOf(surface: Surface): number[] {
  let next = 0;
  return surface.map(({ triangleCount }) => {
    const start = next;
    next += triangleCount;
    return start;
  });
}

function holds({ startA, startB, endA, endB }: Parts, { triangleA, triangleB }: Witness): boolean {
  return triangleA >= startA && triangleA < endA && triangleB >= startB && triangleB < endB;
}

function take({ witness: own, startA, startB }: Parts, witness: Witness): void {
  witness.distance_mm = own.distance_mm;
  witness.least_mm = own.least_mm;
  witness.triangleA = startA + own.triangleA;
  witness.triangleB = startB + own.triangleB;
  witness.pointA.set(own.pointA);
  witness.pointB.set(own.pointB);
  witness.direction.set(own.direction);
}

class PartsPoints implements PointQuery {
  private readonly queries: readonly PointQuery[];
  private readonly starts: readonly number[];
  private readonly found = createSurfacePoint();

  constructor(surface: Surface, neighbours: boolean) {
    this.queries = surface.map((tree) => createPointQuery(tree, neighbours));
    this.starts = startsOf(surface);
  }

  nearest(x: number, y: number, z: number, below_mm: number, out: SurfacePoint, enough_mm = 0): boolean {
    const { queries, starts, found } = this;
    out.triangle = -1;
    out.distance_mm = below_mm;
    for (let i = 0; i < queries.length && (out.triangle < 0 || out.distance_mm >= enough_mm); i++) {
      if (!queries[i]!.nearest(x, y, z, out.distance_mm, found, enough_mm)) continue;
      out.triangle = starts[i]! + found.triangle;
      out.distance_mm = found.distance_mm;
      out.point.set(found.point);
    }
    return out.triangle >= 0;
  }
}
