import { POSE_SIZE } from "../maths/pose.ts";
import type { MotionBound } from "./bound.ts";
import type { TravelInterval } from "./intervals.ts";
import { type Leeway, leastWithin } from "./kernel.ts";
import type { RelativeMotion } from "./motion.ts";
import type { PairGauge } from "./pairState.ts";
import { StateHeap, type TrackState } from "./sweepHeap.ts";
import { lowestBetween, needAbove } from "./sweepLowest.ts";

/** Parts into which the range is cut before the bounds say where to look closer. */
const FIRST_PARTS = 2;
/** Distance of states in what is worth plotting, mm of travel. */
const PLOT_STEP_mm = 5;
/** A change of sign is halved until it is bracketed this closely, mm of travel. */
const END_mm = 0.05;
/** An overlap (or a gap within a clash) no larger than this may stay unseen between two states, mm. */
export const UNSEEN_mm = 0.1;
/** States that come as near as this above the floor are always measured: more than any tolerance beside a clear worst state. */
const SPARE_mm = 0.2;
/** How much of what a state is above the floor may be left open; and where no floor is known yet, of what it is above what is told. */
const LEEWAY = 0.25;
const FIRST_LEEWAY = 0.1;
const ROUNDING_mm = 1e-9;

/** How closely a track has to be known. */
export interface TrackGoal {
  /** In a track whose smallest clearance so far is `worst_mm`, none below this may stay unseen. Infinity: nothing is known yet. */
  floor(worst_mm: number): number;
  /** Clearances below this are plotted, so they are measured exactly. */
  readonly told_mm: number;
  /** What a clearance must have to spare above such a floor so that nothing below it can hide on the way to another track. */
  reserve(floor_mm: number): number;
}

/** A hint for the first state: the nearest triangles of a similar state of the same pair. */
export type TrackHint = Pick<TrackState, "triangleA" | "triangleB" | "direction">;

/**
 * The signed clearance of one pair over the travel of one variant: measured states, and between each two of them a proven
 * lower bound (bound.ts). Refining halves intervals until nothing that matters can hide in one. All states share the best
 * so far: one that is so far above it that the intervals beside it are settled is only proved to be that far.
 */
export class SweepTrack {
  readonly motion: RelativeMotion;
  /** The state of the smallest signed clearance so far; null while no state came near enough to be measured exactly. */
  worst: TrackState | null = null;
  /** The measured states are linked from here, travel ascending; between each two the clearance is at least `lower_mm`. */
  readonly first: TrackState;
  private readonly bound: MotionBound;
  private readonly gauge: PairGauge;
  private readonly goal: TrackGoal;
  private readonly onMeasure: () => void;
  private readonly heap = new StateHeap();
  private readonly pose = new Float64Array(POSE_SIZE);
  private readonly allowed: Leeway = { floor_mm: 0, share: 0 };

  /** Measures the ends and the middle of the range. `onMeasure` is called before each state and may throw to stop. */
  constructor(
    motion: RelativeMotion,
    bound: MotionBound,
    gauge: PairGauge,
    goal: TrackGoal,
    onMeasure: () => void,
    hint: TrackHint | null,
  ) {
    this.motion = motion;
    this.bound = bound;
    this.gauge = gauge;
    this.goal = goal;
    this.onMeasure = onMeasure;
    const { from_mm, to_mm, still } = motion;
    if (still || to_mm <= from_mm) {
      this.first = this.measure(from_mm, from_mm, from_mm, null, hint);
      // a pair that stands still has one state, written down at both ends
      if (to_mm > from_mm) this.first.next = { ...this.first, travel_mm: to_mm };
    } else this.first = this.measureParts(hint);
    for (let state = this.first; state.next !== null; state = state.next) this.boundAfter(state);
  }

  /** The smallest clearance measured so far, Infinity while there is none. */
  get worst_mm(): number {
    return this.worst?.measured_mm ?? Number.POSITIVE_INFINITY;
  }

  /** No clearance of the track is below this. */
  get lowest_mm(): number {
    return this.heap.lowest()?.lower_mm ?? this.first.clearance_mm;
  }

  /** Halves intervals, the lowest lower bound first, until none of them can hold a clearance below the goal's floor. */
  refineWorst(): void {
    let lowest = this.heap.lowest();
    while (lowest !== null && lowest.lower_mm < this.goal.floor(this.worst_mm)) {
      if (!this.strengthen(lowest) && !this.strengthen(lowest.next!)) this.halve(lowest);
      lowest = this.heap.lowest();
    }
  }

  /** Halves the intervals on both sides of the worst state until neither can hold anything worse by more than this. */
  polishWorst(short_mm: number): void {
    for (;;) {
      const { worst } = this;
      if (worst === null) return;
      const before = this.before(worst);
      const enough = worst.measured_mm - short_mm;
      if (before !== null && before.lower_mm < enough) this.halve(before);
      else if (worst.next !== null && worst.lower_mm < enough) this.halve(worst);
      else return;
    }
  }

  /**
   * Halves intervals until each change between overlap and clearance is bracketed within 0.05 mm of travel, and no overlap
   * deeper than 0.1 mm, nor a gap within a clash wider than 0.1 mm (or longer than 0.05 mm of travel), is left unseen.
   */
  refineClashes(): void {
    let state = this.first;
    while (state.next !== null) {
      if (this.isSettled(state, state.next)) state = state.next;
      else this.halve(state);
    }
  }

  /**
   * Halves intervals over 5 mm of travel in which the clearance may be below what is told, so that plots look right, and
   * measures what begins or ends such an interval, and the plot.
   */
  refinePlot(): void {
    const { told_mm } = this.goal;
    if (this.worst_mm >= told_mm) return;
    this.measureExactly(this.first);
    let state = this.first;
    while (state.next !== null) {
      const isLast = state.next.next === null;
      if (state.lower_mm < told_mm || isLast) {
        if (this.measureExactly(state) || this.measureExactly(state.next)) continue;
        if (!this.motion.still && state.lower_mm < told_mm && state.next.travel_mm - state.travel_mm > PLOT_STEP_mm) {
          this.halve(state);
          continue;
        }
      }
      state = state.next;
    }
  }

  /** Stretches of travel in which the bodies overlap, each from the last clear state before to the first one after. */
  clashes(): TravelInterval[] {
    const found: TravelInterval[] = [];
    let from: number | null = null;
    let before: TrackState | null = null;
    for (let state: TrackState | null = this.first; state !== null; before = state, state = state.next) {
      if (state.clearance_mm < 0) from ??= before?.travel_mm ?? state.travel_mm;
      else if (from !== null) {
        found.push([from, state.travel_mm]);
        from = null;
      }
    }
    if (from !== null) found.push([from, this.motion.to_mm]);
    return found;
  }

  /** [travel, clearance] of every state measured exactly, travel ascending. */
  profile(): Float64Array {
    const values: number[] = [];
    for (let state: TrackState | null = this.first; state !== null; state = state.next) {
      if (isExact(state)) values.push(state.travel_mm, state.clearance_mm);
    }
    return Float64Array.from(values);
  }

  /** Measures a state anew, so that the gauge's state holds its points. */
  revisit(state: TrackState): void {
    this.setHint(state);
    this.gauge.measure(this.motion.poseAt(state.travel_mm, this.pose), false, Number.POSITIVE_INFINITY);
  }

  /** Measures the middle between a state and the next. */
  halve(state: TrackState): void {
    this.insert(state, (state.travel_mm + state.next!.travel_mm) / 2);
  }

  /** Measures at this travel too; false where it is outside the range or has its state already. */
  measureAt(travel_mm: number): boolean {
    let state = this.first;
    while (state.next !== null && state.next.travel_mm <= travel_mm) state = state.next;
    if (state.next === null || state.travel_mm >= travel_mm || this.motion.still) return false;
    this.insert(state, travel_mm);
    return true;
  }

  /** Measures a state again if less is proved of it than by now would be asked of it; whether it was. */
  strengthen(state: TrackState): boolean {
    if (isExact(state)) return false;
    const before = this.before(state);
    const from_mm = before?.travel_mm ?? state.travel_mm;
    const to_mm = state.next?.travel_mm ?? state.travel_mm;
    const isFound = state.measured_mm < Number.POSITIVE_INFINITY;
    const below_mm = isFound ? Number.POSITIVE_INFINITY : this.below(from_mm, state.travel_mm, to_mm);
    const wanted = isFound ? leastWithin(state.measured_mm, this.leeway()) : below_mm;
    if (state.clearance_mm >= wanted - ROUNDING_mm) return false;
    this.measureAgain(state, before, below_mm, this.leeway());
    return true;
  }

  /** Measures a state to the last digit; false if it was already. */
  measureExactly(state: TrackState): boolean {
    if (isExact(state)) return false;
    this.measureAgain(state, this.before(state), Number.POSITIVE_INFINITY, undefined);
    return true;
  }

  private measureAgain(
    state: TrackState,
    before: TrackState | null,
    below_mm: number,
    leeway: Leeway | undefined,
  ): void {
    this.take(state, state, below_mm, leeway, true);
    // the twin of a state that stands still
    if (this.motion.still) {
      for (let twin: TrackState | null = this.first; twin !== null; twin = twin.next) {
        twin.measured_mm = state.measured_mm;
        twin.clearance_mm = state.clearance_mm;
        if (twin.next !== null) this.boundAfter(twin);
      }
      return;
    }
    if (before !== null) this.boundAfter(before);
    if (state.next !== null) this.boundAfter(state);
  }

  private before(state: TrackState): TrackState | null {
    let before: TrackState | null = null;
    for (let each = this.first; each !== state; each = each.next!) before = each;
    return before;
  }

  private isSettled(state: TrackState, next: TrackState): boolean {
    if (this.motion.still) return true;
    const clash = state.clearance_mm < 0;
    const narrow = next.travel_mm - state.travel_mm <= END_mm;
    if (clash !== next.clearance_mm < 0) return narrow;
    if (!clash) return state.lower_mm >= -UNSEEN_mm;
    const path = this.bound.path(state.travel_mm, next.travel_mm);
    return narrow || (state.clearance_mm + next.clearance_mm + path) / 2 <= UNSEEN_mm;
  }

  private insert(state: TrackState, travel_mm: number): void {
    const middle = this.measure(travel_mm, state.travel_mm, state.next!.travel_mm, state, null);
    middle.next = state.next;
    state.next = middle;
    this.boundAfter(state);
    this.boundAfter(middle);
  }

  /** Ends and middle: the likeliest to be near comes first, so that it tells how closely the others have to be known. */
  private measureParts(hint: TrackHint | null): TrackState {
    const { from_mm, to_mm } = this.motion;
    const travels = Array.from({ length: FIRST_PARTS + 1 }, (_, i) =>
      i === FIRST_PARTS ? to_mm : from_mm + ((to_mm - from_mm) * i) / FIRST_PARTS,
    );
    const spreads = travels.map((travel) => this.bound.spread(this.motion.poseAt(travel, this.pose)));
    const order = travels.map((_, i) => i).sort((i, j) => spreads[i]! - spreads[j]! || i - j);
    const states: TrackState[] = [];
    for (const i of order) {
      const near = states[order[0]!] ?? null;
      const from = travels[Math.max(0, i - 1)]!;
      const to = travels[Math.min(FIRST_PARTS, i + 1)]!;
      states[i] = this.measure(travels[i]!, from, to, near, hint);
    }
    for (let i = 0; i < FIRST_PARTS; i++) states[i]!.next = states[i + 1]!;
    return states[0]!;
  }

  /** A new state between two travels. `near`: a state of this track that is close by, or null; then `hint` is tried. */
  private measure(
    travel_mm: number,
    from_mm: number,
    to_mm: number,
    near: TrackState | null,
    hint: TrackHint | null,
  ): TrackState {
    const state: TrackState = {
      travel_mm,
      measured_mm: Number.POSITIVE_INFINITY,
      clearance_mm: Number.NEGATIVE_INFINITY,
      triangleA: near?.triangleA ?? hint?.triangleA ?? -1,
      triangleB: near?.triangleB ?? hint?.triangleB ?? -1,
      direction: near?.direction ?? hint?.direction ?? NO_DIRECTION,
      next: null,
      lower_mm: Number.NEGATIVE_INFINITY,
      place: -1,
    };
    // neither body gets into the other without their surfaces meeting first
    const apart = near !== null && near.clearance_mm > this.bound.path(near.travel_mm, travel_mm);
    this.take(state, state, this.below(from_mm, travel_mm, to_mm), this.leeway(), apart);
    return state;
  }

  private take(state: TrackState, hint: TrackHint, below_mm: number, leeway: Leeway | undefined, apart: boolean): void {
    this.onMeasure();
    this.setHint(hint);
    this.gauge.measure(this.motion.poseAt(state.travel_mm, this.pose), apart, below_mm, leeway);
    const { clearance_mm, least_mm, witness } = this.gauge.state;
    state.measured_mm = clearance_mm;
    state.clearance_mm = least_mm;
    if (clearance_mm < Number.POSITIVE_INFINITY) {
      state.triangleA = witness.triangleA;
      state.triangleB = witness.triangleB;
      state.direction = Float64Array.from(witness.direction);
    }
    const isWorse = this.worst === null ? clearance_mm < Number.POSITIVE_INFINITY : clearance_mm < this.worst_mm;
    if (isWorse) this.worst = state;
  }

  /** A state that is far above what matters need not be told from others that are almost as far. */
  private leeway(): Leeway {
    const floor = this.goal.floor(this.worst_mm);
    const known = floor < Number.POSITIVE_INFINITY;
    this.allowed.floor_mm = Math.max(0, this.goal.told_mm, known ? floor : 0);
    this.allowed.share = known ? LEEWAY : FIRST_LEEWAY;
    return this.allowed;
  }

  /** Where a state between two travels need not be measured exactly any more: it settles both intervals beside it. */
  private below(from_mm: number, travel_mm: number, to_mm: number): number {
    // where something overlaps, what matters besides is whether this does
    const floor = Math.max(0, this.goal.floor(this.worst_mm));
    if (floor === Number.POSITIVE_INFINITY) return floor;
    const need = Math.max(this.need(from_mm, travel_mm, floor), this.need(travel_mm, to_mm, floor));
    return Math.max(this.goal.told_mm, floor + Math.max(SPARE_mm, this.goal.reserve(floor) + need));
  }

  private need(from_mm: number, to_mm: number, floor_mm: number): number {
    if (to_mm <= from_mm || this.motion.still) return 0;
    const { bound } = this;
    return needAbove(floor_mm, bound.path(from_mm, to_mm), (least_mm) => bound.sag(from_mm, to_mm, least_mm));
  }

  private setHint(near: TrackHint): void {
    const { witness } = this.gauge.state;
    witness.triangleA = near.triangleA;
    witness.triangleB = near.triangleB;
    witness.direction.set(near.direction);
  }

  private boundAfter(state: TrackState): void {
    state.lower_mm = this.motion.still ? state.clearance_mm : this.lowerBound(state, state.next!);
    this.heap.put(state);
  }

  private lowerBound(s0: TrackState, s1: TrackState): number {
    const { bound } = this;
    const path = bound.path(s0.travel_mm, s1.travel_mm);
    return lowestBetween(s0.clearance_mm, s1.clearance_mm, path, (least_mm) =>
      bound.sag(s0.travel_mm, s1.travel_mm, least_mm),
    );
  }
}

function isExact({ measured_mm, clearance_mm }: TrackState): boolean {
  return measured_mm === clearance_mm;
}

const NO_DIRECTION = new Float64Array(3);
