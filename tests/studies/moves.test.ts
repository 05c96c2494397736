// Numbers of the stories are those of the project's acceptance stories, worked out apart from this program by rigid-joint geometry;
// they hold to ±0.3 mm and ±0.02°.
import { describe, expect, it } from "vitest";
import { add, length, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { withPoint } from "../../src/scene/points.ts";
import { fullCheck } from "../../src/studies/fullCheck.ts";
import { findMoves, type MovesRequest } from "../../src/studies/moves/moves.ts";
import { smallestAlong, smallestFree, smallestTogether } from "../../src/studies/moves/search.ts";
import { agrees, agreesOn, agreesWithin } from "../truth/agreement.ts";
import { railGap, railOnly } from "./railCorner.ts";
import { studyCorner } from "./studyCorner.ts";

const asked = (change: Partial<MovesRequest> = {}): MovesRequest => ({
  document: studyCorner(),
  meshFiles: new Map(),
  pair: "sump-rail/upper",
  points: ["upper.in"],
  fits: ["cut"],
  within_mm: 24,
  limits: {},
  travelStep_mm: 10,
  proved: 1,
  ...change,
});

describe("story 1: the smallest move of the upper link's pivot", () => {
  const result = findMoves(asked({ document: railOnly() }));
  const free = result.moves.find(({ kind }) => kind === "free") ?? result.moves[0]!;

  it("names the part, how much is lacking, at full bump with the tail rocked down", () => {
    expect(result.targets).toHaveLength(1);
    expect(result.targets[0]).toMatchObject({
      a: "sump-rail",
      b: "upper",
      required_mm: 10,
      verdict: "tight",
      at: { pose: "tail-down" },
    });
    expect(Math.abs(result.targets[0]!.clearance_mm - 0.1)).toBeLessThanOrEqual(0.3);
  });

  it("is no longer than the stories' own 15 out and 10 down, and clears in the whole check", () => {
    expect(result.moves[0]!.way_mm).toBeLessThanOrEqual(Math.hypot(15, 10));
    expect(result.moves[0]!.price!.open).toEqual([]);
    expect(result.moves[0]!.price!.passed).toEqual([]);
  });

  it("is as short as brute force finds: every place of a 1 mm lattice that is 1 mm nearer fails", () => {
    const start: Vec3 = [-20, 410, 425];
    const most = Math.ceil(free.way_mm);
    let nearer = 0;
    for (let y = -most; y <= most; y++) {
      for (let z = -most; z <= most; z++) {
        if (Math.hypot(y, z) > free.way_mm - 1) continue;
        nearer++;
        expect(railGap(withPoint(railOnly(), "upper.in", add(start, [0, y, z]))), `${y} out, ${z} up`).toBeLessThan(10);
      }
    }
    expect(nearer).toBeGreaterThan(20);
    // the lattice found none that is more than 1 mm shorter
    agreesOn("smallestMove", nearer > 20, true);
  });

  it("costs what the two whole checks differ by", () => {
    const [best] = result.moves;
    const before = fullCheck(railOnly(), new Map(), "before").sides.left!.curve;
    const after = fullCheck(
      withPoint(railOnly(), "upper.in", add([-20, 410, 425], best!.moves[0]!.by)),
      new Map(),
      "after",
    ).sides.left!.curve;
    const most = after.reduce(
      (worst, { camber_deg }, i) => Math.max(worst, Math.abs(camber_deg - before[i]!.camber_deg)),
      0,
    );
    agrees("price", Math.abs(best!.price!.camber_deg.by), most, 9);
  });

  it("tells how thin the link would have to be: 9.9 mm are lacking, 19.8 of diameter", () => {
    expect(result.thinner).toHaveLength(1);
    agreesWithin("thinner", result.thinner[0]!.diameter_mm, 30 - 2 * (10 - railGap(railOnly())), 0.6);
    const { members, ...rest } = railOnly();
    const diameter_mm = result.thinner[0]!.diameter_mm - 0.2;
    const thin = {
      ...rest,
      members: members.map((member) => (member.id === "upper" ? { ...member, diameter_mm } : member)),
    } as SceneDocument;
    const rail = fullCheck(thin, new Map(), "thin").pairs.find(({ a, b }) => a === "sump-rail" && b === "upper")!;
    expect(rail.verdict).toBe("clear");
  });

  it("finds nothing shorter under a limit that refuses it, and refuses pairs that do not clash", () => {
    const limited = findMoves(asked({ document: railOnly(), limits: { toeChange_deg: 1.6 }, proved: 0 }));
    const [best] = limited.moves;
    if (best) expect(best.way_mm).toBeGreaterThanOrEqual(result.moves[0]!.way_mm - 0.1);
    expect(() => findMoves(asked({ pair: "sump-rail/lower" }))).toThrow(/neither clashes nor is tight/);
  });
});

describe("searching for the smallest move", () => {
  /** Clears outside a ball about a place beside the start. */
  const ball = (centre: Vec3, radius: number) => (by: Vec3) =>
    Math.hypot(...by.map((v, k) => v - centre[k]!)) >= radius;

  // of a ball that holds the start the nearest point outside is straight away from its centre, radius less distance off (geometry)
  it.each<[Vec3, number]>([
    [[1, 2, -1], 7],
    [[0, 0, 4], 6],
    [[-3, 1, 2], 9],
  ])("freely gets out of a ball about %j of radius %s the shortest way", (centre, radius) => {
    const found = smallestFree(20, 2.5, ball(centre, radius))!;
    expect(length(found)).toBeGreaterThanOrEqual(radius - length(centre) - 1e-9);
    expect(length(found)).toBeLessThanOrEqual(radius - length(centre) + 0.25);
  });

  it("along an axis gives the first way that clears, to 0.05 mm, or none", () => {
    const way = smallestAlong([0, 1, 0], 20, ball([0, 2, 0], 6))!;
    expect(way[1]).toBeGreaterThanOrEqual(8);
    expect(way[1]).toBeLessThanOrEqual(8.05);
    expect(smallestAlong([0, 1, 0], 5, ball([0, 2, 0], 6))).toBeNull();
  });

  it("of two together takes the least sum of squares where neither does alone", () => {
    const both = smallestTogether(
      [
        [1, 0, 0],
        [0, 0, 1],
      ],
      20,
      1,
      (a, b) => a[0] >= 4.3 && b[2] >= 2.6,
    )!;
    expect(both.first[0]).toBeGreaterThanOrEqual(4.3);
    expect(both.first[0]).toBeLessThanOrEqual(4.4);
    expect(both.second[2]).toBeLessThanOrEqual(2.7);
    expect(
      smallestTogether(
        [
          [1, 0, 0],
          [0, 0, 1],
        ],
        3,
        1,
        (a) => a[0] >= 4.3,
      ),
    ).toBeNull();
  });
});
