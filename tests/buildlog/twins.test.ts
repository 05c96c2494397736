import { describe, expect, it } from "vitest";
import { foldTwins } from "../../src/buildlog/twins.ts";

type Gap = [side: "left" | "right" | "both", name: string, mm: number];

function fold(gaps: Gap[]) {
  const twins = foldTwins(gaps, {
    name: ([, name]) => name,
    side: ([side]) => side,
    alike: ([, , one], [, , other]) => Math.abs(one - other) < 0.05,
  });
  return twins.map(({ item, side }) => [side, item[1], item[2]]);
}

describe("foldTwins", () => {
  it("tells a pair that is alike on both sides once, where it first stood", () => {
    expect(
      fold([
        ["right", "link", 3],
        ["left", "tyre", 4],
        ["left", "link", 3.01],
      ]),
    ).toEqual([
      ["both", "link", 3],
      ["left", "tyre", 4],
    ]);
  });

  it("keeps sides apart that differ, as an offset sump makes them", () => {
    const gaps: Gap[] = [
      ["left", "link", -6.2],
      ["right", "link", 3],
    ];
    expect(fold(gaps)).toEqual(gaps);
  });

  it("leaves alone what has no side, and what is there on one side only", () => {
    const gaps: Gap[] = [
      ["both", "sump", 3],
      ["left", "link", 3],
    ];
    expect(fold(gaps)).toEqual(gaps);
  });
});
