import { extentOf } from "./bound.ts";
import type { Ball } from "./excuse.ts";
import type { CollisionTree } from "./kernel.ts";
import { PlaceBody, type PlacePoses } from "./placeBody.ts";
import { createDeferredGauge, createGuardedGauge, createPlaceGauge, type PlaceGauge } from "./placeGauge.ts";
import { PlacePair } from "./placePair.ts";
import { farthestRedrawn } from "./placeRedraw.ts";
import { ballsOf } from "./sweep.ts";
import { type ClippedBody, TreeShelf } from "./sweepShelf.ts";
import { isSameMesh } from "./treePlan.ts";
import type { SweepBody, SweepPair } from "./types.ts";

export type { PlacePoses } from "./placeBody.ts";

/** A body and what carries it. */
export interface CarriedBody {
  readonly body: SweepBody;
  /** Which of a place's poses; null: it stands as it is drawn. */
  readonly frame: number | null;
}

interface KeptBody {
  readonly carried: PlaceBody;
  body: SweepBody;
  /** Of the whole body as it was drawn when one was asked for last. */
  tree: CollisionTree;
  /** It is that of the body as it is drawn now. */
  isTreeNow: boolean;
  /** The drawing before tells of this one, as nothing was forgotten since. */
  isFollowed: boolean;
  clip: (balls: readonly Ball[]) => ClippedBody;
}

/** Keys of two bodies, what is required between them, and where their joints excuse surface: as a sweep takes it. */
export interface SearchedPair extends Pick<SweepPair, "a" | "b" | "required_mm" | "excuses"> {
  /** States from this number on do not matter to the pair (it is there as it is in earlier ones); left out: all matter. */
  readonly until?: number;
}

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
  /** This and less are not told apart: what is told is then an upper bound. Where every overlap is that bad, no depth is measured. */
  readonly above_mm?: number;
}

/** Trees of drawings that are kept, so that the next can be refitted from them, come to so many bytes. */
const REDRAWN_BYTES = 20_000_000;

/** Where PlaceSearches of the same bodies that are drawn anew keep their trees. */
export function shelfOfDrawings(): TreeShelf {
  return new TreeShelf(undefined, REDRAWN_BYTES);
}

/**
 * The clearances of a corner for very many places of a hard point, one place after another, each a little beside the one
 * before.
 *
 * What is known of a pair in a state bounds it at the next place: its clearance changes by no more than the farthest that a
 * point of the one body goes as the other sees it (placeBound.ts). A pair is measured only where that bound cannot prove
 * that it does not matter, starting from its nearest triangles of the last time, and only as far as it matters. What is
 * told does therefore not depend on the order of the places, but for rounding: 1e-9 mm, 1e-6 of a depth (what a sampled depth
 * may fall short, where a body is drawn anew). The time does: neighbours should follow each other (placeOrder.ts).
 *
 * Clearances are signed as a sweep's are: the distance of the two surfaces; while the bodies overlap, one wholly inside the
 * other included, minus the depth, exact over convex pieces, elsewhere that of the deepest point found (depthDeepest.ts).
 *
 * A straight link that is cut to suit is best given as two rigid pieces, one carried by either end, that slide in each other:
 * together they are the link of any length. What else changes its shape from place to place is drawn anew (`redraw`).
 *
 * **Only the states that are handed in are looked at.** Between them, and on the way from one powertrain pose to another,
 * nothing is proved: bodies may touch there. A place that this finds has to be swept before anybody builds on it.
 */
export class PlaceSearch {
  private readonly frameCount: number;
  private readonly bodies: readonly PlaceBody[];
  private readonly pairs: readonly PlacePair[];
  private readonly required_mm: Float64Array;
  private readonly kept: ReadonlyMap<string, KeptBody>;
  private readonly searched: readonly SearchedPair[];
  /** Trees of bodies that are drawn anew: of each the last few drawings. */
  private readonly redrawn: TreeShelf;
  private likely = 0;

  /**
   * For `frameCount` poses at each state. `alike`: of each state an earlier one, or itself, in which most is where it is there, or how
   * many states there are. Trees come from the shelf, those of drawings from `redrawn`, which
   * is emptied by `forget`. Throws if a pair names no body.
   */
  constructor(
    shelf: TreeShelf,
    bodies: readonly CarriedBody[],
    pairs: readonly SearchedPair[],
    frameCount: number,
    alike: Int32Array | number,
    redrawn = shelfOfDrawings(),
  ) {
    const first = typeof alike === "number" ? Int32Array.from({ length: alike }, (_, state) => state) : alike;
    const stateCount = first.length;
    this.redrawn = redrawn;
    this.kept = new Map(
      bodies.map(({ body, frame }) => {
        const { extent, tree } = shelf.prepare(body);
        const carried = new PlaceBody(extent, frame, first);
        const clip = (balls: readonly Ball[]) => shelf.clip(body, balls);
        return [body.key, { carried, body, tree, isTreeNow: true, isFollowed: false, clip }];
      }),
    );
    this.frameCount = frameCount;
    this.bodies = [...this.kept.values()].map(({ carried }) => carried);
    this.searched = pairs;
    this.pairs = pairs.map(
      (pair) =>
        new PlacePair(
          this.find(pair.a).carried,
          this.find(pair.b).carried,
          this.gaugeOf(pair),
          Math.min(stateCount, pair.until ?? stateCount),
        ),
    );
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

  /**
   * Writes the smallest margin of every pair (clearance less what is required): `below_mm` itself means that or more, `above_mm`
   * or less an upper bound.
   */
  everyMargin(
    place: PlacePoses,
    out: Float64Array,
    { below_mm = Infinity, above_mm = -Infinity }: PlaceLimits = {},
  ): void {
    this.goTo(place);
    const { pairs, required_mm } = this;
    for (let i = 0; i < pairs.length; i++) {
      const required = required_mm[i]!;
      const limit = below_mm + required;
      const clearance = pairs[i]!.smallest(place.first, place.end, limit, above_mm + required);
      // the limit less what is required may round to less than `below_mm`
      out[i] = clearance >= limit ? below_mm : clearance - required;
    }
  }

  /** Whether a body has that key. */
  has(key: string): boolean {
    return this.kept.has(key);
  }

  /** The state at which that pair's smallest clearance was found last. */
  stateOf(pair: number): number {
    return this.pairs[pair]!.state;
  }

  /**
   * Forgets every place so far. What is told of the next ones is then, to the last bit, what a new search would tell: a run
   * of places that begins with this comes out the same whoever does it. Bodies that are drawn anew have to be so at the next.
   */
  forget(): void {
    this.likely = 0;
    this.redrawn.clear();
    for (const kept of this.kept.values()) {
      kept.carried.forget();
      kept.isFollowed = false;
    }
    for (const pair of this.pairs) pair.forget();
  }

  /**
   * From the next place on, the body of that key is this one, drawn anew (an equal `content` means an equal solid, as ever).
   * If it has the triangles of the drawing before, only with their corners elsewhere, what is known of its pairs goes on to bound
   * them, by how far the corners moved; else they are measured anew. Its tree is made once a pair is measured. Throws if no body has
   * that key.
   */
  redraw(body: SweepBody): void {
    const kept = this.find(body.key);
    const before = kept.body.solid;
    const isAlike = kept.isFollowed && isSameMesh(before, body.solid);
    const moved_mm = isAlike ? farthestRedrawn(before, body.solid) : null;
    kept.body = body;
    kept.isTreeNow = false;
    kept.isFollowed = true;
    kept.clip = (balls) => this.redrawn.clip(body, balls);
    kept.carried.redraw(extentOf(body.solid.positions), moved_mm ?? 0);
    this.searched.forEach((pair, i) => {
      if (pair.a !== body.key && pair.b !== body.key) return;
      const isWhole = pair.excuses.length === 0;
      const gauge = createDeferredGauge(isWhole, () => this.gaugeOf(pair));
      // a clipped surface has other triangles, however little the whole one moved
      this.pairs[i]!.renew(gauge, moved_mm === null ? "nothing" : isWhole ? "all" : "whole");
    });
  }

  private gaugeOf({ a, b, excuses }: SearchedPair): PlaceGauge | null {
    const [first, second] = [this.find(a), this.find(b)];
    const [treeA, treeB] = [this.treeOf(first), this.treeOf(second)];
    const cut = (): PlaceGauge | null =>
      createPlaceGauge(first.clip(ballsOf(excuses, "centreInA")), second.clip(ballsOf(excuses, "centreInB")));
    return excuses.length > 0 ? createGuardedGauge(treeA, treeB, cut) : cut();
  }

  private treeOf(kept: KeptBody): CollisionTree {
    if (kept.isTreeNow) return kept.tree;
    const { key } = kept.body;
    const { tree } = this.redrawn.prepare(kept.body);
    // triangles are numbered as they are sorted
    if (tree.right !== kept.tree.right) {
      this.searched.forEach((pair, i) => {
        if (pair.a === key || pair.b === key) this.pairs[i]!.forgetHints();
      });
    }
    kept.tree = tree;
    kept.isTreeNow = true;
    return tree;
  }

  private find(key: string): KeptBody {
    const found = this.kept.get(key);
    if (found === undefined) throw new Error(`no body has the key ${key}`);
    return found;
  }

  private goTo(place: PlacePoses): void {
    for (const body of this.bodies) body.goTo(place, this.frameCount);
  }
}
