import { describe, expect, it } from "vitest";
import { viewPlan } from "../../src/app/corner/viewPlan.ts";

describe("what lies over the view", () => {
  it("the rules and the words below them stay clear of the chips and of the dock, one row or two", () => {
    const row_px = 48;
    for (const [layout, width, height, chipRows, dockRows] of [
      ["wide", 1032, 620, 1, 1],
      ["wide", 900, 620, 1, 2],
      ["tablet", 820, 584, 1, 1],
      ["tablet", 614, 610, 1, 2],
      ["tablet", 520, 610, 2, 2],
    ] as const) {
      const { ruleTop, ruleHeight } = viewPlan(layout, width, height);
      expect(ruleTop).toBeGreaterThanOrEqual(14 + chipRows * row_px + (chipRows - 1) * 8);
      // two lines of words: a button of 24 and a line of 18
      expect(ruleTop + ruleHeight + 42).toBeLessThanOrEqual(height - 14 - dockRows * row_px - (dockRows - 1) * 8);
    }
  });

  it("on a phone the words above the rule stay clear of the chips, the rule of the dock", () => {
    // 42 in a hundred of 780
    const { ruleTop, ruleHeight } = viewPlan("phone", 360, 328);
    expect(ruleTop - 26).toBeGreaterThanOrEqual(8 + 48);
    expect(ruleTop + ruleHeight).toBeLessThanOrEqual(328 - 8 - 48);
  });
});
