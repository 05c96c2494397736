import { POSE_SIZE } from "../maths/pose.ts";
import type { MotionBound } from "./bound.ts";
import type { TravelInterval } from "./intervals.ts";
import type { RelativeMotion } from "./motion.ts";
import type { PairGauge } from "./pairState.ts";
import { StateHeap, type TrackState } from "./sweepHeap.ts";

/** Parts into which the range is cut before the bounds say where to look closer. */
const FIRST_PARTS = 2;
/** Distance of states in what is worth plotting, mm of travel. */
const PLOT_STEP_mm = 5;
/** A change of sign is halved until it is bracketed this closely, mm of travel. */
const END_mm = 0.05;
/** An overlap (or a gap within a clash) no larger than this may stay unseen between two states, mm. */
export const UNSEEN_mm = 0.1;

/**
 * The signed clearance of one pair over the travel of one variant: measured states, and between each two of them a proven
 * lower bound (bound.ts). Refining halves intervals until nothing that matters can hide in one.
 */
export class SweepTrack {
  readonly motion: RelativeMotion;
  /** The state of the smallest signed clearance so far. */
  worst: TrackState;
  /** The measured states are linked from here, travel ascending; between each two the clearance is at least `lower_mm`. */
  readonly first: TrackState;
  private readonly bound: MotionBound;
  private readonly gauge: PairGauge;
  private readonly onMeasure: () => void;
  private readonly heap = new StateHeap();
  private readonly pose = new Float64Array(POSE_SIZE);

  /** Measures the ends and the middle of the range. `onMeasure` is called before each state and may throw to stop. */
  constructor(motion: RelativeMotion, bound: MotionBound, gauge: PairGauge, onMeasure: () => void) {
    this.motion = motion;
    this.bound = bound;
    this.gauge = gauge;
    this.onMeasure = onMeasure;
    const { from_mm, to_mm, still } = motion;
    this.first = this.measure(from_mm, null);
    this.worst = this.first;
    if (to_mm <= from_mm) return;
    // a pair that stands still has one state, written down at both ends
    const steps = still ? 1 : FIRST_PARTS;
    let last = this.first;
    for (let i = 1; i <= steps; i++) {
      const travel = i === steps ? to_mm : from_mm + ((to_mm - from_mm) * i) / steps;
      const state = still ? { ...last, travel_mm: travel } : this.measure(travel, last);
      last.next = state;
      last = state;
    }
    for (let state = this.first; state.next !== null; state = state.next) this.boundAfter(state);
  }

  /**
   * Halves intervals, the lowest lower bound first, until none of them can hold a clearance below `enough(worst)`, which
   * is asked again for every interval, for the worst state so far.
   */
  refineWorst(enough: (worst_mm: number) => number): void {
    let lowest = this.heap.lowest();
    while (lowest !== null && lowest.lower_mm < enough(this.worst.clearance_mm)) {
      this.halve(lowest);
      lowest = this.heap.lowest();
    }
  }

  /** Halves the intervals on both sides of the worst state until neither can hold anything worse by more than this. */
  polishWorst(short_mm: number): void {
    for (;;) {
      const { worst } = this;
      const before = this.before(worst);
      const enough = worst.clearance_mm - short_mm;
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

  /** Halves intervals over 5 mm of travel in which the clearance may be below the limit, so that plots look right. */
  refinePlot(limit_mm: number): void {
    if (this.motion.still) return;
    let state = this.first;
    while (state.next !== null) {
      if (state.lower_mm >= limit_mm || state.next.travel_mm - state.travel_mm <= PLOT_STEP_mm) state = state.next;
      else this.halve(state);
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

  /** [travel, clearance] of every measured state, travel ascending. */
  profile(): Float64Array {
    const values: number[] = [];
    for (let state: TrackState | null = this.first; state !== null; state = state.next) {
      values.push(state.travel_mm, state.clearance_mm);
    }
    return Float64Array.from(values);
  }

  /** Measures a state anew, so that the gauge's state holds its points. */
  revisit(state: TrackState): void {
    this.setHint(state);
    this.gauge.measure(this.motion.poseAt(state.travel_mm, this.pose), false);
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

  private insert(state: TrackState, travel_mm: number): void {
    const middle = this.measure(travel_mm, state);
    middle.next = state.next;
    state.next = middle;
    this.boundAfter(state);
    this.boundAfter(middle);
  }

  /** `near`: a measured state close by, or null. */
  private measure(travel_mm: number, near: TrackState | null): TrackState {
    this.onMeasure();
    // neither body gets into the other without their surfaces meeting first
    const apart = near !== null && near.clearance_mm > this.bound.path(near.travel_mm, travel_mm);
    if (near !== null) this.setHint(near);
    this.gauge.measure(this.motion.poseAt(travel_mm, this.pose), apart);
    const { clearance_mm, witness } = this.gauge.state;
    const state: TrackState = {
      travel_mm,
      clearance_mm,
      triangleA: witness.triangleA,
      triangleB: witness.triangleB,
      direction: Float64Array.from(witness.direction),
      next: null,
      lower_mm: Number.NEGATIVE_INFINITY,
      place: -1,
    };
    if (near !== null && clearance_mm < this.worst.clearance_mm) this.worst = state;
    return state;
  }

  private setHint(near: TrackState): void {
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

/**
 * Lower bound of the signed clearance between two states of clearance g0 and g1 (or more) that are `path` apart. `sagAt`:
 * how far the distance sags below its chord at most if it is nowhere less than a number above 0.
 */
export function lowestBetween(g0: number, g1: number, path: number, sagAt: (least_mm: number) => number): number {
  if (Math.min(g0, g1) === Number.POSITIVE_INFINITY) return g0;
  let lower = Math.min(g0, g1, (g0 + g1 - path) / 2);
  // the better the bound, the less the chord can sag: each round is proved by the one before
  for (let round = 0; round < 4 && lower > 0; round++) {
    const better = lowestBelowChord(g0, g1, sagAt(lower));
    if (better <= lower) break;
    lower = better;
  }
  return lower;
}

/**
 * The least of g0 + (g1 − g0)·s − 4·sag·s·(1 − s) over s in [0, 1]: both the bend and the jumps of MotionBound.sag lower a
 * chord by no more than that share of it.
 */
export function lowestBelowChord(g0: number, g1: number, sag: number): number {
  const slope = Math.abs(g1 - g0);
  if (slope >= 4 * sag) return Math.min(g0, g1);
  const lean = slope / (4 * sag);
  return (g0 + g1) / 2 - sag * (1 + lean * lean);
}
