import { InputError } from "../../scene/error.ts";
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

/** What toldRoom told. Throws InputError for a text that is no room map. */
export function readRoom(text: string, file: string): { readonly map: RoomMap; readonly scene: string } {
  const refuse = (wrong: string) => new InputError("wrong-value", { file }, wrong, "what room --json printed");
  let told: ToldRoom;
  try {
    told = JSON.parse(text);
  } catch {
    throw new InputError("not-json", { file }, "is not JSON", "what room --json printed");
  }
  if (told?.study !== "room") throw refuse("is no room map");
  const { study: _study, scene, summary: _summary, ...map } = told;
  const count = Array.isArray(map.counts) ? map.counts.reduce((product, each) => product * each, 1) : Number.NaN;
  const lists = [map.reason, map.margin_mm, map.pair, map.state, map.value];
  if (!lists.every((list) => Array.isArray(list) && list.length === count)) throw refuse("has lists of other lengths");
  const numbers = (values: readonly (number | null)[]) => Float64Array.from(values, (value) => value ?? Number.NaN);
  return {
    scene,
    map: {
      ...map,
      reason: Int16Array.from(map.reason),
      margin_mm: numbers(map.margin_mm),
      pair: Int16Array.from(map.pair),
      state: Int16Array.from(map.state),
      value: numbers(map.value),
    },
  };
}
