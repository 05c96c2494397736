import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { careBars } from "../../../src/app/jig/care.ts";
import { gapAxis, mayMiss } from "../../../src/app/jig/gapSpread.ts";
import { startJig } from "../../../src/app/jig/jigEngine.ts";
import { useCorrectionsTold, useJigLook, useJigTold } from "../../../src/app/jig/jigStore.ts";
import { createAppStore } from "../../../src/app/store/store.ts";
import { useStudies } from "../../../src/app/studies/studiesStore.ts";
import { useTools } from "../../../src/app/tools/toolsStore.ts";
import { withAside } from "../../../src/scene/aside.ts";
import type { ClearanceSpread } from "../../../src/studies/jig/clearances.ts";
import { type JigRequest, planJig } from "../../../src/studies/jig/jig.ts";
import { correctionsOf } from "../../../src/work/corrections.ts";
import type { Question, StudyRoom } from "../../../src/work/protocol.ts";
import { storyCorner } from "../../check/storyCorner.ts";

describe("bars of how much of what is asked an error uses up", () => {
  it("stand on one scale: a mount that may be off by the builder's own accuracy reaches the line exactly", () => {
    const tight = { within_mm: { forward: null, out: 0.5, up: 2 } };
    const even = { within_mm: { forward: 1, out: 4, up: null } };
    const bars = careBars([tight, even], 1);
    expect(bars.of(even).forward).toBeCloseTo(bars.full, 12);
    expect(bars.of(tight).out / bars.full).toBeCloseTo(2, 12);
    expect(bars.of(tight).up / bars.full).toBeCloseTo(0.5, 12);
    expect(bars.of(tight).forward).toBe(0);
    for (const mount of [tight, even]) for (const share of Object.values(bars.of(mount))) expect(share).toBeLessThan(1);
  });

  it("keep the line in sight where nothing is tight, and cut off what would hide all others", () => {
    expect(careBars([{ within_mm: { forward: 50, out: 50, up: 50 } }], 1).full).toBeGreaterThan(0.5);
    expect(careBars([{ within_mm: { forward: 0.001, out: 1, up: 1 } }], 1).full).toBeGreaterThan(0.1);
  });
});

describe("a clearance with its tolerances", () => {
  const gap = (clearance_mm: number, worst_mm: number, required_mm = 10): ClearanceSpread => ({
    side: "left",
    a: "a",
    b: "b",
    required_mm,
    clearance_mm,
    worst_mm,
    rootSumSquares_mm: worst_mm / 2,
    sampled_mm: [0, 0, 0, 0, 0],
    measureAgain: clearance_mm >= required_mm && clearance_mm - required_mm < worst_mm,
  });

  it("may miss what it wants where the worst takes it there, or where that is not known", () => {
    expect(mayMiss(gap(12, 3))).toBe(true);
    expect(mayMiss(gap(13, 3))).toBe(false);
    expect(mayMiss(gap(8, 0))).toBe(true);
    expect(mayMiss(gap(50, Number.NaN))).toBe(true);
  });

  it("is drawn on an axis that holds every row's ends, what is wanted, and touching", () => {
    const [low, high] = gapAxis([gap(12, 3), gap(25, 1)]);
    expect(low).toBeLessThanOrEqual(0);
    expect(high).toBeGreaterThan(26);
    expect(gapAxis([gap(-4, 2)])[0]).toBeLessThan(-6);
    expect(gapAxis([]).every(Number.isFinite)).toBe(true);
  });
});

describe("what is told of the jig", () => {
  const document = storyCorner({ bodies: [] });
  const asked: Question<JigRequest>[] = [];
  let corrections = 0;
  const never = () => ({ done: new Promise<never>(() => {}), stop() {} });
  const workshop = {
    moves: never,
    asBuilt: never,
    jig(question: Question<JigRequest>) {
      asked.push(question);
      return { done: Promise.resolve(planJig({ ...question, samples: 5, meshFiles: new Map() })), stop() {} };
    },
    corrections(of: typeof document, wanted: { toe_deg?: number }) {
      corrections++;
      return { done: Promise.resolve(correctionsOf(of, wanted)), stop() {} };
    },
  } as unknown as StudyRoom;
  const store = createAppStore();
  let end = () => {};
  const later = (time_ms: number) => vi.advanceTimersByTimeAsync(time_ms);

  beforeEach(() => {
    vi.useFakeTimers();
    asked.length = 0;
    corrections = 0;
    useTools.setState({ open: null });
    useStudies.setState({ study: "jig" });
    useJigLook.setState(useJigLook.getInitialState());
    useJigTold.setState({ report: null, stale: false, error: null });
    useCorrectionsTold.setState({ report: null, stale: false, error: null });
    store.setState({ document, tried: null });
    end = startJig(store, workshop);
  });
  afterEach(() => {
    end();
    vi.useRealTimers();
  });

  it("is asked for while it is looked at, without the clearances, of the car as it is kept", async () => {
    await later(1000);
    expect(asked).toHaveLength(0);
    useTools.setState({ open: "studies" });
    await later(1000);
    expect(asked).toHaveLength(1);
    expect(asked[0]!.withClearances).toBe(false);
    expect(useJigTold.getState()).toMatchObject({ stale: false, error: null });
    store.getState().tryMove({ point: "upper.in", to: [-20, 420, 425], meaning: "cut" });
    store.getState().editAside("mass", (kept) => withAside(kept, { loads: { cornerMass_kg: 300 } }));
    await later(1000);
    expect(asked).toHaveLength(1);
    useJigLook.setState({ asked: { ...useJigLook.getState().asked, accuracy_mm: 2 } });
    expect(useJigTold.getState().stale).toBe(true);
    await later(1000);
    expect(asked[1]!.accuracy_mm).toBe(2);
    expect(useJigTold.getState().stale).toBe(false);
  });

  it("tells where mounts must go only once that is looked at", async () => {
    useTools.setState({ open: "studies" });
    await later(1000);
    expect(corrections).toBe(0);
    useJigLook.setState({ tab: "right", wanted: { toe_deg: 0.25 } });
    await later(1000);
    expect(corrections).toBe(1);
    expect(useCorrectionsTold.getState().report?.mounts.map(({ point }) => point)).toContain("arm.front");
  });
});
