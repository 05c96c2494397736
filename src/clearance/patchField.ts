import type { Pose } from "../maths/pose.ts";
import {
  createInsideQuery,
  createPointQuery,
  createSurfacePoint,
  type InsideQuery,
  type PointQuery,
} from "./kernel.ts";
import type { ClippedBody } from "./sweepShelf.ts";

/** One state of a pair: how points of this body come into the other's design position, and whether the two overlap there. */
export interface FieldState {
  readonly intoOther: Pose;
  readonly overlap: boolean;
}

/**
 * Signed clearance of single points of one body to another, the least over some states: distance to the other's surface
 * that counts; inside the other, minus the distance to its whole surface. It changes no faster than the point moves.
 */
export class ClearanceField {
  private readonly states: readonly FieldState[];
  private readonly counted: PointQuery;
  private readonly whole: PointQuery;
  private readonly inside: InsideQuery;
  private readonly found = createSurfacePoint();
  /** The state that gave the last value is asked first: it lets the others end early. */
  private likely = 0;

  constructor(other: ClippedBody, states: readonly FieldState[]) {
    this.states = states;
    this.counted = createPointQuery(other.counted);
    this.whole = createPointQuery(other.whole.tree);
    this.inside = createInsideQuery(other.whole.tree);
  }

  /** The clearance at a point of this body's design position, or `cap_mm` > 0 if it is that or more. */
  at(x: number, y: number, z: number, cap_mm: number): number {
    const { states } = this;
    const first = this.likely;
    let least = this.inState(first, x, y, z, cap_mm);
    for (let i = 0; i < states.length; i++) {
      if (i === first) continue;
      const clearance = this.inState(i, x, y, z, least);
      if (clearance >= least) continue;
      least = clearance;
      this.likely = i;
    }
    return least;
  }

  /** The clearance in one state if it is below `least`, else `least`. */
  private inState(index: number, x: number, y: number, z: number, least: number): number {
    const { intoOther: m, overlap } = this.states[index]!;
    const { found } = this;
    const px = m[0]! * x + m[1]! * y + m[2]! * z + m[3]!;
    const py = m[4]! * x + m[5]! * y + m[6]! * z + m[7]!;
    const pz = m[8]! * x + m[9]! * y + m[10]! * z + m[11]!;
    if (overlap && this.inside.isInside(px, py, pz)) {
      this.whole.nearest(px, py, pz, Number.POSITIVE_INFINITY, found);
      return Math.min(least, -found.distance_mm);
    }
    return least > 0 && this.counted.nearest(px, py, pz, least, found) ? found.distance_mm : least;
  }
}
