// Numbers of story 11 are those of the project's acceptance stories, worked out apart from this program; ±0.3 mm and ±0.02°.
import { describe, expect, it } from "vitest";
import { withMeasured } from "../../src/scene/measured.ts";
import { judgeAsBuilt } from "../../src/studies/asBuilt/asBuilt.ts";
import { studyCorner } from "./studyCorner.ts";

const drawn = studyCorner({ sides: "both" });

describe("story 11: the left mount welded 2 mm inboard and 3 low", () => {
  const built = judgeAsBuilt(withMeasured(drawn, "left", "arm.front", { at: [430, 638, 327] }), new Map(), "story");

  it("reads +0.40° of toe on the left, what was meant on the right, and 0.12° of thrust", () => {
    expect(Math.abs(built.sides.left!.toe_deg - 0.4)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(built.sides.right!.toeError_deg)).toBeLessThan(1e-9);
    expect(Math.abs(built.thrust_deg! - 0.12)).toBeLessThanOrEqual(0.02);
    expect(built.sides.left!.measured).toEqual(["arm.front"]);
  });

  it("is brought back by that mount 2 mm out", () => {
    const front = built.sides.left!.toeBack.find(({ point }) => point === "arm.front")!;
    expect(Math.abs(front.by[1] - 2)).toBeLessThanOrEqual(0.3);
    const ways = built.sides.left!.toeBack.map(({ by }) => Math.hypot(...by));
    expect(ways).toEqual([...ways].sort((a, b) => a - b));
  });

  it("tells the clearances of each side as it is", () => {
    const of = (side: "left" | "right") =>
      built.sides[side]!.check.pairs.find(({ a, b }) => a === "sump-rail" && b === "upper");
    expect(of("left")!.side).toBe("left");
    expect(of("left")!.clearance_mm).not.toBe(of("right")?.clearance_mm);
  });
});

it("the same error on the right, in the image, gives the same toe there and thrust the other way", () => {
  const left = judgeAsBuilt(withMeasured(drawn, "left", "arm.front", { at: [430, 638, 327] }), new Map(), "story");
  const right = judgeAsBuilt(withMeasured(drawn, "right", "arm.front", { at: [430, -638, 327] }), new Map(), "story");
  expect(right.sides.right!.toe_deg).toBeCloseTo(left.sides.left!.toe_deg, 9);
  expect(right.thrust_deg).toBeCloseTo(-left.thrust_deg!, 9);
});
