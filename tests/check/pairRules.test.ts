import { describe, expect, it } from "vitest";
import { acceptedWhy, meetingRule, requiredClearance } from "../../src/check/pairRules.ts";
import { uniteRanges, verdictOf } from "../../src/check/verdict.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { storyCorner } from "./storyCorner.ts";

const tyre = { id: "tyre", role: null };
const pipe = { id: "tailpipe", role: "exhaust" };
const link = { id: "upper", role: "arm" };

function rules(...list: [string, string, number][]) {
  return {
    default_mm: 10,
    jointRadius_mm: 40,
    rules: list.map(([a, b, mm]) => ({ a, b, mm })),
    accept: [],
  };
}

describe("the clearance a pair wants", () => {
  it("is the default where no rule names the pair", () => {
    expect(requiredClearance(rules(["tyre", "*", 15]))(pipe, link)).toBe(10);
  });

  it("takes an id over a role over any, wherever they stand", () => {
    const clearances = rules(
      ["*", "*", 1],
      ["tyre", "*", 15],
      ["role:exhaust", "role:arm", 25],
      ["role:exhaust", "*", 20],
    );
    expect(requiredClearance(clearances)(tyre, pipe)).toBe(15);
    expect(requiredClearance(clearances)(link, pipe)).toBe(25);
    expect(requiredClearance(clearances)(pipe, { id: "frame", role: null })).toBe(20);
    expect(requiredClearance(clearances)(link, { id: "frame", role: null })).toBe(1);
  });

  it("takes the last of equally specific rules, in either order of the pair", () => {
    const clearances = rules(["tyre", "tailpipe", 30], ["tailpipe", "tyre", 40]);
    expect(requiredClearance(clearances)(tyre, pipe)).toBe(40);
    expect(requiredClearance(clearances)(pipe, tyre)).toBe(40);
  });

  it("tells why a pair is left out", () => {
    const clearances = { ...rules(), accept: [{ a: "tailpipe", b: "tyre", why: "rubber flap" }] };
    expect(acceptedWhy(clearances, tyre, pipe)).toBe("rubber flap");
    expect(acceptedWhy(clearances, link, pipe)).toBeNull();
  });
});

describe("which bodies make a pair", () => {
  const scene = resolveScene(storyCorner());
  const canMeet = meetingRule(scene);
  const on = (mount: string, id = mount) => ({ id, mount });

  it("leaves out what is one rigid part", () => {
    expect(canMeet(on("carrier", "tyre"), on("arm"))).toBe(false);
    expect(canMeet(on("chassis", "rail"), on("chassis", "post"))).toBe(false);
  });

  it("leaves out damper halves, which slide in each other", () => {
    expect(canMeet(on("damper-upper"), on("damper-lower", "spring"))).toBe(false);
  });

  it("holds links against the carrier, the chassis and each other", () => {
    expect(canMeet(on("upper"), on("carrier", "tyre"))).toBe(true);
    expect(canMeet(on("upper"), on("chassis", "bracket"))).toBe(true);
    expect(canMeet(on("upper"), on("lower"))).toBe(true);
  });

  it("holds the powertrain against the chassis only where it moves", () => {
    expect(canMeet(on("powertrain", "sump"), on("chassis", "rail"))).toBe(true);
    const still = resolveScene(storyCorner({ powertrain: { poses: [] } }));
    expect(meetingRule(still)(on("powertrain", "sump"), on("chassis", "rail"))).toBe(false);
  });
});

describe("verdicts", () => {
  it("are clash below 0, tight from 0 to the wanted clearance, clear from there", () => {
    expect(verdictOf(-0.001, 10)).toBe("clash");
    expect(verdictOf(0, 10)).toBe("tight");
    expect(verdictOf(9.999, 10)).toBe("tight");
    expect(verdictOf(10, 10)).toBe("clear");
  });

  it("unite touching and overlapping ranges", () => {
    expect(
      uniteRanges([
        [5, 8],
        [-3, 0],
        [7, 12],
        [0, 1],
      ]),
    ).toEqual([
      [-3, 1],
      [5, 12],
    ]);
  });
});
