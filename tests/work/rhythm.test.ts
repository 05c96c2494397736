import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { TellingPace } from "../../src/work/rhythm.ts";

describe("telling what takes time to make and to hear", () => {
  beforeEach(() => void vi.useFakeTimers({ toFake: ["performance"] }));
  afterEach(() => void vi.useRealTimers());
  const pass = (ms: number) => vi.advanceTimersByTime(ms);
  const settle = () => new Promise<void>((settled) => queueMicrotask(() => queueMicrotask(() => settled())));

  it("waits for the interval, at the beginning too", async () => {
    const pace = new TellingPace(300);
    pass(299);
    expect(pace.isTime()).toBe(false);
    pass(1);
    expect(pace.isTime()).toBe(true);
    pace.tell(() => undefined);
    await settle();
    pass(299);
    expect(pace.isTime()).toBe(false);
    pass(1);
    expect(pace.isTime()).toBe(true);
  });

  it("takes a tenth of the time where it takes long", async () => {
    const pace = new TellingPace(300);
    let made_ms = 0;
    for (let now = 0; now < 100_000; now += 10) {
      pass(10);
      if (!pace.isTime()) continue;
      pace.tell(() => {
        pass(500);
        now += 500;
        made_ms += 500;
      });
      await settle();
    }
    expect(made_ms).toBeGreaterThan(9000);
    expect(made_ms).toBeLessThanOrEqual(10_000);
  });

  it("tells no more before the last was heard, and leaves the hearer as long again", async () => {
    const pace = new TellingPace(300);
    pass(300);
    let hear = (): void => {};
    pace.tell(() => new Promise<void>((heard) => (hear = heard)));
    pass(4000);
    expect(pace.isTime()).toBe(false);
    hear();
    await settle();
    pass(3999);
    expect(pace.isTime()).toBe(false);
    pass(1);
    expect(pace.isTime()).toBe(true);
  });
});
