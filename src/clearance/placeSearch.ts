import { PlaceBody, type PlacePoses } from "./placeBody.ts";
import { createPlaceGauge } from "./placeGauge.ts";
import { PlacePair } from "./placePair.ts";
import { ballsOf } from "./sweep.ts";
import type { TreeShelf } from "./sweepShelf.ts";
import type { SweepBody, SweepPair } from "./types.ts";

export type { PlacePoses } from "./placeBody.ts";

/** A body and what carries it. */
export interface CarriedBody {
  readonly body: SweepBody;
  /** Which of a place's poses; null: it stands as it is drawn. */
  readonly frame: number | null;
}

/** Keys of two bodies, what is required between them, and where their joints excuse surface: as a sweep takes it. */
export type SearchedPair = Pick<SweepPair, "a" | "b" | "required_mm" | "excuses">;

/** The worst of a corner in one place. */
export interface PlaceWorst {
  /** The smallest signed clearance of any pair at any state, less what is required of the pair; as the limits say. */
  readonly margin_mm: number;
  /** The pair (its number in the list) and the state at which it is found; −1: there is none below the limit. */
  readonly pair: number;
  readonly state: number;
}

/** Between which margins, or clearances, the exact one matters; everywhere by default. */
export interface PlaceLimits {
  /** This and more are not told apart. */
  readonly below_mm?: number;
  /** This and less are not told apart: what is told is then an upper bound. At 0 or more no depth of an overlap is measured. */
  readonly above_mm?: number;
}

/**
 * The clearances of a corner for very many places of a hard point, one place after another, each a little beside the one
 * before.
 *
 * What is known of a pair in a state bounds it at the next place: its clearance changes by no more than the farthest that a
 * point of the one body goes as the other sees it (placeBound.ts). A pair is measured only where that bound cannot prove
 * that it does not matter, starting from its nearest triangles of the last time, and only as far as it matters. What is
 * told does therefore not depend on the order of the places, but for rounding (1e-9 mm; 1e-6 of a depth). The time does:
 * neighbours should follow each other (placeOrder.ts).
 *
 * Clearances are signed as a sweep's are: the distance of the two surfaces; while the bodies overlap, one wholly inside the
 * other included, minus the depth, exact over convex pieces, elsewhere that of the deepest point found (depthDeepest.ts).
 *
 * Bodies are rigid. One that is drawn anew for every place is not; a straight link that is cut to suit is two rigid pieces,
 * each carried by its own end, which slide in each other.
 *
 * **Only the states that are handed in are looked at.** Between them, and on the way from one powertrain pose to another,
 * nothing is proved: bodies may touch there. A place that this finds has to be swept before anybody builds on it.
 */
export class PlaceSearch {
  private readonly frameCount: number;
  private readonly bodies: readonly PlaceBody[];
  private readonly pairs: readonly PlacePair[];
  private readonly required_mm: Float64Array;
  private likely = 0;

  /** For `frameCount` poses at each of `stateCount` states. Trees come from the shelf. Throws if a pair names no body. */
  constructor(
    shelf: TreeShelf,
    bodies: readonly CarriedBody[],
    pairs: readonly SearchedPair[],
    frameCount: number,
    stateCount: number,
  ) {
    const byKey = new Map(
      bodies.map(({ body, frame }) => {
        const carried = new PlaceBody(shelf.prepare(body).extent, frame, stateCount);
        return [body.key, { body, carried }];
      }),
    );
    const find = (key: string) => {
      const found = byKey.get(key);
      if (found === undefined) throw new Error(`no body has the key ${key}`);
      return found;
    };
    this.frameCount = frameCount;
    this.bodies = [...byKey.values()].map(({ carried }) => carried);
    this.pairs = pairs.map((pair) => {
      const [a, b] = [find(pair.a), find(pair.b)];
      const ofA = shelf.clip(a.body, ballsOf(pair.excuses, "centreInA"));
      const ofB = shelf.clip(b.body, ballsOf(pair.excuses, "centreInB"));
      return new PlacePair(a.carried, b.carried, createPlaceGauge(ofA, ofB), stateCount);
    });
    this.required_mm = Float64Array.from(pairs, (pair) => pair.required_mm);
  }

  /** How many distances were measured so far. */
  get asked(): number {
    return this.pairs.reduce((sum, pair) => sum + pair.asked, 0);
  }

  /**
   * The worst of the corner, by margin: `below_mm` itself means that or more. At `above_mm` or less the search of the place
   * ends; other pairs, or the same one at another state, may be worse.
   */
  worst(place: PlacePoses, { below_mm = Infinity, above_mm = -Infinity }: PlaceLimits = {}): PlaceWorst {
    this.goTo(place);
    const { pairs, required_mm } = this;
    let margin = below_mm;
    let worst = -1;
    for (let k = -1; k < pairs.length && !(margin <= above_mm); k++) {
      // the worst of the last place first: little else is as bad
      if (k === this.likely) continue;
      const index = k < 0 ? this.likely : k;
      const pair = pairs[index];
      if (pair === undefined) continue;
      const required = required_mm[index]!;
      const clearance = pair.smallest(place.first, place.end, margin + required, above_mm + required);
      if (clearance >= margin + required) continue;
      margin = clearance - required;
      worst = index;
    }
    if (worst < 0) return { margin_mm: margin, pair: -1, state: -1 };
    this.likely = worst;
    return { margin_mm: margin, pair: worst, state: pairs[worst]!.state };
  }

  /** Writes the smallest signed clearance of every pair: `below_mm` itself means that or more, `above_mm` or less an upper bound. */
  everyPair(
    place: PlacePoses,
    out: Float64Array,
    { below_mm = Infinity, above_mm = -Infinity }: PlaceLimits = {},
  ): void {
    this.goTo(place);
    const { pairs } = this;
    for (let i = 0; i < pairs.length; i++) out[i] = pairs[i]!.smallest(place.first, place.end, below_mm, above_mm);
  }

  private goTo(place: PlacePoses): void {
    for (const body of this.bodies) body.goTo(place, this.frameCount);
  }
}
