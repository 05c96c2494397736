import { describe, expect, it } from "vitest";
import { checkOf, makeCard, nextNumber } from "../../src/buildlog/make.ts";
import { changeThroughTravel, readingsAt } from "../../src/buildlog/readings.ts";
import { agrees } from "../truth/agreement.ts";
import { card, cardInput, curvePoint, pair, result } from "./fixture.ts";

describe("makeCard", () => {
  it("keeps every pair, worst first", () => {
    expect(card().pairs.map((found) => [found.a, found.clearance_mm])).toEqual([
      ["ear", -6.2],
      ["arch", -3.1],
      ["end-cover", 2.8],
      ["sump", 40],
    ]);
  });

  it("puts a clear pair that nearly fails before one with room to spare", () => {
    const near = pair({ a: "near", verdict: "clear", required_mm: 25, clearance_mm: 26 });
    const far = pair({ a: "far", verdict: "clear", required_mm: 5, clearance_mm: 20 });
    expect(card({ result: result({ pairs: [far, near] }) }).pairs.map((found) => found.a)).toEqual(["near", "far"]);
  });

  it("asks about the points of the parts that touch, and of no others", () => {
    expect(card().inQuestion).toEqual(["upper.in", "upper.out"]);
  });

  it("is not changed by what happens to its input later", () => {
    const points: Record<string, [number, number, number]> = { "upper.in": [150, 392, 440] };
    const made = makeCard(cardInput({ points }));
    points["upper.in"]![0] = 999;
    expect(made.points[0]!.at).toEqual([150, 392, 440]);
    expect(made.document).toMatchObject({ points: { "upper.in": [150, 392, 440] } });
  });

  it("gives two cards of one scene the same check and different ids", () => {
    const [a, b] = [card(), card({ title: "Another" })];
    expect(a.check).toBe(b.check);
    expect(a.id).not.toBe(b.id);
  });

  it("gives a scene that differs by a tenth of a millimetre another check", () => {
    const moved = cardInput({ points: { "upper.in": [150.1, 392, 440] } });
    expect(checkOf(moved.document, moved.result)).not.toBe(card().check);
  });

  it("carries the caution", () => {
    expect(card().caution).toContain("prove it by hand with the spring out, on stands");
  });
});

describe("readings at a travel", () => {
  const curve = result().sides.left!.curve;

  it("lie straight between the two nearest points of the curve", () => {
    // halfway from 740 to 741.7, and from 436 to 438
    expect(readingsAt(curve, 40)).toMatchObject({ travel_mm: 40, halfTrack_mm: 740.85, shaft_mm: 437 });
  });

  it("are the curve's own where it has a point", () => {
    expect(readingsAt(curve, -70)).toEqual(curve[0]);
  });

  it("are not made up beyond the curve", () => {
    expect(readingsAt(curve, 81)).toBeNull();
    expect(readingsAt(curve, -71)).toBeNull();
    expect(readingsAt([], 0)).toBeNull();
  });

  it("stay empty where the scene has no shaft", () => {
    const bare = [curvePoint(0, { shaft_mm: null }), curvePoint(10, { shaft_mm: null })];
    expect(readingsAt(bare, 5)!.shaft_mm).toBeNull();
    expect(changeThroughTravel(bare).plunge_mm).toBeNull();
  });

  it("change through travel by the largest less the smallest, wherever those lie", () => {
    const change = changeThroughTravel(curve);
    agrees("wheelChange", change.toe_deg, 0.23, 12);
    agrees("wheelChange", change.camber_deg, 3.22, 12);
    agrees("wheelChange", change.halfTrack_mm, 16.7, 12);
    agrees("wheelChange", change.plunge_mm, 6.1, 12);
  });
});

describe("nextNumber", () => {
  it("does not give a deleted card's number again while a later one stands", () => {
    expect(nextNumber([])).toBe(1);
    expect(nextNumber([1, 2, 7])).toBe(8);
  });
});
