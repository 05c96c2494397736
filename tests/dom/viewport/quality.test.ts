import { describe, expect, it } from "vitest";
import { QualityGovernor, sampling } from "../../../src/app/viewport/quality.ts";

const frames = (governor: QualityGovernor, ms: number, count: number) => {
  for (let i = 0; i < count; i++) governor.note(ms, governor.moving, true);
};

describe("the picture's quality", () => {
  it("stays high on a quick machine", () => {
    const governor = new QualityGovernor(false);
    frames(governor, 9, 200);
    expect([governor.moving, governor.still]).toEqual([2, 2]);
  });

  it("forgives a slow frame now and then, and the first, in which programs are compiled", () => {
    const governor = new QualityGovernor(false);
    frames(governor, 900, 1);
    for (let i = 0; i < 40; i++) frames(governor, i % 4 === 0 ? 60 : 12, 1);
    expect(governor.moving).toBe(2);
  });

  it("steps down one level at a time where frames keep being slow", () => {
    const governor = new QualityGovernor(false);
    frames(governor, 50, 4);
    expect(governor.moving).toBe(1);
    frames(governor, 50, 4);
    expect(governor.moving).toBe(0);
    frames(governor, 50, 50);
    expect(governor.moving).toBe(0);
  });

  it("goes straight to the lowest where a frame takes far too long, and keeps the picture at rest fine", () => {
    const governor = new QualityGovernor(false);
    frames(governor, 300, 2);
    expect([governor.moving, governor.still]).toEqual([0, 2]);
    expect(governor.restAfter_ms).toBeGreaterThan(200);
  });

  it("lowers the picture at rest only where it holds up the hand", () => {
    const governor = new QualityGovernor(false);
    governor.note(50, 2, false);
    governor.note(900, 2, false);
    expect(governor.still).toBe(2);
    governor.note(2500, 2, false);
    expect(governor.still).toBe(1);
  });

  it("starts movements low without a graphics card, and gives a new size a fresh chance", () => {
    expect(new QualityGovernor(true).moving).toBe(0);
    const governor = new QualityGovernor(false);
    frames(governor, 300, 2);
    governor.reset();
    expect(governor.moving).toBe(2);
  });

  it("takes more samples for a higher level, on any screen", () => {
    for (const dpr of [1, 1.25, 1.5, 2]) {
      expect(sampling(0, dpr).samples).toBeLessThanOrEqual(sampling(1, dpr).samples);
      expect(sampling(1, dpr).samples).toBeLessThanOrEqual(sampling(2, dpr).samples);
      expect(sampling(2, dpr).samples).toBeGreaterThan(dpr);
      expect(sampling(2, dpr).pixels).toBe(dpr);
    }
  });
});
