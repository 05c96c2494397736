import { describe, expect, it } from "vitest";
import { chainSegments } from "../../../src/clearance/crossingChain.ts";

describe("chaining segments", () => {
  it("joins shuffled segments of either sense into one open run and one closed one", () => {
    const runs = chainSegments([
      ["c", "b"],
      ["x", "y"],
      ["a", "b"],
      ["z", "y"],
      ["d", "c"],
      ["x", "z"],
    ]);
    expect(runs).toHaveLength(2);
    expect([runs[0]!.join(""), [...runs[0]!].reverse().join("")]).toContain("abcd");
    expect(runs[1]).toHaveLength(4);
    expect(runs[1]![0]).toBe(runs[1]![3]);
    expect([...new Set(runs[1])].sort()).toEqual(["x", "y", "z"]);
  });

  it("uses every segment once where several meet", () => {
    const segments = [
      ["m", "a"],
      ["m", "b"],
      ["m", "c"],
      ["m", "d"],
      ["a", "b"],
      ["c", "d"],
    ] as const;
    const runs = chainSegments(segments);
    expect(runs.reduce((sum, run) => sum + run.length - 1, 0)).toBe(segments.length);
    expect(chainSegments([])).toEqual([]);
  });
});
