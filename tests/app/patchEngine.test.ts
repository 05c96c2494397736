import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { startPatches } from "../../src/app/store/patchEngine.ts";
import { pairKey } from "../../src/app/store/state.ts";
import { createAppStore } from "../../src/app/store/store.ts";
import type { DrawnContact } from "../../src/work/drawn.ts";
import type { PatchRequest, Workshop } from "../../src/work/protocol.ts";
import { checkResult, pairVerdict, smallScene } from "./smallScene.ts";

interface Asked {
  readonly keys: readonly [string, string];
  readonly at: PatchRequest["at"];
  finish: () => void;
  stopped: boolean;
}

const never = () => ({ done: new Promise<never>(() => {}), stop() {} });

/** A store with a result of two clashes, and a workshop whose patches come when the test says so. */
function begun() {
  const asked: Asked[] = [];
  const workshop: Workshop = {
    build: never,
    check: never,
    gaps: never,
    envelope: never,
    loads: never,
    gear: never,
    patch({ keys, at }) {
      const job: Asked = { keys, at, finish: () => {}, stopped: false };
      let reject: (error: Error) => void = () => {};
      const done = new Promise<DrawnContact>((resolve, give) => {
        job.finish = () => resolve({} as DrawnContact);
        reject = give;
      });
      asked.push(job);
      return {
        done,
        stop() {
          job.stopped = true;
          reject(new DOMException("stopped", "AbortError"));
        },
      };
    },
  };
  const store = createAppStore();
  store.getState().openDocument(smallScene(), "small.json");
  startPatches(store, workshop);
  return { store, asked };
}

const chosen = pairVerdict();
const other = pairVerdict({ a: "sump", b: "beam", keys: ["sump", "beam"] });
const wait = (ms = 500) => vi.advanceTimersByTimeAsync(ms);
const travelOf = ({ at }: Asked) => at.travel_mm;

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe("the chosen pair's patch", () => {
  it("follows the travel as fast as patches come, skipping what has passed, and none is given up", async () => {
    const { store, asked } = begun();
    store.setState({ result: checkResult([chosen]), stale: false, chosenPair: pairKey(chosen) });
    await wait();
    for (const travel of [1, 2, 3]) store.setState({ travel_mm: { left: travel, right: travel } });
    await wait();
    expect(asked.map(travelOf)).toEqual([0]);
    asked[0]!.finish();
    await wait(0);
    expect(asked.map(travelOf)).toEqual([0, 3]);
    asked[1]!.finish();
    await wait();
    expect(asked.map(({ stopped }) => stopped)).toEqual([false, false]);
    expect(store.getState().patches.get(pairKey(chosen))?.at.travel_mm).toBe(3);
  });

  it("is asked for at once when the state moves and nothing is on its way", async () => {
    const { store, asked } = begun();
    store.setState({ result: checkResult([chosen]), stale: false, chosenPair: pairKey(chosen) });
    await wait();
    asked[0]!.finish();
    await wait();
    store.setState({ travel_mm: { left: 12, right: 12 } });
    await wait(0);
    expect(asked.map(travelOf)).toEqual([0, 12]);
  });

  it("goes before the other clashes' worst patches", async () => {
    const { store, asked } = begun();
    store.setState({ result: checkResult([chosen, other]), stale: false, chosenPair: pairKey(chosen) });
    await wait();
    asked[0]!.finish();
    await wait();
    expect(asked[1]!.keys).toEqual(other.keys);
    store.setState({ travel_mm: { left: 5, right: 5 } });
    await wait(0);
    expect(asked[1]!.stopped).toBe(true);
    expect(asked[2]!.keys).toEqual(chosen.keys);
    asked[2]!.finish();
    await wait();
    expect(asked[3]!.keys).toEqual(other.keys);
  });

  it("of a result that is out of date is given up", async () => {
    const { store, asked } = begun();
    store.setState({ result: checkResult([chosen]), stale: false, chosenPair: pairKey(chosen) });
    await wait();
    store.setState({ stale: true });
    expect(asked[0]!.stopped).toBe(true);
    await wait();
    expect(asked).toHaveLength(1);
    expect(store.getState().patches.size).toBe(0);
  });
});
