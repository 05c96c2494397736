import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareCards, hasChanged } from "../../src/buildlog/compare.ts";
import { agrees } from "../truth/agreement.ts";
import { card, document, POINTS, pair, result } from "./fixture.ts";

const before = card();
const after = card({
  points: { ...POINTS, "upper.in": [130, 392, 446], "tie.in": [0, 300, 200] },
  result: result({
    pairs: [
      pair({ clearance_mm: 5.1, verdict: "tight" }),
      pair({ a: "arch", b: "tyre", side: "right", required_mm: 15, clearance_mm: -2.3 }),
      pair({ a: "end-cover", b: "upper", verdict: "tight", clearance_mm: 2.8 }),
      pair({ a: "spring", b: "upper", verdict: "tight", clearance_mm: 3.6 }),
    ],
  }),
});

describe("compareCards", () => {
  it("tells what moved, by how much and how far", () => {
    const moved = compareCards(before, after).moved;
    expect(moved.map((point) => point.name)).toEqual(["upper.in", "tie.in"]);
    expect(moved[0]!.by).toEqual([-20, 0, 6]);
    // by Pythagoras: the square root of 20² + 6²
    agrees("movedPoint", moved[0]!.distance_mm, Math.sqrt(436), 12);
    expect(moved[1]).toMatchObject({ before: null, after: [0, 300, 200], by: null });
  });

  it("tells the room won or lost by each pair that both cards checked", () => {
    const won = new Map(compareCards(before, after).pairs.map((found) => [`${found.a} ${found.b}`, found.won_mm]));
    agrees("roomWon", won.get("ear upper"), 11.3, 12);
    agrees("roomWon", won.get("arch tyre"), 0.8, 12);
    expect(won.get("end-cover upper")).toBe(0);
  });

  it("keeps pairs that only one card checked, without a difference", () => {
    const pairs = compareCards(before, after).pairs;
    expect(pairs.find((found) => found.a === "spring")).toMatchObject({ before: null, won_mm: null });
    expect(pairs.find((found) => found.a === "sump")).toMatchObject({ after: null, won_mm: null });
  });

  it("starts with what was or is worst", () => {
    expect(compareCards(before, after).pairs.map((found) => found.a)).toEqual([
      "ear",
      "arch",
      "end-cover",
      "spring",
      "sump",
    ]);
  });

  it("finds nothing between a card and itself", () => {
    const same = compareCards(before, before);
    expect(same.moved).toEqual([]);
    expect(same.pairs.filter(hasChanged)).toEqual([]);
    expect(same.otherChanges).toEqual([]);
  });

  it("names other changes of the scene by their path", () => {
    const wheel = (tyre: string, centre: [number, number, number]) =>
      card({ document: document(POINTS, { wheel: { ...document().wheel, tyre, centre } }) });
    expect(compareCards(wheel("205/55R16", [0, 740, 300]), wheel("195/60R15", [0, 740, 301])).otherChanges).toEqual([
      { path: "wheel.centre", before: [0, 740, 300], after: [0, 740, 301] },
      { path: "wheel.tyre", before: "205/55R16", after: "195/60R15" },
    ]);
  });

  it("told the other way round, gives the same moves and room with the sign turned", () => {
    const clearance = fc.double({ min: -50, max: 50, noNaN: true });
    const coordinate = fc.integer({ min: -900, max: 900 });
    fc.assert(
      fc.property(clearance, clearance, fc.tuple(coordinate, coordinate, coordinate), (first, second, at) => {
        const a = card({ result: result({ pairs: [pair({ clearance_mm: first })] }) });
        const b = card({
          points: { ...POINTS, "upper.in": at },
          result: result({ pairs: [pair({ clearance_mm: second })] }),
        });
        const [there, back] = [compareCards(a, b), compareCards(b, a)];
        expect(back.pairs[0]!.won_mm).toBe(0 - there.pairs[0]!.won_mm!);
        expect(back.moved.map((point) => point.distance_mm)).toEqual(there.moved.map((point) => point.distance_mm));
      }),
      { numRuns: 50 },
    );
  });
});
