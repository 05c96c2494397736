import { POSE_SIZE } from "../maths/pose.ts";
import { createWitness } from "./kernel.ts";
import { type PlaceBody, relativePose } from "./placeBody.ts";
import { boxesApart, type Change, changeBetween, nearBox } from "./placeBound.ts";
import { createPlaceLook, type PlaceGauge, type Wanted } from "./placeGauge.ts";

/** Poses nearer than this are one, mm: the distance in the one is that in the other. */
const SAME_mm = 1e-10;
/** Bodies that are no nearer than this are apart, mm. */
const LEAST_APART_mm = 1e-9;
/**
 * A state that has to be measured is measured so far beyond what matters that it can be let alone for so many more steps
 * like the last one, and at least by so many mm. Measured on the fine synthetic corner: 2 to 16 take about as long.
 */
const AHEAD_STEPS = 8;
const AHEAD_LEAST_mm = 0.25;
/** Points count as near that are farther apart than the nearest by so many times as much as it is measured ahead. */
const NEAR_AHEADS = 1;

/** What is known of one pair at each state, from the last place at which it was measured there. */
export class PlacePair {
  /** How often it was measured. */
  asked = 0;
  /** The state of the smallest clearance that was found last. */
  state = 0;
  private readonly a: PlaceBody;
  private readonly b: PlaceBody;
  private readonly stateCount: number;
  /** Null: nothing to measure. */
  private gauge: PlaceGauge | null;
  private readonly known: Uint8Array;
  /** Per state, at the relative pose that was measured: what the look told (PlaceLook). */
  private readonly poses: Float64Array;
  private readonly clearance_mm: Float64Array;
  private readonly least_mm: Float64Array;
  private readonly most_mm: Float64Array;
  private readonly apartFor_mm: Float64Array;
  /** Per state: whether that holds whatever joints excuse. */
  private readonly ofWhole: Uint8Array;
  /** Per state: how far both bodies' points had come by being drawn elsewhere. */
  private readonly redrawn_mm: Float64Array;
  /** Per state, at that pose: the parts of a's and b's boxes that hold all points nearer than the least clearance and this. */
  private readonly near: Float64Array;
  private readonly beyond_mm: Float64Array;
  private readonly triangles: Int32Array;
  private readonly directions: Float64Array;
  /**
   * Per state: the clearance is not below this less the ways that both bodies have come in all, in car axes; of bodies
   * that were apart that holds until it comes to nothing.
   */
  private readonly floor_mm: Float64Array;
  /** The same for all states from the first to before the end of these, by the farthest ways. */
  private lowestFloor_mm = Number.NEGATIVE_INFINITY;
  private floorFirst = 0;
  private floorEnd = 0;
  private readonly relative = new Float64Array(POSE_SIZE);
  private readonly witness = createWitness();
  private readonly told = createPlaceLook();
  private readonly wanted: Wanted = { below_mm: 0, ahead_mm: 0, depth: true };
  private readonly change: Change = { anywhere_mm: 0, near_mm: 0 };

  constructor(a: PlaceBody, b: PlaceBody, gauge: PlaceGauge | null, stateCount: number) {
    this.a = a;
    this.b = b;
    this.gauge = gauge;
    this.stateCount = stateCount;
    this.known = new Uint8Array(stateCount);
    this.poses = new Float64Array(POSE_SIZE * stateCount);
    this.clearance_mm = new Float64Array(stateCount);
    this.least_mm = new Float64Array(stateCount);
    this.most_mm = new Float64Array(stateCount);
    this.apartFor_mm = new Float64Array(stateCount);
    this.ofWhole = new Uint8Array(stateCount);
    this.redrawn_mm = new Float64Array(stateCount);
    this.near = new Float64Array(12 * stateCount);
    this.beyond_mm = new Float64Array(stateCount);
    this.triangles = new Int32Array(2 * stateCount).fill(-1);
    this.directions = new Float64Array(3 * stateCount);
    this.floor_mm = new Float64Array(stateCount);
  }

  /**
   * Goes on with bodies of which one is drawn anew. Kept: nothing, where what is known says nothing of them; all, or what is known of
   * the whole bodies whatever joints excuse, where they have the same triangles, and how far those moved is in the bodies' ways.
   */
  renew(gauge: PlaceGauge | null, kept: "all" | "whole" | "nothing"): void {
    this.gauge = gauge;
    if (kept === "nothing") this.forget();
    if (kept !== "whole") return;
    for (let state = 0; state < this.stateCount; state++) if (this.ofWhole[state] === 0) this.forgetState(state);
  }

  /** The triangles of a body are numbered otherwise from here on. */
  forgetHints(): void {
    this.triangles.fill(-1);
    this.directions.fill(0);
  }

  private forgetState(state: number): void {
    if (this.known[state] === 0) return;
    this.known[state] = 0;
    this.triangles.fill(-1, 2 * state, 2 * state + 2);
    this.directions.fill(0, 3 * state, 3 * state + 3);
    this.lowestFloor_mm = Number.NEGATIVE_INFINITY;
  }

  /** As if nothing had been measured yet. */
  forget(): void {
    this.gauge?.forget();
    this.state = 0;
    this.known.fill(0);
    this.forgetHints();
    this.lowestFloor_mm = Number.NEGATIVE_INFINITY;
    this.floorFirst = 0;
    this.floorEnd = 0;
  }

  /**
   * The smallest signed clearance over the pair's states from `first` to before `last` if it is below `below_mm`, and `state` says
   * where; else `below_mm`. Ends at the first state that proves to be at `enough_mm` or below.
   */
  smallest(first: number, last: number, below_mm: number, enough_mm: number): number {
    const { a, b, gauge } = this;
    if (gauge === null) return below_mm;
    const end = Math.min(last, this.stateCount);
    const farthestWay = a.farthestWay_mm + b.farthestWay_mm;
    const within = first >= this.floorFirst && end <= this.floorEnd;
    if (within && this.lowestFloor_mm - farthestWay >= Math.max(below_mm, LEAST_APART_mm)) return below_mm;
    let smallest = below_mm;
    // the worst of last time first: it is near the worst of this time, and the others need not be measured farther than that
    const likely = this.state;
    for (let k = first - 1; k < end; k++) {
      const state = k < first ? likely : k;
      if (state < first || state >= end || (k >= first && k === likely)) continue;
      const clearance = this.clearanceAt(gauge, state, smallest, enough_mm);
      if (clearance >= smallest) continue;
      smallest = clearance;
      this.state = state;
      if (smallest <= enough_mm) return smallest;
    }
    this.lowestFloor_mm = this.lowestNow(first, end) + farthestWay;
    this.floorFirst = first;
    this.floorEnd = end;
    return smallest;
  }

  /** Lower bound over states that were all looked at. */
  private lowestNow(first: number, end: number): number {
    const { a, b, floor_mm } = this;
    let lowest = Number.POSITIVE_INFINITY;
    for (let state = first; state < end; state++) {
      const now = floor_mm[state]! - a.way_mm[state]! - b.way_mm[state]!;
      if (now < lowest) lowest = now;
    }
    return lowest;
  }

  /** The signed clearance if it is below `below_mm`, or an upper bound of it that is at `enough_mm` or below; else `below_mm` or more. */
  private clearanceAt(gauge: PlaceGauge, state: number, below_mm: number, enough_mm: number): number {
    const { a, b, relative, floor_mm } = this;
    const way = a.way_mm[state]! + b.way_mm[state]!;
    const known = this.known[state] === 1;
    const floor = known ? floor_mm[state]! - way : Number.NEGATIVE_INFINITY;
    if (floor >= below_mm && (floor >= LEAST_APART_mm || this.least_mm[state]! <= 0)) return below_mm;
    relativePose(a, b, state, relative);
    let apartFor = 0;
    if (known) {
      const { change } = this;
      changeBetween(this.poses, POSE_SIZE * state, relative, a.extent, b.extent, this.near, 12 * state, change);
      const redrawn = a.redrawn_mm + b.redrawn_mm - this.redrawn_mm[state]!;
      change.anywhere_mm += redrawn;
      change.near_mm += redrawn;
      const least = this.leastAfter(gauge, state, change);
      apartFor = gauge.isSteady ? least : this.apartFor_mm[state]! - change.anywhere_mm;
      this.keepFloor(gauge, state, least, apartFor, way);
      if (least >= below_mm) return below_mm;
      const clearance = this.clearance_mm[state]!;
      if (clearance > 0 ? change.anywhere_mm <= SAME_mm : clearance <= 0 && change.anywhere_mm === 0) return clearance;
      const most = this.most_mm[state]! + (gauge.isSteady ? change.anywhere_mm : 0);
      if (most <= enough_mm && (gauge.isSteady || change.anywhere_mm === 0)) return most;
    }
    const { wanted } = this;
    wanted.below_mm = Math.max(0, below_mm);
    wanted.ahead_mm = Math.max(AHEAD_LEAST_mm, AHEAD_STEPS * (a.step_mm[state]! + b.step_mm[state]!));
    wanted.depth = enough_mm < 0;
    const boxes_mm = boxesApart(relative, a.extent, b.extent);
    if (boxes_mm >= wanted.below_mm + wanted.ahead_mm) this.takeBoxes(state, boxes_mm);
    else this.measure(gauge, state, apartFor);
    this.keepNear(state, NEAR_AHEADS * wanted.ahead_mm);
    this.keepFloor(gauge, state, this.least_mm[state]!, this.apartFor_mm[state]!, way);
    const clearance = this.clearance_mm[state]!;
    if (!Number.isNaN(clearance)) return clearance;
    return this.most_mm[state]! <= enough_mm ? this.most_mm[state]! : below_mm;
  }

  /**
   * Lower bound of the signed clearance after a change since it was measured: points that were near each other then may have
   * come nearer by the one bound, all others by the other. A depth may change as much as any gap.
   */
  private leastAfter(gauge: PlaceGauge, state: number, { near_mm, anywhere_mm }: Change): number {
    const least = this.least_mm[state]!;
    if (least <= 0) return least - anywhere_mm;
    const after = least - Math.min(anywhere_mm, Math.max(near_mm, anywhere_mm - this.beyond_mm[state]!));
    // from the touch on, what was known of their surfaces does not tell how deep they get
    const isApart = after > 0 && (gauge.isSteady || anywhere_mm < this.apartFor_mm[state]!);
    return isApart ? after : Number.NEGATIVE_INFINITY;
  }

  /** Measures at the relative pose in hand, and keeps it. */
  private measure(gauge: PlaceGauge, state: number, apartFor_mm: number): void {
    const { known, triangles, directions, witness, relative, told } = this;
    this.asked++;
    gauge.ready();
    const like = known[state] === 1 || state === 0 ? state : state - 1;
    witness.triangleA = triangles[2 * like]!;
    witness.triangleB = triangles[2 * like + 1]!;
    for (let k = 0; k < 3; k++) witness.direction[k] = directions[3 * like + k]!;
    gauge.look(relative, witness, this.wanted, apartFor_mm, told);
    triangles[2 * state] = witness.triangleA;
    triangles[2 * state + 1] = witness.triangleB;
    for (let k = 0; k < 3; k++) directions[3 * state + k] = witness.direction[k]!;
    this.keep(state);
  }

  /** Keeps that the bodies are as far apart as their boxes: no farther told than that, but seen at once, and for long. */
  private takeBoxes(state: number, apart_mm: number): void {
    const { told } = this;
    told.clearance_mm = Number.NaN;
    told.least_mm = apart_mm;
    told.most_mm = Number.POSITIVE_INFINITY;
    told.apartFor_mm = apart_mm;
    told.ofWhole = true;
    this.keep(state);
  }

  /** Keeps what was told at the relative pose in hand. */
  private keep(state: number): void {
    const { poses, relative, told, a, b } = this;
    this.known[state] = 1;
    this.redrawn_mm[state] = a.redrawn_mm + b.redrawn_mm;
    for (let k = 0; k < POSE_SIZE; k++) poses[POSE_SIZE * state + k] = relative[k]!;
    this.clearance_mm[state] = told.clearance_mm;
    this.least_mm[state] = told.least_mm;
    this.most_mm[state] = told.most_mm;
    this.apartFor_mm[state] = told.apartFor_mm;
    this.ofWhole[state] = told.ofWhole ? 1 : 0;
  }

  private keepFloor(gauge: PlaceGauge, state: number, least_mm: number, apartFor_mm: number, way_mm: number): void {
    const isSure = gauge.isSteady || least_mm <= 0;
    this.floor_mm[state] = (isSure ? least_mm : Math.min(least_mm, apartFor_mm)) + way_mm;
  }

  private keepNear(state: number, beyond_mm: number): void {
    const { a, b, near, relative } = this;
    const reach = this.least_mm[state]! + beyond_mm;
    this.beyond_mm[state] = beyond_mm;
    nearBox(relative, 0, true, b.extent, a.extent, reach, near, 12 * state);
    nearBox(relative, 0, false, a.extent, b.extent, reach, near, 12 * state + 6);
  }
}
