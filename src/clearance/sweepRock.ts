import type { TravelInterval } from "./intervals.ts";
import type { TrackState } from "./sweepHeap.ts";
import { lowestBetween, needAbove } from "./sweepLowest.ts";
import { type SweepTrack, type TrackGoal, type TrackHint, UNSEEN_mm } from "./sweepTrack.ts";
import type { Rock, RockBound } from "./types.ts";

/** Without a bound of the motion, shares are looked at this close to each other. */
const UNBOUNDED_SHARE = 1 / 16;
/** Bounds that close to what was measured get no better by halving travel, mm. */
const TIGHT_mm = 1e-9;
/** Travel is halved where it can win more than shares can, or so much of it beyond what is needed that a few times will do. */
const WORTH_HALVING = 0.25;

/** The travel of one pair at one share of a rock. */
export interface ShareTrack {
  readonly share: number;
  readonly track: SweepTrack;
}

/** All states between two shares and two travels; both tracks cover the travel. */
interface Cell {
  readonly low: ShareTrack;
  readonly high: ShareTrack;
  readonly from_mm: number;
  readonly to_mm: number;
}

/** What must not hide between the shares. */
export interface RockGoal {
  /** No clearance below this, asked again for every interval. */
  enough(): number;
  /** Travels outside of which no overlap deeper than 0.1 mm; null: overlaps are not asked for. */
  clashes(): readonly TravelInterval[] | null;
}

/**
 * The signed clearance of one pair over travel × share, the way from rest (share 0) to a powertrain pose (share 1). At any
 * one travel no point moves by more than the speeds of the two bodies times the difference of two shares against the
 * other body, and is accelerated by no more than their bends; so the bounds of SweepTrack, first and second order (bound.ts),
 * hold across shares too: between two shares the clearance at a travel is at least what `lowestBetween` makes of the two
 * tracks' own lower bounds there. Where that leaves room for what must not hide, a track at the share in the middle is
 * added, over that stretch of travel alone.
 */
export class RockSweep {
  readonly from_mm: number;
  readonly to_mm: number;
  readonly rest: ShareTrack;
  readonly extreme: ShareTrack;
  /** Tracks at shares in between, in the order in which they were needed. */
  readonly between: ShareTrack[] = [];
  private readonly way: Way;
  private readonly trackAt: BetweenMaker;
  private cells: Cell[];

  /** `rest` may cover more travel than `extreme`; a rock holds over the latter's. */
  constructor(rock: Rock, rest: SweepTrack, extreme: SweepTrack, trackAt: BetweenMaker) {
    this.from_mm = extreme.motion.from_mm;
    this.to_mm = extreme.motion.to_mm;
    this.rest = { share: 0, track: rest };
    this.extreme = { share: 1, track: extreme };
    this.way = wayOf(rock);
    this.trackAt = trackAt;
    this.cells = [{ low: this.rest, high: this.extreme, from_mm: this.from_mm, to_mm: this.to_mm }];
  }

  /** The smallest clearance measured at any share. */
  get worst_mm(): number {
    return Math.min(this.worst.track.worst_mm, this.atRest_mm);
  }

  /** What the pose is told by: the worst share in between where it is worse than both ends, otherwise the pose itself. */
  get told(): ShareTrack {
    const { worst } = this;
    return worst.track.worst_mm < this.atRest_mm ? worst : this.extreme;
  }

  /** The smallest clearance measured at rest, within the travel of the rock. */
  private get atRest_mm(): number {
    let least = Number.POSITIVE_INFINITY;
    for (let state: TrackState | null = this.rest.track.first; state !== null; state = state.next) {
      const counts = state.travel_mm >= this.from_mm && state.travel_mm <= this.to_mm;
      if (counts) least = Math.min(least, state.measured_mm);
    }
    return least;
  }

  /** The track with the smallest clearance of all above rest. */
  private get worst(): ShareTrack {
    return this.between.reduce(
      (worst, each) => (each.track.worst_mm < worst.track.worst_mm ? each : worst),
      this.extreme,
    );
  }

  /** Adds states and tracks until nothing below the goal can hide between the shares. */
  settle(goal: RockGoal): void {
    const open = this.cells;
    this.cells = [];
    for (let cell = takeWorst(open); cell !== null; cell = takeWorst(open)) {
      const clashes = goal.clashes();
      const stretches = this.openStretches(cell, goal, clashes);
      let settledTo_mm = cell.from_mm;
      for (const [from_mm, to_mm] of stretches) {
        if (from_mm > settledTo_mm) this.cells.push({ ...cell, from_mm: settledTo_mm, to_mm: from_mm });
        settledTo_mm = to_mm;
        const middle = this.addBetween(cell, from_mm, to_mm, goal);
        middle.track.refineWorst();
        if (clashes !== null) middle.track.refineClashes();
        open.push({ low: cell.low, high: middle, from_mm, to_mm }, { low: middle, high: cell.high, from_mm, to_mm });
      }
      if (settledTo_mm < cell.to_mm || stretches.length === 0) this.cells.push({ ...cell, from_mm: settledTo_mm });
    }
  }

  private addBetween({ low, high }: Cell, from_mm: number, to_mm: number, goal: RockGoal): ShareTrack {
    const share = (low.share + high.share) / 2;
    const halfWidth = (high.share - low.share) / 2;
    const near = stateBefore(low.track.first, (from_mm + to_mm) / 2);
    const wanted: TrackGoal = {
      floor: () => goal.enough(),
      told_mm: Number.NEGATIVE_INFINITY,
      reserve: (floor_mm) => reserveOf(this.way, halfWidth, floor_mm),
    };
    const middle = { share, track: this.trackAt(share, from_mm, to_mm, wanted, near) };
    this.between.push(middle);
    return middle;
  }

  /**
   * Stretches of travel of a cell in which something may hide, ascending. Where this is because the tracks' own intervals are
   * long, rather than the way between the shares, they are halved first.
   */
  private openStretches(cell: Cell, goal: RockGoal, clashes: readonly TravelInterval[] | null): TravelInterval[] {
    const { low, high } = cell;
    const width = high.share - low.share;
    if (!Number.isFinite(this.way.speed_mm) && width <= UNBOUNDED_SHARE) return [];
    const found: [number, number][] = [];
    let from = cell.from_mm;
    let p = low.track.first;
    let q = high.track.first;
    for (;;) {
      p = stateBefore(p, from);
      q = stateBefore(q, from);
      const to = Math.min(p.next?.travel_mm ?? cell.to_mm, q.next?.travel_mm ?? cell.to_mm, cell.to_mm);
      const enough = goal.enough();
      const unseen = clashes === null ? [] : outside(clashes, from, to);
      const floor = unseen.length > 0 ? Math.max(enough, -UNSEEN_mm) : enough;
      const lower = this.lowest(lowerOf(p), lowerOf(q), width);
      if (lower < floor) {
        // what rest does beyond the rock's travel must not count
        if (low.track.measureAt(this.from_mm) || low.track.measureAt(this.to_mm)) continue;
        if (strengthened(low.track, p, floor) || strengthened(high.track, q, floor)) continue;
        const tightest = this.lowest(leastOf(p), leastOf(q), width);
        const ofTravel = tightest - lower;
        const ofShare = Math.min(lowerOf(p), lowerOf(q)) - lower;
        const helps = tightest >= floor && (ofTravel > ofShare || tightest - floor >= ofTravel * WORTH_HALVING);
        if (helps && ofTravel > TIGHT_mm) {
          if (leastOf(p) - lowerOf(p) > leastOf(q) - lowerOf(q)) low.track.halve(p);
          else high.track.halve(q);
          continue;
        }
        for (const stretch of lower < enough ? [[from, to] as const] : unseen) join(found, stretch);
      }
      if (to >= cell.to_mm) return found;
      from = to;
    }
  }

  /** Lower bound between clearances g0 and g1 at one travel and two shares `width` apart. */
  private lowest(g0: number, g1: number, width: number): number {
    return lowestBetween(g0, g1, this.way.speed_mm * width, (least_mm) => sagOf(this.way, width, least_mm));
  }
}

/** Adds a track at a share over a stretch of travel. */
type BetweenMaker = (
  share: number,
  from_mm: number,
  to_mm: number,
  goal: TrackGoal,
  hint: TrackHint | null,
) => SweepTrack;

/** The bounds of both bodies of a pair together. */
type Way = RockBound;

export function wayOf({ a, b }: Rock): Way {
  return { speed_mm: a.speed_mm + b.speed_mm, bend_mm: a.bend_mm + b.bend_mm };
}

/** What clearances at shares `width` apart must have to spare above a floor so that nothing below it is in between. */
export function reserveOf(way: Way, width: number, floor_mm: number): number {
  return needAbove(floor_mm, way.speed_mm * width, (least_mm) => sagOf(way, width, least_mm));
}

function sagOf({ speed_mm, bend_mm }: Way, width: number, least_mm: number): number {
  return (((speed_mm * speed_mm) / least_mm + bend_mm) * width * width) / 8;
}

/**
 * Whether one of the ends of the interval that begins at this state was measured more closely. Rest may be known well enough
 * for its own worst, beyond the rock's travel, and yet too loosely for the way: no share between would ever settle that.
 */
function strengthened(track: SweepTrack, state: TrackState, floor_mm: number): boolean {
  const isBetter = (end: TrackState): boolean =>
    track.strengthen(end) || (end.clearance_mm < floor_mm && track.measureExactly(end));
  return isBetter(state) || (state.next !== null && isBetter(state.next));
}

/** The cell that may hold the worst, taken out; null if there is none. */
function takeWorst(cells: Cell[]): Cell | null {
  const worstOf = ({ low, high }: Cell) => low.track.worst_mm + high.track.worst_mm;
  let worst = 0;
  for (let i = 1; i < cells.length; i++) if (worstOf(cells[i]!) < worstOf(cells[worst]!)) worst = i;
  return cells.splice(worst, 1)[0] ?? null;
}

/** The last state at or before a travel, looked for from one that is. */
function stateBefore(from: TrackState, travel_mm: number): TrackState {
  let state = from;
  while (state.next !== null && state.next.travel_mm <= travel_mm) state = state.next;
  return state;
}

/** The least that can be from a state to the next. */
function lowerOf(state: TrackState): number {
  return state.next === null ? state.clearance_mm : state.lower_mm;
}

/** The lesser of what was measured at a state and the next. */
function leastOf({ clearance_mm, next }: TrackState): number {
  return next === null ? clearance_mm : Math.min(clearance_mm, next.clearance_mm);
}

/** What of [from, to] lies in none of the stretches, which ascend. */
function outside(stretches: readonly TravelInterval[], from: number, to: number): TravelInterval[] {
  const left: TravelInterval[] = [];
  let at = from;
  for (const [start, end] of stretches) {
    if (end < at) continue;
    if (start > to) break;
    if (start > at) left.push([at, start]);
    at = end;
    if (at >= to) return left;
  }
  left.push([at, to]);
  return left;
}

/** Adds a stretch to ascending ones, to the last one if they touch. */
function join(stretches: [number, number][], [from, to]: TravelInterval): void {
  const last = stretches.at(-1);
  if (last && from <= last[1]) last[1] = to;
  else stretches.push([from, to]);
}
