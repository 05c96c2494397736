import * as z from "zod";
import { InputError } from "../../scene/error.ts";
import { refuseHeavyJson } from "../../scene/jsonWeight.ts";
import { jsonPath } from "../../scene/path.ts";
import { PlaceGrid } from "./region.ts";
import { FREE, type RoomMap, UNASKED } from "./room.ts";

/** A room map as JSON holds it: plain lists, null for what is not told. */
export type ToldRoom = Omit<RoomMap, "reason" | "margin_mm" | "pair" | "state" | "value"> & {
  readonly study: "room";
  readonly scene: string;
  readonly reason: readonly number[];
  readonly margin_mm: readonly (number | null)[];
  readonly pair: readonly number[];
  readonly state: readonly number[];
  readonly value: readonly (number | null)[];
  readonly summary: RoomSummary;
};

export interface RoomSummary {
  readonly free: number;
  readonly refused: number;
  /** Places of other shares. */
  readonly unasked: number;
}

export function toldRoom(map: RoomMap, scene: string): ToldRoom {
  const orNull = (values: Float64Array) => [...values].map((value) => (Number.isNaN(value) ? null : value));
  return {
    study: "room",
    scene,
    ...map,
    reason: [...map.reason],
    margin_mm: orNull(map.margin_mm),
    pair: [...map.pair],
    state: [...map.state],
    value: orNull(map.value),
    summary: summaryOf(map),
  };
}

export function summaryOf({ reason }: RoomMap): RoomSummary {
  const count = (wanted: (value: number) => boolean) => reason.reduce((sum, value) => sum + (wanted(value) ? 1 : 0), 0);
  return {
    free: count((value) => value === FREE),
    refused: count((value) => value >= 0),
    unasked: count((value) => value === UNASKED),
  };
}

/** A map of the most places, with all that is told of each. */
export const LARGEST_ROOM_BYTES = 400_000_000;
const MOST_VALUES = 12_000_000;

const vector = z.tuple([z.number(), z.number(), z.number()]);
const side = z.enum(["left", "right", "both"]);
const reason = z.union([
  z.strictObject({ kind: z.enum(["drawn", "reach", "binds"]) }),
  z.strictObject({ kind: z.literal("limit"), side, what: z.string() }),
  z.strictObject({ kind: z.literal("clearance"), side, a: z.string(), b: z.string(), required_mm: z.number() }),
]);
/** The lists of a value a place are looked at by themselves: they are millions long. */
const toldSchema = z.strictObject({
  study: z.literal("room"),
  scene: z.string(),
  points: z.array(z.string()).min(1),
  fit: z.enum(["cut", "bolted"]),
  region: z.strictObject({
    spans: z
      .array(z.strictObject({ along: vector, from_mm: z.number(), to_mm: z.number() }))
      .min(1)
      .max(3),
    step_mm: z.number(),
  }),
  first: z.array(z.int()),
  counts: z.array(z.int()),
  marginUpTo_mm: z.number(),
  states: z.array(z.strictObject({ travel_mm: z.number(), pose: z.string() })).max(32_767),
  reasons: z.array(reason).max(32_767),
  reason: z.unknown(),
  margin_mm: z.unknown(),
  pair: z.unknown(),
  state: z.unknown(),
  value: z.unknown(),
  summary: z.unknown(),
});

/** What toldRoom told. Throws InputError for a text that is no room map. */
export function readRoom(text: string, file: string): { readonly map: RoomMap; readonly scene: string } {
  const wanted = "what room --json printed";
  const refuse = (path: string, wrong: string) => new InputError("wrong-value", { file, path }, wrong, wanted);
  refuseHeavyJson(text, file, MOST_VALUES);
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch {
    throw new InputError("not-json", { file }, "is not JSON", wanted);
  }
  if (typeof given !== "object" || given === null || Reflect.get(given, "study") !== "room") {
    throw refuse("", "is no room map");
  }
  const read = toldSchema.safeParse(given);
  if (!read.success) {
    const [issue] = read.error.issues;
    throw refuse(jsonPath(issue?.path ?? []), issue?.code === "unrecognized_keys" ? "is not known" : "does not fit");
  }
  const { study: _study, scene, summary: _summary, ...map } = given as ToldRoom;
  const { count, counts, first } = new PlaceGrid(map.region);
  const isSame = (told: readonly number[], own: readonly number[]) =>
    own.every((value, i) => value === (told[i] ?? (own === counts ? 1 : 0)));
  if (!isSame(map.counts, counts) || !isSame(map.first, first)) throw refuse("counts", "is not what its region has");
  const numbers = (key: "margin_mm" | "value"): Float64Array => {
    const values = listOf(map[key], key);
    const wrong = values.findIndex((value) => value !== null && !Number.isFinite(value));
    if (wrong >= 0) throw refuse(`${key}[${wrong}]`, "is no number");
    return Float64Array.from(values, (value) => (value as number | null) ?? Number.NaN);
  };
  const places = (key: "reason" | "pair" | "state", least: number, end: number): Int16Array => {
    const values = listOf(map[key], key);
    const fits = (value: unknown) => Number.isInteger(value) && (value as number) >= least && (value as number) < end;
    const wrong = values.findIndex((value) => !fits(value));
    if (wrong >= 0) throw refuse(`${key}[${wrong}]`, "names nothing in this map");
    return Int16Array.from(values as readonly number[]);
  };
  return {
    scene,
    map: {
      ...map,
      reason: places("reason", UNASKED, map.reasons.length),
      margin_mm: numbers("margin_mm"),
      pair: places("pair", -1, map.reasons.length),
      state: places("state", -1, map.states.length),
      value: numbers("value"),
    },
  };

  function listOf(list: unknown, key: string): readonly unknown[] {
    if (Array.isArray(list) && list.length === count) return list;
    throw refuse(key, `has lists of other lengths than ${count} places`);
  }
}
