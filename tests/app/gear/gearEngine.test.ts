import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { startGear } from "../../../src/app/gear/gearEngine.ts";
import { useGearLook, useGearTold } from "../../../src/app/gear/gearStore.ts";
import { createAppStore } from "../../../src/app/store/store.ts";
import { useTools } from "../../../src/app/tools/toolsStore.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { withLoads } from "../../../src/scene/loadsEdits.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { type GearReport, gearReport } from "../../../src/work/gearReport.ts";
import type { Workshop } from "../../../src/work/protocol.ts";
import { storyCorner } from "../../check/storyCorner.ts";

const report = gearReport(resolveScene(storyCorner()), 3);

function begun() {
  const asked: { document: SceneDocument; spare_mm: number; answer(report: GearReport): void }[] = [];
  const never = () => ({ done: new Promise<never>(() => {}), stop() {} });
  const workshop: Workshop = {
    build: never,
    check: never,
    patch: never,
    gaps: never,
    envelope: never,
    loads: never,
    gear(document, spare_mm) {
      let answer: (report: GearReport) => void = () => {};
      const done = new Promise<GearReport>((resolve) => {
        answer = resolve;
      });
      asked.push({ document, spare_mm, answer });
      return { done, stop() {} };
    },
  };
  const store = createAppStore();
  store.setState({ document: storyCorner() });
  return { asked, store, end: startGear(store, workshop) };
}

let end: () => void = () => {};
beforeEach(() => {
  vi.useFakeTimers();
  useTools.setState({ open: null });
  useGearLook.setState({ spare_mm: 3 });
  useGearTold.setState({ report: null, stale: false, error: null });
});
afterEach(() => {
  end();
  vi.useRealTimers();
});
const later = (time_ms: number) => vi.advanceTimersByTimeAsync(time_ms);

describe("the report of the running gear", () => {
  it("is asked for while its sheet stands open, anew for another spare and for loads, not for another engine pose", async () => {
    const begin = begun();
    end = begin.end;
    const { asked, store } = begin;
    await later(1000);
    expect(asked).toHaveLength(0);
    useTools.setState({ open: "gear" });
    await later(500);
    asked[0]!.answer(report);
    await later(500);
    expect(useGearTold.getState()).toEqual({ report, stale: false, error: null });
    store.setState({ pose: "tail-up" });
    await later(1000);
    expect(asked).toHaveLength(1);
    useGearLook.setState({ spare_mm: 5 });
    await later(500);
    expect(asked[1]!.spare_mm).toBe(5);
    asked[1]!.answer(report);
    await later(500);
    store.getState().editAside("mass", (document) => withLoads(document, { cornerMass_kg: 300 }));
    await later(1000);
    expect(asked[2]!.document.loads?.cornerMass_kg).toBe(300);
  });

  it("leaves the workers to the check while a point is pulled, and is asked once the hand rests", async () => {
    const begin = begun();
    end = begin.end;
    const { asked, store } = begin;
    useTools.setState({ open: "gear" });
    await later(500);
    asked[0]!.answer(report);
    await later(500);
    for (let y = 411; y < 431; y++) {
      store.getState().tryMove({ point: "upper.in", to: [-20, y, 425], meaning: "cut" });
      await later(50);
    }
    expect(asked).toHaveLength(1);
    expect(useGearTold.getState()).toMatchObject({ report, stale: true });
    await later(1000);
    expect(asked).toHaveLength(2);
    expect(asked[1]!.document.points["upper.in"]).toEqual([-20, 430, 425]);
  });
});
