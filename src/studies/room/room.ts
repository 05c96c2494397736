import type { Vec3 } from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";
import { type KeptOfChecks, type PlaceQuestion, type PlaceReason, PlaceStudy } from "../places/placeStudy.ts";
import { type Share, StudyStopped, WHOLE } from "../stopped.ts";
import { type Block, blocksOf } from "./order.ts";
import { PlaceGrid, type Region } from "./region.ts";

export interface RoomRequest extends PlaceQuestion {
  readonly region: Region;
}

/**
 * Where hard points may live. Lists are by the number of a place: along the first direction of the region first, then the second,
 * then the third.
 */
export interface RoomMap {
  readonly points: readonly string[];
  readonly fit: PlaceQuestion["fit"];
  readonly region: Region;
  /** Steps from where the point is to the first place, and number of places, along the region's directions. */
  readonly first: readonly number[];
  readonly counts: readonly number[];
  readonly marginUpTo_mm: number;
  /** At which places were asked; nothing is proved between them. */
  readonly states: readonly { readonly travel_mm: number; readonly pose: string }[];
  readonly reasons: readonly PlaceReason[];
  /** FREE, UNASKED or the number of the reason why the place is refused. */
  readonly reason: Int16Array;
  /** The least clearance beyond what is required, mm; below 0 it is that or less, NaN where it is not asked. */
  readonly margin_mm: Float64Array;
  /** The number of the reason that the pair of the least margin would be; −1: none. */
  readonly pair: Int16Array;
  /** The number of the state at which that is, or a limit is passed by most; −1: none. */
  readonly state: Int16Array;
  /** The value that passes a limit, or the travel that is reached; otherwise NaN. */
  readonly value: Float64Array;
}

export const FREE = -1;
export const UNASKED = -2;

export interface RoomProgress {
  readonly done: number;
  readonly total: number;
  /** Of the places that were asked just now: every 2^level-th along each direction. */
  readonly level: number;
}

/** One share of a room map in the making, asked a place at a time: shares, merged, are to the last bit what one run tells. */
export class RoomRun {
  /** What is told so far; filled further by `next`. */
  readonly map: RoomMap;
  readonly total: number;
  private readonly grid: PlaceGrid;
  private readonly study: PlaceStudy;
  private readonly blocks: readonly Block[];
  private block = 0;
  private inBlock = 0;
  private asked = 0;

  /** `kept`: what checks on the same thread left, which makes it begin sooner. Throws InputError as PlaceStudy does. */
  constructor(request: RoomRequest, share: Share = WHOLE, kept: KeptOfChecks = {}) {
    this.grid = new PlaceGrid(request.region);
    this.study = new PlaceStudy(request, this.grid.corners().map(together(request)), kept);
    this.map = emptyMap(request, this.grid, this.study);
    this.blocks = blocksOf(this.grid).filter((_, i) => i % share.of === share.index);
    this.total = this.blocks.reduce((sum, { places }) => sum + places.length, 0);
  }

  get done(): number {
    return this.asked;
  }

  /** Asks the next place, coarse to fine: its number and its level; null: all are asked. */
  next(): { readonly place: number; readonly level: number; readonly endsBlock: boolean } | null {
    const block = this.blocks[this.block];
    if (!block) return null;
    const { map, study, grid } = this;
    if (this.inBlock === 0) study.forget();
    const place = block.places[this.inBlock]!;
    const { reason, margin_mm, pair, state, value } = study.ask(together(map)(grid.offsetOf(place)));
    map.reason[place] = reason;
    map.margin_mm[place] = margin_mm;
    map.pair[place] = pair;
    map.state[place] = state;
    map.value[place] = value;
    this.asked++;
    this.inBlock++;
    const endsBlock = this.inBlock === block.places.length;
    if (endsBlock) [this.block, this.inBlock] = [this.block + 1, 0];
    return { place, level: block.level, endsBlock };
  }
}

/** All points of a question by the same way. */
function together({ points }: Pick<RoomMap, "points">): (offset: Vec3) => Vec3[] {
  return (offset) => points.map(() => offset);
}

/**
 * The room map of one share of a region's places, coarse to fine: `map` of `onProgress` holds what is told so far, and is filled
 * further. Throws StudyStopped, and InputError as PlaceStudy does.
 */
export function mapRoom(
  request: RoomRequest,
  onProgress: (progress: RoomProgress, map: RoomMap) => void = () => {},
  isCancelled: () => boolean = () => false,
  share: Share = WHOLE,
): RoomMap {
  const run = new RoomRun(request, share);
  for (;;) {
    if (isCancelled()) throw new StudyStopped();
    const asked = run.next();
    if (!asked) return run.map;
    if (asked.endsBlock) onProgress({ done: run.done, total: run.total, level: asked.level }, run.map);
  }
}

function emptyMap(request: RoomRequest, grid: PlaceGrid, study: PlaceStudy): RoomMap {
  return {
    points: request.points,
    fit: request.fit,
    region: request.region,
    first: grid.first,
    counts: grid.counts,
    marginUpTo_mm: request.marginUpTo_mm,
    states: study.states.map(({ travel_mm, pose }) => ({ travel_mm, pose })),
    reasons: study.reasons,
    reason: new Int16Array(grid.count).fill(UNASKED),
    margin_mm: new Float64Array(grid.count).fill(Number.NaN),
    pair: new Int16Array(grid.count).fill(-1),
    state: new Int16Array(grid.count).fill(-1),
    value: new Float64Array(grid.count).fill(Number.NaN),
  };
}

/** Shares of one map as one. Throws InputError where they are not shares of one map, or one is there twice. */
export function mergeRooms(shares: readonly RoomMap[]): RoomMap {
  const [one] = shares;
  if (!one) throw new InputError("wrong-value", {}, "there is nothing to merge", "one share or more");
  const sameQuestion = JSON.stringify(questionOf(one));
  const merged: RoomMap = {
    ...one,
    reason: new Int16Array(one.reason.length).fill(UNASKED),
    margin_mm: one.margin_mm.slice(),
    pair: one.pair.slice(),
    state: one.state.slice(),
    value: one.value.slice(),
  };
  for (const [i, share] of shares.entries()) {
    if (JSON.stringify(questionOf(share)) !== sameQuestion) {
      throw new InputError("wrong-value", {}, `share ${i + 1} answers another question`, "shares of one map");
    }
    for (let place = 0; place < share.reason.length; place++) {
      if (share.reason[place] === UNASKED) continue;
      if (merged.reason[place] !== UNASKED) {
        throw new InputError("wrong-value", {}, `share ${i + 1} has places of another`, "each share once");
      }
      for (const list of ["reason", "margin_mm", "pair", "state", "value"] as const) {
        merged[list][place] = share[list][place]!;
      }
    }
  }
  return merged;
}

function questionOf(map: RoomMap): unknown {
  const { reason: _reason, margin_mm: _margin, pair: _pair, state: _state, value: _value, ...question } = map;
  return question;
}
