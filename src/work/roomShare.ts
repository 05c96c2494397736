import type { RoomMap, RoomRun } from "../studies/room/room.ts";
import { StoppedError } from "./outcome.ts";

/** What is told of some places of a room map, in the order in which they were asked. */
export interface RoomNews {
  readonly places: Uint32Array;
  /** As RoomMap has them, one a place of `places`. */
  readonly reason: Int16Array;
  readonly margin_mm: Float64Array;
  readonly pair: Int16Array;
  readonly state: Int16Array;
  readonly value: Float64Array;
  /** How fine the last of them are: every 2^level-th along each direction. */
  readonly level: number;
}

/** What holds for all places of a map: the same from every share. */
export type RoomFrame = Pick<RoomMap, "first" | "counts" | "states" | "reasons" | "marginUpTo_mm">;

export function frameOfRoom({ first, counts, states, reasons, marginUpTo_mm }: RoomMap): RoomFrame {
  return { first, counts, states, reasons, marginUpTo_mm };
}

interface RoomWatch {
  onNews(news: RoomNews): void;
  isStopped(): boolean;
  /** Lets messages in. */
  breathe(): Promise<void>;
  /** Whether something more urgent is being done, for which the next place waits. */
  isNeeded(): boolean;
}

const BREATH_MS = 12;
/** Nobody sees a picture change more often. */
const TELL_MS = 120;
const REST_MS = 5;

/** Asks all places of a share, telling them now and then; gives way to other work of the thread. Throws StoppedError. */
export async function askRoomShare(run: RoomRun, watch: RoomWatch): Promise<void> {
  let breathed = performance.now();
  let told = breathed;
  let fresh: number[] = [];
  let level = 0;
  const tell = (): void => {
    if (fresh.length > 0) watch.onNews(newsOf(run.map, fresh, level));
    fresh = [];
    told = performance.now();
  };
  for (;;) {
    if (performance.now() - breathed > BREATH_MS) {
      await watch.breathe();
      while (watch.isNeeded() && !watch.isStopped()) await new Promise((resolve) => setTimeout(resolve, REST_MS));
      breathed = performance.now();
    }
    if (watch.isStopped()) throw new StoppedError();
    const asked = run.next();
    if (!asked) break;
    fresh.push(asked.place);
    level = asked.level;
    if (performance.now() - told > TELL_MS) tell();
  }
  tell();
}

function newsOf(map: RoomMap, asked: readonly number[], level: number): RoomNews {
  const places = Uint32Array.from(asked);
  return {
    places,
    reason: Int16Array.from(places, (place) => map.reason[place]!),
    margin_mm: Float64Array.from(places, (place) => map.margin_mm[place]!),
    pair: Int16Array.from(places, (place) => map.pair[place]!),
    state: Int16Array.from(places, (place) => map.state[place]!),
    value: Float64Array.from(places, (place) => map.value[place]!),
    level,
  };
}

/** Writes what was told of some places into a map. */
export function putNews(map: Pick<RoomMap, "reason" | "margin_mm" | "pair" | "state" | "value">, news: RoomNews): void {
  for (const [i, place] of news.places.entries()) {
    map.reason[place] = news.reason[i]!;
    map.margin_mm[place] = news.margin_mm[i]!;
    map.pair[place] = news.pair[i]!;
    map.state[place] = news.state[i]!;
    map.value[place] = news.value[i]!;
  }
}
