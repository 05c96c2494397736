import { describe, expect, it } from "vitest";
import { uniteIntervals } from "../../../src/clearance/intervals.ts";
import { lowestBelowChord } from "../../../src/clearance/sweepLowest.ts";

describe("stretches of travel", () => {
  it("unite where they overlap, touch or nearly touch, in ascending order", () => {
    expect(
      uniteIntervals(
        [
          [20, 30],
          [-10, -5],
          [29, 40],
          [-5, 0],
          [40.05, 41],
          [50, 50],
        ],
        0.1,
      ),
    ).toEqual([
      [-10, 0],
      [20, 41],
      [50, 50],
    ]);
    expect(uniteIntervals([], 0.1)).toEqual([]);
  });

  it("keep a short one that lies within a long one", () => {
    expect(
      uniteIntervals(
        [
          [0, 100],
          [10, 20],
          [90, 95],
        ],
        0,
      ),
    ).toEqual([[0, 100]]);
  });
});

describe("the lowest point below a chord", () => {
  it("is the least of the parabola g0 + (g1 − g0)·s − 4·sag·s·(1 − s)", () => {
    for (const [g0, g1, sag] of [
      [10, 10, 2],
      [10, 14, 2],
      [14, 10, 2],
      [10, 30, 2],
      [3, 3.5, 0.2],
      [5, 5, 0],
      [5, 9, 0],
    ] as const) {
      let least = Number.POSITIVE_INFINITY;
      for (let i = 0; i <= 10000; i++) {
        const s = i / 10000;
        least = Math.min(least, g0 + (g1 - g0) * s - 4 * sag * s * (1 - s));
      }
      expect(lowestBelowChord(g0, g1, sag)).toBeCloseTo(least, 6);
    }
  });
});
