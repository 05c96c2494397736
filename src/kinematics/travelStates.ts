import { POSE_SIZE, poseOfTrack } from "../maths/pose.ts";
import { barLocks } from "./antiRollBar.ts";
import type { Corner } from "./corner.ts";
import { STATE_SIZE } from "./solver.ts";

/**
 * Carrier poses at the same few travels in one corner after another, where each differs a little from the one before (a
 * hard point that goes from place to place): each travel is solved from where the last corner stood there, which takes a
 * third of the time of going there from ride height. The poses are as exact as runTravel's.
 *
 * A corner is found to lock only where it does not get to one of the travels. Where it locks between two of them and is
 * free again at the next, runTravel would stop and this goes on: a place that is chosen by it has to be run in full.
 */
export class TravelStates {
  /** Ascending. */
  readonly travel_mm: Float64Array;
  /** 12 numbers a travel, left frame, of the corner solved last. */
  readonly carrier: Float64Array;
  /** Travels before `first`, and `end` and later ones, are beyond a lock: their poses mean nothing. */
  first = 0;
  end = 0;
  private readonly saved: Float64Array;
  private readonly isSaved: Uint8Array;

  constructor(travel_mm: readonly number[]) {
    this.travel_mm = Float64Array.from(travel_mm);
    this.carrier = new Float64Array(POSE_SIZE * travel_mm.length);
    this.saved = new Float64Array(STATE_SIZE * travel_mm.length);
    this.isSaved = new Uint8Array(travel_mm.length);
  }

  /** Solves every travel that the corner reaches, outwards from ride height. */
  solve(corner: Corner): void {
    const { travel_mm } = this;
    const count = travel_mm.length;
    let above = 0;
    while (above < count && travel_mm[above]! < 0) above++;
    this.end = this.run(corner, above, 1, count);
    this.first = this.run(corner, above - 1, -1, -1) + 1;
  }

  /** From one travel on, by steps of one; the first that is not reached. */
  private run(corner: Corner, from: number, by: 1 | -1, stop: number): number {
    const { solver } = corner;
    for (let i = from; i !== stop; i += by) {
      const isNear = this.isSaved[i] === 1 && solver.startFrom(this.saved, STATE_SIZE * i, this.travel_mm[i]!);
      // what comes before the first is ride height; any other goes on from where the one before it stands
      if (!isNear && i === from) solver.reset();
      if ((!isNear && !solver.moveTo(this.travel_mm[i]!)) || !this.keep(corner, i)) {
        this.isSaved[i] = 0;
        return i;
      }
    }
    return stop;
  }

  /** Takes down where the solver stands; false where the anti-roll bar does not let the corner get there. */
  private keep(corner: Corner, i: number): boolean {
    corner.solver.writePose(this.carrier, POSE_SIZE * i);
    if (corner.scene.antiRollBar && barLocks(corner, poseOfTrack(this.carrier, i))) return false;
    corner.solver.saveState(this.saved, STATE_SIZE * i);
    this.isSaved[i] = 1;
    return true;
  }
}
