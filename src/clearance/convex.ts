import type { Pose } from "../maths/pose.ts";
import { ConvexDifference, type ConvexPiece } from "./convexDifference.ts";
import { gjkDistance } from "./convexGjk.ts";
import { GrowingHull } from "./convexHull.ts";
import { Simplex } from "./convexSimplex.ts";

export { type ConvexPiece, convexPieceOf } from "./convexDifference.ts";

/** How far two convex pieces overlap; belongs to the caller. All in A's design axes. */
export interface ConvexOverlap {
  /** Length of the smallest translation that parts them; 0: they touch. */
  depth_mm: number;
  /** Unit vector: moving A by the depth along it parts the two. */
  readonly partingOfA: Float64Array;
  /** pointB − pointA = depth · partingOfA; pointA lies on A. */
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
}

export function createConvexOverlap(): ConvexOverlap {
  return {
    depth_mm: 0,
    partingOfA: new Float64Array(3),
    pointA: new Float64Array(3),
    pointB: new Float64Array(3),
  };
}

export interface ConvexQuery {
  /**
   * Distance of two pieces, mm; 0 while they overlap or touch. `out`, if given and the distance is above 0, gets the nearest
   * points, the direction in which moving A opens the gap, and depth 0.
   */
  distance(a: ConvexPiece, b: ConvexPiece, relative: Pose, out?: ConvexOverlap): number;
  /**
   * False if the pieces are apart. Else `out` tells how deep they overlap, to 1e-7 of the depth and 1e-10 of their size. The
   * depth is never too small: a plane with that translation between the pieces is known.
   * With `atLeast_mm`, may also answer false once the depth is known to be below that.
   */
  penetration(a: ConvexPiece, b: ConvexPiece, relative: Pose, out: ConvexOverlap, atLeast_mm?: number): boolean;
}

export function createConvexQuery(): ConvexQuery {
  return new PieceQuery();
}

class PieceQuery implements ConvexQuery {
  private readonly difference = new ConvexDifference();
  private readonly simplex = new Simplex();
  private readonly hull = new GrowingHull();
  private readonly weights = new Float64Array(3);

  distance(a: ConvexPiece, b: ConvexPiece, relative: Pose, out?: ConvexOverlap): number {
    const { difference, simplex } = this;
    difference.load(a, b, relative);
    const distance = gjkDistance(difference, simplex, false);
    if (out && distance > 0) {
      out.depth_mm = 0;
      for (let axis = 0; axis < 3; axis++) {
        let value = a.centre[axis]!;
        for (let k = 0; k < simplex.count; k++) value += simplex.weights[k]! * a.points[simplex.indexA[k]! + axis]!;
        out.pointA[axis] = value;
        out.pointB[axis] = value - simplex.nearest[axis]!;
        out.partingOfA[axis] = simplex.nearest[axis]! / distance;
      }
    }
    return distance;
  }

  penetration(a: ConvexPiece, b: ConvexPiece, relative: Pose, out: ConvexOverlap, atLeast_mm = 0): boolean {
    const { difference, simplex, hull } = this;
    difference.load(a, b, relative);
    if (gjkDistance(difference, simplex, true) > 0) return false;
    if (!hull.start(difference)) {
      this.tellFlat(a, out);
      return atLeast_mm <= 0;
    }
    return this.grow(a, out, atLeast_mm);
  }

  /**
   * Grows a hull within the difference at its face nearest to the origin until that face is one of the difference's own
   * (the expanding polytope of G. van den Bergen, Proximity queries and penetration depth computation on 3D game objects,
   * 2001; here it may start without the origin inside, so touching pieces need no special care). Planes through the
   * difference's farthest points bound the depth from above, the hull's nearest face bounds it from below.
   */
  private grow(a: ConvexPiece, out: ConvexOverlap, atLeast_mm: number): boolean {
    const { difference, hull } = this;
    const { direction, farthest } = difference;
    const slack = 1e-11 * difference.scale;
    let width = Number.POSITIVE_INFINITY;
    while (true) {
      const face = this.lowestFace();
      const height = hull.heights[face]!;
      for (let k = 0; k < 3; k++) direction[k] = hull.normals[3 * face + k]!;
      difference.support();
      const reach = direction[0]! * farthest[0]! + direction[1]! * farthest[1]! + direction[2]! * farthest[2]!;
      // All of the difference on one side of the origin.
      if (reach < -slack) return false;
      if (reach < width) {
        width = reach;
        if (width < atLeast_mm) return false;
        for (let k = 0; k < 3; k++) out.partingOfA[k] = -direction[k]!;
      }
      const done = reach - height <= slack + 1e-7 * reach || hull.isCorner(face, difference);
      if (done || !hull.grow(difference, face)) {
        this.tell(a, face, Math.max(0, done ? reach : width), out);
        return true;
      }
    }
  }

  private lowestFace(): number {
    const { heights, alive, faceEnd } = this.hull;
    let lowest = 0;
    let height = Number.POSITIVE_INFINITY;
    for (let face = 0; face < faceEnd; face++) {
      if (alive[face] === 1 && heights[face]! < height) {
        height = heights[face]!;
        lowest = face;
      }
    }
    return lowest;
  }

  /** Points of contact: where the origin's projection falls in the faces that lie in the same plane as the found one. */
  private tell(a: ConvexPiece, face: number, depth_mm: number, out: ConvexOverlap): void {
    const { hull, weights, difference } = this;
    const { normals, heights, corners, alive, faceEnd, indexA } = hull;
    const slack = 1e-9 * difference.scale + 1e-6 * depth_mm;
    let best = face;
    let bestWeight = Number.NEGATIVE_INFINITY;
    for (let other = 0; other < faceEnd; other++) {
      if (alive[other] !== 1 || !(heights[other]! <= heights[face]! + slack)) continue;
      const cosine =
        normals[3 * face]! * normals[3 * other]! +
        normals[3 * face + 1]! * normals[3 * other + 1]! +
        normals[3 * face + 2]! * normals[3 * other + 2]!;
      if (!(cosine > 1 - 1e-9)) continue;
      const least = this.weigh(other);
      if (least <= bestWeight) continue;
      bestWeight = least;
      best = other;
    }
    this.weigh(best);
    let sum = 0;
    for (let k = 0; k < 3; k++) {
      weights[k] = Math.max(0, weights[k]!);
      sum += weights[k]!;
    }
    out.depth_mm = depth_mm;
    for (let axis = 0; axis < 3; axis++) {
      let value = a.centre[axis]!;
      for (let k = 0; k < 3; k++) {
        value += (weights[k]! / sum) * a.points[indexA[corners[3 * best + k]!]! + axis]!;
      }
      out.pointA[axis] = value;
      out.pointB[axis] = value + depth_mm * out.partingOfA[axis]!;
    }
  }

  /** Weights of a face's corners in the origin's projection on its plane, and the least of them. */
  private weigh(face: number): number {
    const { weights, hull } = this;
    const { points: p, corners, normals } = hull;
    const [nx, ny, nz] = [normals[3 * face]!, normals[3 * face + 1]!, normals[3 * face + 2]!];
    let sum = 0;
    for (let k = 0; k < 3; k++) {
      const q = 3 * corners[3 * face + ((k + 1) % 3)]!;
      const r = 3 * corners[3 * face + ((k + 2) % 3)]!;
      // twice the area of the triangle of the origin's projection and the opposite edge
      weights[k] =
        nx * (p[q + 1]! * p[r + 2]! - p[q + 2]! * p[r + 1]!) +
        ny * (p[q + 2]! * p[r]! - p[q]! * p[r + 2]!) +
        nz * (p[q]! * p[r + 1]! - p[q + 1]! * p[r]!);
      sum += weights[k]!;
    }
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < 3; k++) {
      weights[k] = weights[k]! / sum;
      least = Math.min(least, weights[k]!);
    }
    return least;
  }

  /** Two flat pieces in one plane (or thinner): any touch can be undone without moving. */
  private tellFlat(a: ConvexPiece, out: ConvexOverlap): void {
    const { difference } = this;
    out.depth_mm = 0;
    for (let k = 0; k < 3; k++) {
      out.partingOfA[k] = -difference.direction[k]!;
      out.pointA[k] = a.centre[k]! + a.points[difference.indexA + k]!;
      out.pointB[k] = out.pointA[k]!;
    }
  }
}
