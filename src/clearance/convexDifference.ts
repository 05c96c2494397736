import type { Pose } from "../maths/pose.ts";

/** A convex body as a cloud of points whose hull it is. */
export interface ConvexPiece {
  /** Middle of its box, in design position, mm. */
  readonly centre: Float64Array;
  /** Half sizes of its box, mm. */
  readonly half: Float64Array;
  /** Farthest point from the centre, mm. */
  readonly radius: number;
  /** 3 a point, from the centre. */
  readonly points: Float64Array;
}

/** `cloud`: 3·k coordinates, k ≥ 1; points inside the hull or on its faces do no harm. */
export function convexPieceOf(cloud: ArrayLike<number>): ConvexPiece {
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let k = 0; k < cloud.length; k++) {
    low[k % 3] = Math.min(low[k % 3]!, cloud[k]!);
    high[k % 3] = Math.max(high[k % 3]!, cloud[k]!);
  }
  const centre = Float64Array.from(low, (value, axis) => (value + high[axis]!) / 2);
  const half = Float64Array.from(low, (value, axis) => (high[axis]! - value) / 2);
  const points = Float64Array.from(cloud, (value, k) => value - centre[k % 3]!);
  let radius = 0;
  for (let k = 0; k < points.length; k += 3) {
    radius = Math.max(radius, Math.hypot(points[k]!, points[k + 1]!, points[k + 2]!));
  }
  return { centre, half, radius, points };
}

/**
 * The Minkowski difference of two pieces: every point of A less every point of B. The two overlap when it holds the
 * origin; their distance, and the smallest translation that parts them, are the origin's distance from its surface.
 * Coordinates are along A's design axes; points of A and B are measured from A's centre.
 */
export class ConvexDifference {
  pointsA: Float64Array = new Float64Array();
  /** B's points, placed. */
  pointsB = new Float64Array();
  /** Length by which to judge what is small, mm. */
  scale = 0;
  /** Query of `support`: any vector but zero. */
  readonly direction = new Float64Array(3);
  /** Answer of `support`: the point of the difference farthest along the direction, and the points it comes from. */
  readonly farthest = new Float64Array(3);
  indexA = 0;
  indexB = 0;
  private countB = 0;

  load(a: ConvexPiece, b: ConvexPiece, relative: Pose): void {
    this.pointsA = a.points;
    const source = b.points;
    this.countB = source.length;
    if (this.pointsB.length < source.length) this.pointsB = new Float64Array(2 * source.length);
    const placed = this.pointsB;
    for (let row = 0; row < 3; row++) {
      const x = relative[4 * row]!;
      const y = relative[4 * row + 1]!;
      const z = relative[4 * row + 2]!;
      const shift = x * b.centre[0]! + y * b.centre[1]! + z * b.centre[2]! + relative[4 * row + 3]! - a.centre[row]!;
      for (let k = 0; k < source.length; k += 3) {
        placed[k + row] = x * source[k]! + y * source[k + 1]! + z * source[k + 2]! + shift;
      }
    }
    this.scale = a.radius + b.radius;
  }

  support(): void {
    const { direction, farthest, pointsA, pointsB, countB } = this;
    const x = direction[0]!;
    const y = direction[1]!;
    const z = direction[2]!;
    let indexA = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < pointsA.length; k += 3) {
      const along = x * pointsA[k]! + y * pointsA[k + 1]! + z * pointsA[k + 2]!;
      if (along > most) {
        most = along;
        indexA = k;
      }
    }
    let indexB = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < countB; k += 3) {
      const along = x * pointsB[k]! + y * pointsB[k + 1]! + z * pointsB[k + 2]!;
      if (along < least) {
        least = along;
        indexB = k;
      }
    }
    this.indexA = indexA;
    this.indexB = indexB;
    farthest[0] = pointsA[indexA]! - pointsB[indexB]!;
    farthest[1] = pointsA[indexA + 1]! - pointsB[indexB + 1]!;
    farthest[2] = pointsA[indexA + 2]! - pointsB[indexB + 2]!;
  }
}
