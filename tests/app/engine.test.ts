import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { canMakeCard } from "../../src/app/store/canMakeCard.ts";
import { startEngine } from "../../src/app/store/engine.ts";
import { createAppStore } from "../../src/app/store/store.ts";
import { refusalText } from "../../src/app/words/refusal.ts";
import type { CheckResult } from "../../src/check/result.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { withLoads } from "../../src/scene/loadsEdits.ts";
import { withMeasure } from "../../src/scene/measures.ts";
import { withPoint } from "../../src/scene/points.ts";
import type { CheckProgress, Job, Workshop } from "../../src/work/protocol.ts";
import { checkResult, pairVerdict, smallScene } from "./smallScene.ts";

interface Asked {
  readonly document: SceneDocument;
  readonly onProgress: (progress: CheckProgress) => void;
  finish(result: CheckResult): void;
  fail(error: Error): void;
  stopped: boolean;
}

/** A workshop whose checks end when the test says so. */
function fakeWorkshop() {
  const checks: Asked[] = [];
  const builds: SceneDocument[] = [];
  const workshop: Workshop = {
    build(document) {
      builds.push(document);
      return { done: Promise.resolve([]), stop() {} };
    },
    check(document, _files, onProgress): Job<CheckResult> {
      let finish: (result: CheckResult) => void = () => {};
      let fail: (error: Error) => void = () => {};
      const done = new Promise<CheckResult>((resolve, reject) => {
        finish = resolve;
        fail = reject;
      });
      const asked: Asked = { document, onProgress, finish, fail, stopped: false };
      checks.push(asked);
      return {
        done,
        stop() {
          asked.stopped = true;
          fail(new DOMException("stopped", "AbortError"));
        },
      };
    },
    patch: () => ({ done: new Promise(() => {}), stop() {} }),
    gaps: () => ({ done: new Promise(() => {}), stop() {} }),
    envelope: () => ({ done: new Promise(() => {}), stop() {} }),
    loads: () => ({ done: new Promise(() => {}), stop() {} }),
    gear: () => ({ done: new Promise(() => {}), stop() {} }),
  };
  return { workshop, checks, builds };
}

function begun() {
  const fake = fakeWorkshop();
  const store = createAppStore();
  const engine = startEngine(store, fake.workshop);
  store.getState().openDocument(smallScene(), "small.json");
  return { ...fake, store, engine };
}

const wait = () => vi.advanceTimersByTimeAsync(500);
const clash = checkResult([pairVerdict()]);

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe("verdicts follow the document", () => {
  it("a scene shows at once, its verdicts when they are whole", async () => {
    const { store, checks } = begun();
    expect(store.getState().scene?.title).toBe("Small corner");
    await wait();
    checks[0]!.finish(clash);
    await wait();
    expect(store.getState().result).toBe(clash);
    expect(store.getState().stale).toBe(false);
  });

  it("a change stops the check, keeps the last verdicts and marks them as from before it", async () => {
    const { store, checks } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    store.getState().edit("upper.out up", withPoint(store.getState().document!, "upper.out", [-5, 660, 444]));
    expect(store.getState().stale).toBe(true);
    expect(store.getState().result).toBe(clash);
    await wait();
    store.getState().edit("upper.out up", withPoint(store.getState().document!, "upper.out", [-5, 660, 448]));
    expect(checks[1]!.stopped).toBe(true);
    await wait();
    expect(checks[2]!.document).toBe(store.getState().document);
  });

  it("every verdict known after a change takes the place of those from before it, until the exact ones come", async () => {
    const { store, checks, engine } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    store.getState().edit("upper.out up", withPoint(store.getState().document!, "upper.out", [-5, 660, 444]));
    await wait();
    const verdicts = checkResult([pairVerdict({ verdict: "clear", clearance_mm: 12, isAtLeast: true })]);
    checks[1]!.onProgress({ pairsDone: 300, pairsTotal: 2374, soFar: checkResult([]) });
    expect(store.getState().result).toBe(clash);
    checks[1]!.onProgress({ pairsDone: 400, pairsTotal: 2374, verdicts });
    checks[1]!.onProgress({ pairsDone: 500, pairsTotal: 2374, soFar: checkResult([]) });
    const { result, stale, partial } = store.getState();
    expect({ result, stale, partial }).toEqual({ result: verdicts, stale: false, partial: false });
    expect(canMakeCard(store.getState())).toBe(false);
    const exact = checkResult([pairVerdict({ verdict: "clear", clearance_mm: 13 })]);
    checks[1]!.finish(exact);
    await wait();
    expect(store.getState().result).toBe(exact);
    expect(canMakeCard(store.getState())).toBe(true);
    engine.stop();
  });

  it("stopping keeps the verdicts that were known, and an undone change asks for them anew", async () => {
    const { store, checks, engine } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    store.getState().edit("title", smallScene({ title: "Newer" }));
    await wait();
    const verdicts = checkResult([pairVerdict({ verdict: "clear", clearance_mm: 12, isAtLeast: true })]);
    checks[1]!.onProgress({ pairsDone: 400, pairsTotal: 2374, soFar: checkResult([]) });
    checks[1]!.onProgress({ pairsDone: 400, pairsTotal: 2374, verdicts });
    engine.stopCheck();
    expect(store.getState().result).toBe(verdicts);
    expect(store.getState().partial).toBe(false);
    engine.checkAgain();
    await wait();
    expect(checks).toHaveLength(3);
  });

  it("a late answer to an older question is not taken", async () => {
    const { store, checks } = begun();
    await wait();
    store.getState().edit("title", smallScene({ title: "Newer" }));
    checks[0]!.finish(clash);
    await wait();
    expect(store.getState().result).toBeNull();
  });

  it("edits that follow each other fast are gathered into one check", async () => {
    const { store, checks } = begun();
    await wait();
    for (let z = 441; z <= 450; z++) {
      store.getState().edit("upper.out up", withPoint(store.getState().document!, "upper.out", [-5, 660, z]));
      await vi.advanceTimersByTimeAsync(16);
    }
    await wait();
    expect(checks).toHaveLength(2);
    expect(checks[1]!.document).toBe(store.getState().document);
  });

  it("a drag is followed: its first step is asked at once, then the newest whenever the last asked has told", async () => {
    const { store, checks } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    const pull = async (z: number) => {
      store.getState().tryMove({ point: "upper.out", to: [-5, 660, z], meaning: "cut" });
      await vi.advanceTimersByTimeAsync(16);
    };
    await pull(441);
    expect(checks).toHaveLength(2);
    await pull(442);
    await pull(443);
    expect(checks).toHaveLength(2);
    expect(checks[1]!.stopped).toBe(false);
    const verdicts = checkResult([pairVerdict({ verdict: "clear", clearance_mm: 12, isAtLeast: true })]);
    checks[1]!.onProgress({ pairsDone: 40, pairsTotal: 2374, verdicts });
    // of where the hand was a moment ago, and told as that
    expect(store.getState()).toMatchObject({ result: verdicts, trailing: true, stale: true });
    expect(canMakeCard(store.getState())).toBe(false);
    expect(checks).toHaveLength(3);
    expect(checks[1]!.stopped).toBe(true);
    expect(checks[2]!.document.points["upper.out"]).toEqual([-5, 660, 443]);
    // the hand rests: the verdicts are those of what is shown
    checks[2]!.onProgress({ pairsDone: 40, pairsTotal: 2374, verdicts });
    expect(store.getState()).toMatchObject({ result: verdicts, trailing: false, stale: false });
    const exact = checkResult([pairVerdict({ verdict: "clear", clearance_mm: 13 })]);
    checks[2]!.finish(exact);
    await wait();
    expect(store.getState()).toMatchObject({ result: exact, trailing: false, stale: false });
    expect(checks).toHaveLength(3);
  });

  it("a check that does not tell in time is given up for the newest step of a drag", async () => {
    const { store, checks } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    for (let z = 441; z <= 470; z++) {
      store.getState().tryMove({ point: "upper.out", to: [-5, 660, z], meaning: "cut" });
      await vi.advanceTimersByTimeAsync(16);
    }
    await wait();
    // 480 ms of pulling: one at once, then one each 150 ms or so
    expect(checks.length).toBeGreaterThan(3);
    expect(checks.length).toBeLessThan(7);
    expect(checks.slice(1, -1).every(({ stopped }) => stopped)).toBe(true);
    expect(checks.at(-1)!.document.points["upper.out"]).toEqual([-5, 660, 470]);
    expect(store.getState().trailing).toBe(false);
  });

  it("a move put back while its check runs leaves nothing of it", async () => {
    const { store, checks } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    store.getState().tryMove({ point: "upper.out", to: [-5, 660, 444], meaning: "cut" });
    await vi.advanceTimersByTimeAsync(16);
    store.getState().tryMove({ point: "upper.out", to: [-5, 660, 445], meaning: "cut" });
    store.getState().putBack();
    expect(store.getState()).toMatchObject({ result: clash, trailing: false, stale: false });
    checks[1]!.onProgress({ pairsDone: 40, pairsTotal: 2374, verdicts: checkResult([]) });
    await wait();
    expect(store.getState()).toMatchObject({ result: clash, trailing: false, stale: false });
    expect(checks).toHaveLength(2);
  });

  it("undoing asks nothing that was answered before", async () => {
    const { store, checks } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    store.getState().edit("title", smallScene({ title: "Newer" }));
    await wait();
    store.getState().undo();
    expect(store.getState().result).toBe(clash);
    expect(store.getState().stale).toBe(false);
    await wait();
    expect(checks).toHaveLength(2);
  });

  it("a tried move has the kept document's verdicts beside its own", async () => {
    const { store, checks } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    store.getState().tryMove({ point: "upper.out", to: [-5, 660, 444], meaning: "cut" });
    expect(store.getState().resultBefore).toBe(clash);
    await wait();
    const better = checkResult([]);
    checks[1]!.finish(better);
    await wait();
    expect(store.getState().result).toBe(better);
    store.getState().putBack();
    expect(store.getState().result).toBe(clash);
    expect(store.getState().resultBefore).toBeNull();
  });
});

describe("trouble", () => {
  it("a bolt-up that jams shows the car as it is kept, with nothing of a move tried before", async () => {
    const { store, checks } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    const kept = store.getState().scene!.points.get("toe.in");
    store.getState().tryMove({ point: "toe.in", to: [-150, 333, 225], meaning: "bolt" });
    await wait();
    checks[1]!.finish(checkResult([]));
    await wait();
    store.getState().tryMove({ point: "toe.in", to: [-150, -2000, 225], meaning: "bolt" });
    await wait();
    const { error, scene, result, resultBefore, stale } = store.getState();
    expect(error?.code).toBe("out-of-reach");
    expect(refusalText(store.getState())).toMatch(/^The parts keep their lengths and jam after \d+ % of this move\./);
    expect(scene!.points.get("toe.in")).toEqual(kept);
    expect({ result, resultBefore, stale }).toEqual({ result: clash, resultBefore: clash, stale: false });
    store.getState().tryMove({ point: "toe.in", to: [-150, 333, 225], meaning: "bolt" });
    expect(store.getState()).toMatchObject({ error: null, stale: true });
  });

  it("a scene that cannot be shown leaves the last good one, and says where it is wrong", async () => {
    const { store } = begun();
    const good = store.getState().scene;
    store.getState().edit("lower.out", { ...smallScene(), wheel: { ...smallScene().wheel, centre: "nowhere" } });
    expect(store.getState().scene).toBe(good);
    expect(store.getState().error?.code).toBe("missing-point");
    expect(store.getState().error?.path).toBe("wheel.centre");
    store.getState().undo();
    expect(store.getState().error).toBeNull();
  });

  it("members that leave the wheel loose are told as soon as they are", () => {
    const { store } = begun();
    const loose = smallScene().members.map((member) =>
      member.id === "toe"
        ? { id: "toe", kind: "link" as const, inboard: [0, 740, 700], outboard: [0, 740, 500] }
        : member,
    );
    store.getState().edit("toe", smallScene({ members: loose as SceneDocument["members"] }));
    expect(store.getState().error).not.toBeNull();
  });

  it("a workshop that breaks is told, and asked again when the builder wants it", async () => {
    const { store, checks, engine } = begun();
    await wait();
    checks[0]!.fail(new Error("a worker stopped"));
    await wait();
    expect(store.getState().workTrouble).toBe("a worker stopped");
    engine.checkAgain();
    await wait();
    checks[1]!.finish(clash);
    await wait();
    expect(store.getState().workTrouble).toBeNull();
    expect(store.getState().result).toBe(clash);
  });

  it("stopping keeps what was found so far, marked as a part", async () => {
    const { store, checks, engine } = begun();
    await wait();
    checks[0]!.onProgress({ pairsDone: 3, pairsTotal: 40, soFar: clash });
    expect(store.getState().result).toBe(clash);
    expect(store.getState().partial).toBe(true);
    engine.stopCheck();
    await wait();
    expect(store.getState().result).toBe(clash);
    expect(store.getState().partial).toBe(true);
    expect(store.getState().checkStopped).toBe(true);
    expect(store.getState().checking).toBeNull();
  });

  it("an edit of the loads starts no check, builds nothing, and lets go of no move that is tried", async () => {
    const { store, checks, builds } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    store.getState().tryMove({ point: "toe.in", to: [-150, 331, 225], meaning: "cut" });
    await wait();
    const [asked, built] = [checks.length, builds.length];
    store.getState().editAside("mass", (document) => withLoads(document, { cornerMass_kg: 250 }));
    await wait();
    expect(store.getState().document?.loads).toEqual({ cornerMass_kg: 250 });
    expect(store.getState().tried).not.toBeNull();
    store.getState().undo();
    await wait();
    expect(store.getState().document?.loads).toBeUndefined();
    store.getState().redo();
    await wait();
    expect(store.getState().stepName).toBe("mass");
    expect(checks.map(({ document }) => document)).not.toContainEqual(
      expect.objectContaining({ loads: expect.anything() }),
    );
    expect(builds.length).toBeLessThanOrEqual(built + 1);
    expect(checks.length).toBeLessThanOrEqual(asked + 1);
  });

  it("a measure that is pinned, hidden or taken away again starts no check, and lets go of no move that is tried", async () => {
    const { store, checks, builds } = begun();
    await wait();
    checks[0]!.finish(clash);
    await wait();
    const [asked, built] = [checks.length, builds.length];
    store.getState().tryMove({ point: "toe.in", to: [-150, 331, 225], meaning: "cut" });
    await wait();
    const tried = checks.length;
    expect(tried).toBeGreaterThan(asked);
    store.getState().putBack();
    await wait();
    const gap = { kind: "gap", a: { part: "rail" }, b: { part: "gearbox-mount-ear" } } as const;
    store.getState().editAside("pin a gap", (document) => withMeasure(document, gap));
    await wait();
    expect(store.getState().document?.measures).toHaveLength(1);
    expect(store.getState().stepName).toBe("pin a gap");
    store.getState().undo();
    await wait();
    expect(store.getState().document?.measures).toBeUndefined();
    expect(checks.length).toBe(tried);
    expect(builds.length).toBeGreaterThan(built);
    expect(store.getState().stale).toBe(false);
  });
});
