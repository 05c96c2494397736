import { describe, expect, it } from "vitest";
import { bandAt, bandsOfSide, stillTouch, stretchOf } from "../../src/app/rule/bands.ts";
import { graduations } from "../../src/app/rule/graduations.ts";
import { ruleShape, travelAtY } from "../../src/app/rule/ruleShape.ts";
import { pairKey } from "../../src/app/store/state.ts";
import { pairVerdict } from "./smallScene.ts";

describe("bands of a wheel's rule", () => {
  it("clash as the check found it, tight up to where the gap reaches what is wanted", () => {
    // the gap falls from 26 at −70 to 0 at −6: 10 is reached at −6 − 10·64/26
    const bands = bandsOfSide([pairVerdict()], "left");
    expect(bands.map(({ kind }) => kind)).toEqual(["tight", "clash"]);
    expect(bands[0]!.from_mm).toBeCloseTo(-6 - (10 * 64) / 26, 9);
    expect(bands[0]!.to_mm).toBe(-6);
    expect([bands[1]!.from_mm, bands[1]!.to_mm]).toEqual([-6, 60]);
  });

  it("bands never overlap, and clash paints over tight", () => {
    const tight = pairVerdict({
      a: "rail",
      verdict: "tight",
      clearance_mm: 3,
      at: { travel_mm: -70, pose: "rest" },
      clashTravel_mm: [],
      profile: [
        [-70, 3],
        [60, 3],
      ],
    });
    const bands = bandsOfSide([pairVerdict(), tight], "left");
    for (let i = 1; i < bands.length; i++) expect(bands[i]!.from_mm).toBeGreaterThanOrEqual(bands[i - 1]!.to_mm);
    expect(bandAt(bands, 0)?.kind).toBe("clash");
    expect(bandAt(bands, -69)?.kind).toBe("tight");
    expect(bandAt(bands, -69)?.worst).toBe(pairKey(tight));
  });

  it("a band leads to the deepest of the pairs that make it", () => {
    const at = { travel_mm: 15, pose: "rest" };
    const deeper = pairVerdict({ a: "rail", clearance_mm: -9, at, clashTravel_mm: [[10, 20]] });
    const bands = bandsOfSide([pairVerdict(), deeper], "left");
    expect(bands.find(({ kind }) => kind === "clash")?.worst).toBe(pairKey(deeper));
  });

  it("what is left out, on the other side, or never moves is not painted", () => {
    const accepted = pairVerdict({ verdict: "accepted", why: "rubber flap" });
    const right = pairVerdict({ side: "right" });
    const still = pairVerdict({ side: "both" });
    expect(bandsOfSide([accepted, right, still], "left")).toEqual([]);
  });

  it("engine against frame counts as it is in the shown pose, the worst first", () => {
    const head = pairVerdict({ side: "both", a: "head", b: "hoop", byPose: { rest: 4, pulling: -3, overrun: 12 } });
    const sump = pairVerdict({ side: "both", a: "rail", b: "sump", byPose: { rest: 2, pulling: -1, overrun: 12 } });
    expect(stillTouch([sump, head], "pulling")).toEqual({ kind: "clash", worst: pairKey(head) });
    expect(stillTouch([head, sump], "rest")).toEqual({ kind: "tight", worst: pairKey(sump) });
    expect(stillTouch([head, sump], "overrun")).toBeNull();
    expect(stillTouch([{ ...head, verdict: "accepted" }], "pulling")).toBeNull();
    expect(stillTouch([pairVerdict()], "pulling")).toBeNull();
  });

  it("the bracket of a chosen pair spans its touch, or else its tight travel", () => {
    expect(stretchOf(pairVerdict())).toEqual([-6, 60]);
    expect(
      stretchOf(pairVerdict({ verdict: "clear", clashTravel_mm: [], clearance_mm: 20, profile: [[0, 20]] })),
    ).toBeNull();
  });
});

describe("the rule", () => {
  it("carries ride height, and labels that are distances from it", () => {
    const lines = graduations(-70, 80, 362, "mm");
    expect(lines.find(({ travel_mm }) => travel_mm === 0)?.label).toBe("0");
    expect(lines.filter(({ label }) => label !== null).map(({ label }) => label)).toEqual([
      "60",
      "40",
      "20",
      "0",
      "20",
      "40",
      "60",
      "80",
    ]);
  });

  it("in inches its lines stand at whole parts of an inch", () => {
    const lines = graduations(-70, 80, 362, "in");
    for (const { travel_mm } of lines)
      expect((travel_mm / 25.4) * 8).toBeCloseTo(Math.round((travel_mm / 25.4) * 8), 9);
    expect(lines.filter(({ rank }) => rank === "long").map(({ label }) => label)).toEqual([
      "2",
      "1",
      "0",
      "1",
      "2",
      "3",
    ]);
  });

  it("halves of an inch say which inch they belong to", () => {
    const halves = graduations(-70, 80, 362, "in").filter(({ rank, label }) => rank === "middle" && label !== null);
    expect(halves.map(({ label }) => label)).toEqual(["2½", "1½", "½", "½", "1½", "2½"]);
  });

  it("the flag's height and the travel under the pointer are each other's inverse", () => {
    const shape = ruleShape({ side: "right", height: 430, large: false, range_mm: [-70, 80] });
    for (const travel_mm of [-70, -12.5, 0, 38, 80])
      expect(travelAtY(shape, shape.y(travel_mm))).toBeCloseTo(travel_mm, 9);
    expect(travelAtY(shape, -500)).toBe(80);
  });
});
