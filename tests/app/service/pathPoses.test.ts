import { describe, expect, it } from "vitest";
import { goneOf, placeOnPath, posesOnPath } from "../../../src/app/service/pathPoses.ts";
import { applyPose, identityPose, translationPose } from "../../../src/maths/pose.ts";
import type { WalkedStep } from "../../../src/studies/service/walk.ts";

const up: WalkedStep = {
  kind: "straight",
  got: 40,
  of: 40,
  moves: ["part"],
  leg: { kind: "straight", way: [0, 0, 1], length_mm: 40 },
};
/** A quarter turn about the upright axis through the origin, stopped a third of the way. */
const turn: WalkedStep = {
  kind: "turn",
  got: 30,
  of: 90,
  moves: ["part"],
  leg: { kind: "turn", about: [0, 0, 0], axis: [0, 0, 1], angle_deg: 90, reach_mm: 100 },
};

describe("a part on its path", () => {
  it("goes as far as each step got", () => {
    expect(goneOf(up)).toBe(40);
    expect(goneOf(turn)).toBeCloseTo((Math.PI / 2) * 100 * (30 / 90), 9);
  });

  it("stands where it is drawn at the beginning, and at the end where it is stopped", () => {
    const poses = new Map([
      ["part", translationPose([100, 0, 0])],
      ["other", identityPose()],
    ]);
    const at = (along: number) => applyPose(posesOnPath([up, turn], along, poses).get("part")!, [0, 0, 0]);
    expect(at(0)).toEqual([100, 0, 0]);
    const angle = Math.PI / 6;
    const end = at(1);
    [100 * Math.cos(angle), 100 * Math.sin(angle), 40].forEach((wanted, k) => {
      expect(end[k]!).toBeCloseTo(wanted, 9);
    });
    expect(posesOnPath([up, turn], 1, poses).get("other")).toEqual(identityPose());
    expect(poses.get("part")).toEqual(translationPose([100, 0, 0]));
  });

  it("is in the step that its share of the way falls into", () => {
    const whole = goneOf(up) + goneOf(turn);
    expect(placeOnPath([up, turn], 20 / whole)).toEqual({ step: 0, at_mm: 20 });
    const late = placeOnPath([up, turn], 50 / whole);
    expect(late.step).toBe(1);
    expect(late.at_mm).toBeCloseTo(10, 9);
  });
});
