import { Matrix, solve } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { grows, growthOf } from "./growth.ts";

/** Scatter that is the same every time: a linear congruential generator (constants of Numerical Recipes, from memory). */
function scatter(size: number): (i: number) => number {
  let state = 12345;
  return () => {
    state = (1664525 * state + 1013904223) >>> 0;
    return size * (state / 2 ** 31 - 1);
  };
}

const series = (count: number, value: (i: number) => number) => {
  const at = Array.from({ length: count }, (_, i) => i + 1);
  return growthOf(at, at.map(value));
};

describe("whether a figure grows", () => {
  it("is no for what stands still or is made once, yes for what is never let go", () => {
    expect(grows(series(10, () => 50))).toBe(false);
    expect(grows(series(40, (i) => 100 + Math.min(i, 15) * 20))).toBe(false);
    expect(grows(series(40, (i) => 100 + i))).toBe(true);
    expect(grows(series(40, (i) => 100 - i))).toBe(false);
  });

  it("is no for scatter alone, yes for a slope in it", () => {
    const noise = scatter(5);
    expect(grows(series(60, (i) => 100 + noise(i)))).toBe(false);
    expect(grows(series(60, (i) => 100 + 0.5 * i + noise(i)))).toBe(true);
  });

  it("fits the line that a matrix library fits", () => {
    const noise = scatter(3);
    const y = Array.from({ length: 30 }, (_, i) => 7 + 0.2 * i + noise(i));
    const x = y.map((_, i) => i ** 1.1);
    const half = y.length / 2;
    const rows = x.slice(half).map((value) => [1, value]);
    const fitted = solve(new Matrix(rows), Matrix.columnVector(y.slice(half)));
    const { gained, mean } = growthOf(x, y);
    expect(gained).toBeCloseTo(fitted.get(1, 0) * (x.at(-1)! - x[half]!), 9);
    expect(mean).toBeCloseTo(y.slice(half).reduce((sum, value) => sum + value, 0) / half, 12);
  });
});
