import { describe, expect, it } from "vitest";
import {
  comparedLines,
  compareRuns,
  fasterOf,
  isWorse,
  type Measured,
  ratioOf,
  readRun,
  type SavedRun,
} from "./ratios.ts";

const job = (name: string, low: number, median: number, high: number): Measured => ({
  job: name,
  peer: "peer",
  ratio: { low, median, high },
  rounds: 11,
});
const run = (...jobs: Measured[]): SavedRun => ({ format: "elbowroom.bench", version: 1, jobs });
const changeOf = (before: Measured, now: Measured) => compareRuns(run(before), run(now))[0]!.change;

describe("the ratio over the rounds", () => {
  it("is their median with the quartiles, as statistics books have them", () => {
    expect(ratioOf([5, 1, 4, 2, 3])).toEqual({ low: 2, median: 3, high: 4 });
    // definition 7 of Hyndman and Fan: between the two nearest
    expect(ratioOf([1, 2, 3, 4])).toEqual({ low: 1.75, median: 2.5, high: 3.25 });
    expect(ratioOf([0.7])).toEqual({ low: 0.7, median: 0.7, high: 0.7 });
  });

  it("does not follow one round in which something else took the machine", () => {
    expect(ratioOf([1, 1.01, 0.99, 1.02, 25]).median).toBe(1.01);
  });
});

describe("a run held against a saved one", () => {
  it("is slower where more than a tenth is gone and the rounds' middle halves stand apart", () => {
    expect(changeOf(job("a", 0.98, 1, 1.02), job("a", 1.13, 1.15, 1.18))).toBe("slower");
    expect(changeOf(job("a", 0.98, 1, 1.02), job("a", 0.8, 0.82, 0.84))).toBe("faster");
  });

  it("is as before within a tenth, however sure that is", () => {
    expect(changeOf(job("a", 0.999, 1, 1.001), job("a", 1.089, 1.09, 1.091))).toBe("as before");
    expect(changeOf(job("a", 0.999, 1, 1.001), job("a", 0.919, 0.92, 0.921))).toBe("as before");
  });

  it("is as before where the rounds of both spread over each other, however far the medians are apart", () => {
    expect(changeOf(job("a", 0.7, 1, 1.5), job("a", 1.2, 1.4, 1.9))).toBe("as before");
    expect(changeOf(job("a", 0.98, 1, 1.4), job("a", 1.4, 1.5, 1.6))).toBe("as before");
  });

  it("does not see how fast the machine is: ratios alone are held", () => {
    const rounds = [1.0, 1.1, 0.9, 1.05, 0.95];
    const twice = rounds.map((ms) => ms * 2).map((ms) => ms / 2);
    expect(ratioOf(twice)).toEqual(ratioOf(rounds));
  });

  it("tells jobs that are new, and those that are gone, which cannot hide a slow one", () => {
    const compared = compareRuns(run(job("a", 1, 1, 1), job("b", 1, 1, 1)), run(job("b", 1, 1, 1), job("c", 9, 9, 9)));
    expect(compared.map(({ job: name, change }) => [name, change])).toEqual([
      ["b", "as before"],
      ["c", "new"],
      ["a", "gone"],
    ]);
    expect(isWorse(compared)).toBe(true);
    expect(isWorse(compared.filter(({ change }) => change !== "gone"))).toBe(false);
  });

  it("measures again what seems slower: the faster of two measures counts", () => {
    const [before, first] = [run(job("a", 1, 1, 1), job("b", 1, 1, 1)), run(job("a", 2, 2, 2), job("b", 2, 2, 2))];
    const counted = fasterOf(first, run(job("b", 1.01, 1.02, 1.03)));
    expect(compareRuns(before, counted).map(({ change }) => change)).toEqual(["slower", "as before"]);
    expect(fasterOf(first, run(job("a", 3, 3, 3)))).toEqual(first);
  });

  it("takes the same job beside another peer for another", () => {
    const other = { ...job("a", 3, 3, 3), peer: "another" };
    const [fresh, gone] = compareRuns(run(job("a", 1, 1, 1)), run(other));
    expect([fresh!.change, gone!.change]).toEqual(["new", "gone"]);
  });

  it("is told as a table, what got slower first, with the change in percent", () => {
    const before = run(job("same", 1, 1, 1), job("slow", 0.1, 0.1, 0.1));
    const now = run(job("same", 1, 1.02, 1.1), job("slow", 0.15, 0.155, 0.16));
    const lines = comparedLines(compareRuns(before, now));
    expect(lines[1]).toMatch(/^slow +peer +0\.100 \(0\.100–0\.100\) +0\.155 \(0\.150–0\.160\) +\+55 % +slower$/);
    expect(lines[2]).toMatch(/^same .*\+2 % +as before$/);
  });
});

describe("a saved run", () => {
  it("comes back as it was written", () => {
    const saved = run(job("a", 0.1, 0.2, 0.3));
    expect(readRun(JSON.stringify(saved), "kept.json")).toEqual(saved);
  });

  it.each([
    ["{", /kept\.json is not JSON/],
    ["null", /no saved run/],
    ['{"format":"elbowroom.bench","version":2,"jobs":[]}', /no saved run/],
    ['{"format":"elbowroom.bench","version":1,"jobs":[{"job":"a","peer":"b"}]}', /no saved run/],
    [
      '{"format":"elbowroom.bench","version":1,"jobs":[{"job":"a","peer":"b","ratio":{"low":0,"median":1,"high":1}}]}',
      /no saved run/,
    ],
  ])("that is none is refused: %s", (text, wrong) => {
    expect(() => readRun(text, "kept.json")).toThrow(wrong);
  });
});
