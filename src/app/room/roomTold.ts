import { length } from "../../maths/vec3.ts";
import type { PlaceReason } from "../../studies/places/placeStudy.ts";
import { PlaceGrid, type Region } from "../../studies/room/region.ts";
import { FREE, type RoomMap, UNASKED } from "../../studies/room/room.ts";
import type { RoomFrame } from "../../work/roomShare.ts";
import type { Way } from "./roomForm.ts";

/** A room map as it comes on. Its lists are filled further. */
export type ComingMap = RoomMap;

/** Before any place is told. */
export function blankMap(
  frame: RoomFrame,
  { points, fit, region }: Pick<RoomMap, "points" | "fit" | "region">,
): ComingMap {
  const count = frame.counts.reduce((product, each) => product * each, 1);
  return {
    ...frame,
    points,
    fit,
    region,
    reason: new Int16Array(count).fill(UNASKED),
    margin_mm: new Float64Array(count).fill(Number.NaN),
    pair: new Int16Array(count).fill(-1),
    state: new Int16Array(count).fill(-1),
    value: new Float64Array(count).fill(Number.NaN),
  };
}

/** How a place is shown: by the room that is left there, or by what refuses it. */
export const MARKS = ["unasked", "close", "limit", "cannot", "room1", "room2", "room3", "room4", "room5"] as const;
export type MarkKind = (typeof MARKS)[number];
/** Of these on: there is room. */
export const FIRST_ROOM = MARKS.indexOf("room1");
const ROOM_STEPS = MARKS.length - FIRST_ROOM;

/** The number of a place's mark in MARKS. */
export function markOf({ reason, margin_mm, reasons, marginUpTo_mm }: ComingMap, place: number): number {
  const why = reason[place]!;
  if (why === UNASKED) return 0;
  if (why === FREE) {
    const step = Math.floor((margin_mm[place]! / marginUpTo_mm) * ROOM_STEPS);
    return FIRST_ROOM + Math.max(0, Math.min(ROOM_STEPS - 1, step));
  }
  const { kind } = reasons[why]!;
  return kind === "clearance" ? 1 : kind === "limit" ? 2 : 3;
}

/** From which margin on each of the marks of room is shown. */
export function roomSteps(marginUpTo_mm: number): readonly number[] {
  return Array.from({ length: ROOM_STEPS }, (_, step) => (step * marginUpTo_mm) / ROOM_STEPS);
}

export interface RoomSum {
  readonly asked: number;
  readonly free: number;
  /** Numbers of reasons and how many places each refuses, the most first. */
  readonly refusals: readonly (readonly [reason: number, places: number])[];
  /** The place with room that is least far away, and the roomiest; −1: none has room. */
  readonly nearest: number;
  readonly roomiest: number;
}

/** Of equal places the first, by number, is told. */
export function sumOf(map: ComingMap, grid: PlaceGrid): RoomSum {
  const counts = new Map<number, number>();
  let [asked, free, nearest, roomiest] = [0, 0, -1, -1];
  let [nearest_mm, roomiest_mm] = [Infinity, Infinity];
  for (let place = 0; place < map.reason.length; place++) {
    const why = map.reason[place]!;
    if (why === UNASKED) continue;
    asked++;
    if (why !== FREE) {
      counts.set(why, (counts.get(why) ?? 0) + 1);
      continue;
    }
    free++;
    const far = length(grid.offsetOf(place));
    if (far < nearest_mm) [nearest, nearest_mm] = [place, far];
    const more = roomiest < 0 ? 1 : map.margin_mm[place]! - map.margin_mm[roomiest]!;
    if (more > 0 || (more === 0 && far < roomiest_mm)) [roomiest, roomiest_mm] = [place, far];
  }
  return { asked, free, nearest, roomiest, refusals: [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0]) };
}

/** What to leave out so that a reason counts no more: a limit's name or a pair; null where it cannot be left out. */
export function leaveOutName(reason: PlaceReason): string | null {
  if (reason.kind === "clearance") return `${reason.a}/${reason.b}`;
  if (reason.kind !== "limit" || /^(toe-change|camber|half-track-change|damper-ratio|member-length )/.test(reason.what))
    return null;
  return reason.what;
}

const grids = new WeakMap<Region, PlaceGrid>();

export function gridOf({ region }: Pick<RoomMap, "region">): PlaceGrid {
  let grid = grids.get(region);
  if (!grid) {
    grid = new PlaceGrid(region);
    grids.set(region, grid);
  }
  return grid;
}

/** The place where the points are now, or the one nearest to it that is asked for. */
export function homeOf(grid: PlaceGrid): number {
  const steps = grid.first.map((first, k) => Math.max(first, Math.min(first + grid.counts[k]! - 1, 0)));
  return grid.numberOf(steps as unknown as readonly [number, number, number]);
}

/** The place so many steps along one of the spans, no farther than the region goes. */
export function stepFrom(grid: PlaceGrid, place: number, span: number, by: number): number {
  const steps = grid.stepsOf(place);
  const first = grid.first[span]!;
  steps[span] = Math.max(first, Math.min(first + grid.counts[span]! - 1, steps[span]! + by));
  return grid.numberOf(steps);
}

/** A slice: which span runs across the plot (from right to left), which up, and the places in it. */
export interface Slice {
  readonly across: number;
  /** −1: the region is a line. */
  readonly up: number;
  readonly columns: number;
  readonly rows: number;
  /** The number of the place in a column and row, row 0 lowest. */
  placeAt(column: number, row: number): number;
  cellOf(place: number): readonly [column: number, row: number];
}

/**
 * The places level with `place` along the span `through` (of a box; -1 for less). The span that runs across has its far end on the left, so
 * that a left corner is seen as one stands beside, behind or above it, facing forward. `ways`: of the spans.
 */
export function sliceOf(grid: PlaceGrid, ways: readonly Way[], through: number, place: number): Slice {
  const [p = 0, q = -1] = [...ways.keys()].filter((span) => span !== through);
  // seen from above outward runs across and forward up
  const [across, up] = ways[p] === "forward" && ways[q] === "out" ? [q, p] : [p, q];
  const fixed = grid.stepsOf(place);
  const { first, counts } = grid;
  return {
    across,
    up,
    columns: counts[across]!,
    rows: up < 0 ? 1 : counts[up]!,
    placeAt(column, row) {
      const steps: [number, number, number] = [...fixed];
      steps[across] = first[across]! + counts[across]! - 1 - column;
      if (up >= 0) steps[up] = first[up]! + row;
      return grid.numberOf(steps);
    },
    cellOf(other) {
      const steps = grid.stepsOf(other);
      return [first[across]! + counts[across]! - 1 - steps[across]!, up < 0 ? 0 : steps[up]! - first[up]!];
    },
  };
}
