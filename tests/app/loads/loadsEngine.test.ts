import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { startLoads } from "../../../src/app/loads/loadsEngine.ts";
import { useLoadsTold } from "../../../src/app/loads/loadsStore.ts";
import { createAppStore } from "../../../src/app/store/store.ts";
import { useTools } from "../../../src/app/tools/toolsStore.ts";
import { type LoadsReport, reportLoads } from "../../../src/loads/report.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { InputError } from "../../../src/scene/error.ts";
import { withLoads } from "../../../src/scene/loadsEdits.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import type { Workshop } from "../../../src/work/protocol.ts";
import { loadedScene } from "./loadedScene.ts";

const report = reportLoads(resolveScene(loadedScene()), "rest");

function begun() {
  const asked: {
    document: SceneDocument;
    pose: string;
    answer(report: LoadsReport): void;
    fail(error: Error): void;
  }[] = [];
  const never = () => ({ done: new Promise<never>(() => {}), stop() {} });
  const workshop: Workshop = {
    build: never,
    check: never,
    patch: never,
    gaps: never,
    envelope: never,
    gear: never,
    loads(document, pose) {
      let answer: (report: LoadsReport) => void = () => {};
      let fail: (error: Error) => void = () => {};
      const done = new Promise<LoadsReport>((resolve, reject) => {
        answer = resolve;
        fail = reject;
      });
      asked.push({ document, pose, answer, fail });
      return { done, stop() {} };
    },
  };
  const store = createAppStore();
  store.setState({ document: loadedScene() });
  const end = startLoads(store, workshop);
  return { asked, store, end };
}

let end: () => void = () => {};
beforeEach(() => {
  vi.useFakeTimers();
  useTools.setState({ open: null });
  useLoadsTold.setState({ report: null, stale: false, error: null });
});
afterEach(() => {
  end();
  vi.useRealTimers();
});
const later = () => vi.advanceTimersByTimeAsync(500);

describe("the report of all cases", () => {
  it("is asked for while the loads stand open, and once for the same document and pose", async () => {
    const begin = begun();
    end = begin.end;
    await later();
    expect(begin.asked).toHaveLength(0);
    useTools.setState({ open: "loads" });
    await later();
    expect(begin.asked).toHaveLength(1);
    begin.asked[0]!.answer(report);
    await later();
    expect(useLoadsTold.getState()).toEqual({ report, stale: false, error: null });
    useTools.setState({ open: "measure" });
    useTools.setState({ open: "loads" });
    await later();
    expect(begin.asked).toHaveLength(1);
  });

  it("follows a pulled point one request at a time, each for the newest, the last one marked as from before", async () => {
    const { asked, store, end: stop } = begun();
    end = stop;
    useTools.setState({ open: "loads" });
    await later();
    asked[0]!.answer(report);
    await later();
    for (const x of [-150, -151, -152]) {
      store.getState().tryMove({ point: "toe.in", to: [x, 331, 225], meaning: "cut" });
      await later();
    }
    expect(asked).toHaveLength(2);
    expect(useLoadsTold.getState().stale).toBe(true);
    asked[1]!.answer(report);
    await later();
    expect(asked).toHaveLength(3);
    expect(asked[2]!.document.points["toe.in"]).toEqual([-152, 331, 225]);
    asked[2]!.answer(report);
    await later();
    expect(useLoadsTold.getState().stale).toBe(false);
  });

  it("is made anew for an edit of the loads and for another pose, and tells why there is none", async () => {
    const { asked, store, end: stop } = begun();
    end = stop;
    useTools.setState({ open: "loads" });
    await later();
    asked[0]!.answer(report);
    await later();
    store.getState().editAside("mass", (document) => withLoads(document, { cornerMass_kg: 300 }));
    await later();
    expect(asked[1]!.document.loads?.cornerMass_kg).toBe(300);
    const refused = new InputError("wrong-value", { path: "loads.cornerMass_kg" }, "is not told", "kg");
    asked[1]!.fail(refused);
    await later();
    expect(useLoadsTold.getState()).toMatchObject({ error: refused, stale: true });
    store.setState({ pose: "pulling" });
    await later();
    expect(asked[2]!.pose).toBe("pulling");
  });
});
