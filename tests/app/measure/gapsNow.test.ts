import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { startGaps, useGaps } from "../../../src/app/measure/gapsNow.ts";
import { createAppStore } from "../../../src/app/store/store.ts";
import { assembleModel } from "../../../src/check/assemble.ts";
import type { Gap } from "../../../src/clearance/gap.ts";
import { withMeasure, withMeasureHidden } from "../../../src/scene/measures.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import type { GapRequest, Workshop } from "../../../src/work/protocol.ts";
import { smallScene } from "../smallScene.ts";

const gap = (clearance_mm: number): Gap => ({
  clearance_mm,
  measure: "surface",
  pointA: [0, 0, 0],
  pointB: [0, 0, 0],
});

function begun() {
  const asked: { request: GapRequest; answer(gaps: (Gap | null)[]): void }[] = [];
  const never = () => ({ done: new Promise<never>(() => {}), stop() {} });
  const workshop: Workshop = {
    build: never,
    check: never,
    patch: never,
    envelope: never,
    loads: never,
    gear: never,
    gaps(request) {
      let answer: (gaps: (Gap | null)[]) => void = () => {};
      const done = new Promise<readonly (Gap | null)[]>((resolve) => {
        answer = resolve;
      });
      asked.push({ request, answer });
      return { done, stop() {} };
    },
  };
  const store = createAppStore();
  const document = withMeasure(smallScene(), {
    kind: "gap",
    a: { part: "upper", side: "left" },
    b: { part: "gearbox-mount-ear" },
  });
  const scene = resolveScene(document);
  store.setState({ document, scene, bodies: assembleModel(scene) });
  const end = startGaps(store, workshop);
  return { asked, store, document, end };
}

let end: () => void = () => {};
beforeEach(() => useGaps.setState({ byId: new Map() }));
afterEach(() => end());
const turn = () => vi.waitFor(() => Promise.resolve());

describe("pinned gaps", () => {
  it("are asked where things are shown, one request at a time, the newest state next", async () => {
    const { asked, store, ...rest } = begun();
    end = rest.end;
    await turn();
    expect(asked).toHaveLength(1);
    expect(asked[0]!.request.pairs[0]!.keys).toEqual(["upper@left", "gearbox-mount-ear"]);
    for (const travel_mm of [5, 10, 15]) store.getState().setTravel("left", travel_mm);
    expect(asked).toHaveLength(1);
    asked[0]!.answer([gap(12.5)]);
    await vi.waitFor(() => expect(asked).toHaveLength(2));
    expect(useGaps.getState().byId.get("1")?.clearance_mm).toBe(12.5);
    // the arm has risen with the wheel: its pose is that of the last travel, not of those between
    const [before, now] = asked.map(({ request }) => request.pairs[0]!.poses[0]);
    expect(now![11]).not.toBe(before![11]);
    asked[1]!.answer([gap(3)]);
    await vi.waitFor(() => expect(useGaps.getState().byId.get("1")?.clearance_mm).toBe(3));
    expect(asked).toHaveLength(2);
  });

  it("that are hidden are neither asked nor kept", async () => {
    const { asked, store, document, ...rest } = begun();
    end = rest.end;
    await turn();
    asked[0]!.answer([gap(1)]);
    await vi.waitFor(() => expect(useGaps.getState().byId.size).toBe(1));
    store.setState({ document: withMeasureHidden(document, "1", true) });
    await vi.waitFor(() => expect(useGaps.getState().byId.size).toBe(0));
    expect(asked).toHaveLength(1);
  });
});
