import { Pacer, type Poll } from "../maths/poll.ts";
import { POSE_SIZE, type Pose } from "../maths/pose.ts";
import {
  createInsideQuery,
  createPointQuery,
  createSurfacePoint,
  type InsideQuery,
  type PointQuery,
} from "./kernel.ts";
import { createSurfacePoints } from "./surface.ts";
import type { ClippedBody } from "./sweepShelf.ts";

/** Deeper than this a point is just deep, mm: exact depths far inside a body cost much and tell nothing. */
export const DEEP_mm = 30;

/** How far beyond the least clearance so far a state is measured, so that states near it need not be, mm. */
const MARGIN_mm = 8;

/** States of points to look at before polling: some 2 ms. */
const STRETCH = 1000;

/** One state of a pair: how points of this body come into the other's design position, and whether the two overlap there. */
export interface FieldState {
  readonly intoOther: Pose;
  readonly overlap: boolean;
}

/**
 * Signed clearance of single points of one body to another, the least over some states (neighbours in the list best be
 * neighbours in motion): distance to the other's surface that counts; inside the other, minus the distance to its whole
 * surface, −30 mm at the lowest. It changes no faster than the point moves, in space and from state to state.
 */
export class ClearanceField {
  private readonly count: number;
  private readonly poses: Float64Array;
  private readonly overlap: Uint8Array;
  private readonly counted: PointQuery;
  private readonly whole: PointQuery;
  private readonly inside: InsideQuery;
  private readonly found = createSurfacePoint();
  private readonly pacer: Pacer;
  /** The state that gave the last value is asked first: it lets the others end early. */
  private likely = 0;
  /** Where the point was in the state measured last, and no more than its clearance there. */
  private readonly anchor = new Float64Array(3);
  private anchored_mm = 0;

  constructor(other: ClippedBody, states: readonly FieldState[], poll?: Poll) {
    this.pacer = new Pacer(poll, STRETCH);
    this.count = states.length;
    this.poses = new Float64Array(POSE_SIZE * states.length);
    this.overlap = Uint8Array.from(states, (state) => (state.overlap ? 1 : 0));
    states.forEach(({ intoOther }, i) => {
      this.poses.set(intoOther, POSE_SIZE * i);
    });
    this.counted = createSurfacePoints(other.counted, true);
    this.whole = createPointQuery(other.whole.tree, true);
    this.inside = createInsideQuery(other.whole.tree, poll);
  }

  /**
   * The clearance at a point of this body's design position, or `cap_mm` > 0 if it is that or more. It is known to be no less
   * than `known_mm`, which may save work.
   */
  at(x: number, y: number, z: number, cap_mm: number, known_mm = Number.NEGATIVE_INFINITY): number {
    if (known_mm >= cap_mm) return cap_mm;
    const { count } = this;
    this.pacer.spend(count);
    const first = this.likely;
    this.anchored_mm = Number.NEGATIVE_INFINITY;
    let least = Math.min(cap_mm, this.inState(first, x, y, z, cap_mm, count > 1 ? MARGIN_mm : 0, known_mm));
    this.anchored_mm = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < count && least > -DEEP_mm; i++) {
      if (i === first) continue;
      const clearance = this.inState(i, x, y, z, least, MARGIN_mm, known_mm);
      if (clearance >= least) continue;
      least = clearance;
      this.likely = i;
    }
    return least;
  }

  /** The clearance in one state if it is below `least`, else some number that is not. */
  private inState(
    state: number,
    x: number,
    y: number,
    z: number,
    least: number,
    margin: number,
    known_mm: number,
  ): number {
    const { poses: m, anchor, found } = this;
    const i = POSE_SIZE * state;
    const px = m[i]! * x + m[i + 1]! * y + m[i + 2]! * z + m[i + 3]!;
    const py = m[i + 4]! * x + m[i + 5]! * y + m[i + 6]! * z + m[i + 7]!;
    const pz = m[i + 8]! * x + m[i + 9]! * y + m[i + 10]! * z + m[i + 11]!;
    const way = Math.sqrt((px - anchor[0]!) ** 2 + (py - anchor[1]!) ** 2 + (pz - anchor[2]!) ** 2);
    const known = Math.max(known_mm, this.anchored_mm - way);
    if (known >= least) return known;
    let clearance: number;
    if (this.overlap[state] === 1 && known <= 0 && this.inside.isInside(px, py, pz)) {
      // a surface point nearer than the depth so far settles that this is less deep
      this.whole.nearest(px, py, pz, DEEP_mm, found, -least);
      clearance = -found.distance_mm;
    } else {
      const limit = least + margin;
      clearance = limit > 0 && this.counted.nearest(px, py, pz, limit, found) ? found.distance_mm : Math.max(0, limit);
    }
    anchor[0] = px;
    anchor[1] = py;
    anchor[2] = pz;
    this.anchored_mm = clearance;
    return clearance;
  }
}
