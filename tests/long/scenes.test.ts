import { describe, expect, it } from "vitest";
import { concludeCheck, prepareCheck } from "../../src/check/check.ts";
import { sweepPair } from "../../src/clearance/sweep.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { SCENE_FILES } from "../scenes/files.ts";

/** What each scene is there to show, and nothing else: its notes say the same in words. */
const LESSONS: Readonly<Record<string, readonly string[]>> = {
  "1-hub-and-arm-donor-links.json": [
    "clash left sump/upper",
    "tight both sump/upper-bolt",
    "tight both sump/upper-hanger",
  ],
  "2-hub-and-arm-re-cut-link.json": [],
  "3-double-wishbones-toe-link.json": ["tight left upper/upper-front-hanger", "tight right upper/upper-front-hanger"],
  "4-semi-trailing-arm.json": ["clash both head/hoop"],
  "5-strut-lower-wishbone.json": ["tight left spring/tyre", "tight right spring/tyre"],
  "6-five-links.json": ["accepted both exhaust/exhaust-rubber"],
};

describe.each(SCENE_FILES.map((file) => [file.name, file] as const))("the whole check of %s", (name, { scene }) => {
  const prepared = prepareCheck(scene);
  const shelf = new TreeShelf();
  const result = concludeCheck(
    prepared,
    prepared.pairs.map(({ first, second, sweep }, i) => [i, sweepPair(shelf, first, second, sweep)] as const),
    name,
  );

  it("finds what the scene is there to show and nothing else", () => {
    const found = result.pairs
      .filter(({ verdict }) => verdict !== "clear")
      .map(({ verdict, side, a, b }) => `${verdict} ${side} ${a}/${b}`);
    expect(found.sort()).toEqual(LESSONS[name]);
  });

  it("passes no limit", () => {
    expect(result.limits.filter(({ verdict }) => verdict !== "clear")).toEqual([]);
  });
});

describe("the semi-trailing arm's car", () => {
  it("touches only while the engine pulls", () => {
    const file = SCENE_FILES.find(({ name }) => name.startsWith("4-"))!;
    const prepared = prepareCheck(file.scene);
    const planned = prepared.pairs.find(({ first, second }) => first.id === "head" && second.id === "hoop")!;
    const { byVariant } = sweepPair(new TreeShelf(), planned.first, planned.second, planned.sweep);
    const clearance = (id: string) => byVariant.find(({ pose }) => pose === id)!.clearance_mm;
    expect(clearance("pulling")).toBeLessThan(-1);
    expect(clearance("rest")).toBeGreaterThan(1);
    expect(clearance("overrun")).toBeGreaterThan(clearance("rest"));
  });
});
