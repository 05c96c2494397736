import { describe, expect, it } from "vitest";
import { sweepPair } from "../../../src/clearance/sweep.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { Motion, PairSweep, SweepBody } from "../../../src/clearance/types.ts";
import { distance, type Vec3 } from "../../../src/maths/vec3.ts";
import { randomFrom, randomPoint } from "../kernel/meshes.ts";
import { ball, body, brick, motion, pairOf, rockOfB, STILL, shiftPose, type Turn, turned, variant } from "./shapes.ts";

const shelf = new TreeShelf();
const RAD = Math.PI / 180;
const SEED = 5150;

/** Body b rests as drawn and rocks by the turn; body a runs its motion. */
function rockingPair(a: SweepBody, b: SweepBody, turn: Turn, ofA: Motion = STILL, from = -60, to = 60) {
  return pairOf(a, b, [
    variant(ofA, turned(turn, 0), from, to),
    { ...variant(ofA, turned(turn, 1), from, to, "drive"), rock: rockOfB(ofA, b.solid, turn) },
  ]);
}

function sweepOf(a: SweepBody, b: SweepBody, turn: Turn, ofA: Motion = STILL): PairSweep {
  return sweepPair(shelf, a, b, rockingPair(a, b, turn, ofA));
}

/** + about Y takes what lies forward of the axis down. */
const about = (angle_deg: number, shift: Vec3 = [0, 0, 0]): Turn => ({
  axis: [0, 1, 0],
  about: [0, 0, 0],
  angle: angle_deg * RAD,
  shift,
});

describe("a lug on the powertrain that passes a thin tab between rest and the extreme", () => {
  // the lug is 6 mm high, 300 mm ahead of the axis, and goes down by 300·sin 5° = 26 mm; the tab is 2 mm thick, 13 mm down
  const lug = body("lug", brick([20, 30, 6], [300, 0, 0]));
  const tab = body("tab", brick([40, 60, 2], [310, 0, -13]));
  const turn = about(5);

  it("is clear at both ends and found in between, as deep as half of both heights, where their middles meet", () => {
    const ends = pairOf(tab, lug, [
      variant(STILL, turned(turn, 0), -60, 60),
      variant(STILL, turned(turn, 1), -60, 60, "drive"),
    ]);
    expect(sweepPair(shelf, tab, lug, ends).clearance_mm).toBeGreaterThan(5);
    const result = sweepOf(tab, lug, turn);
    // level it would be 4 deep; at 2.5° the far end of the lug, 10 mm from its middle, reaches 10·sin 2.5° = 0.44 lower
    expect(result.clearance_mm).toBeLessThan(-4 * 0.95);
    expect(result.clearance_mm).toBeGreaterThan(-4.6);
    expect(result.measure).toBe("convex");
    expect(result.at.pose).toBe("drive");
    // the middle goes past the tab's at asin(13/300) = 2.484° of 5°; the depth is the same within 0.44/300 rad around it
    expect(Math.abs(result.at.share! - 2.484 / 5)).toBeLessThan(0.03);
    expect(result.clashTravel_mm).toEqual([[-60, 60]]);
    const [rest, drive] = result.byVariant;
    expect(rest!.share).toBeUndefined();
    expect(rest!.clearance_mm).toBeGreaterThan(5);
    expect(drive!.clearance_mm).toBe(result.clearance_mm);
    expect(drive!.share).toBe(result.at.share);
  });

  it("tells its points at the share where it touches", () => {
    const result = sweepOf(tab, lug, turn);
    // both points of the depth lie where lug and tab overlap: 290 to 330 ahead, 10 to 17 mm down
    for (const [x, y, z] of [result.pointA, result.pointB]) {
      expect(x).toBeGreaterThan(288);
      expect(x).toBeLessThan(331);
      expect(Math.abs(y)).toBeLessThanOrEqual(15.001);
      expect(z).toBeGreaterThan(-18);
      expect(z).toBeLessThan(-9);
    }
    expect(Math.abs(result.partingOfA[2])).toBeGreaterThan(0.99);
  });

  it("touches only in the stretch of travel in which the tab is there", () => {
    // the tab comes in from the side with travel: 60 wide, 30 of the lug, so they meet within ±45 mm
    const crossing = motion(-60, 60, 1, (travel) => shiftPose([0, travel, 0]));
    const result = sweepOf(tab, lug, turn, crossing);
    expect(result.clashTravel_mm).toHaveLength(1);
    const [from, to] = result.clashTravel_mm[0]!;
    expect(Math.abs(from + 45)).toBeLessThan(0.1);
    expect(Math.abs(to - 45)).toBeLessThan(0.1);
    expect(result.at.share).toBeGreaterThan(0.4);
    expect(result.at.share).toBeLessThan(0.6);
    // the plot of the worst pose runs from end to end at that share and holds the worst
    const { profile, travel_mm, clearance_mm } = result.byVariant[1]!;
    const travels = [...profile].filter((_, i) => i % 2 === 0);
    expect([travels[0], travels.at(-1)]).toEqual([-60, 60]);
    expect(profile[2 * travels.indexOf(travel_mm) + 1]).toBe(clearance_mm);
  });

  it("is missed by no more than the lug's own height when it only just passes", () => {
    // a thin pin 0.4 mm high that the lug's face passes at 0.2 mm: never a clash
    const beside = body("beside", brick([40, 60, 0.4], [320 + 10.25, 0, -13]));
    const result = sweepOf(beside, lug, turn);
    expect(result.clashTravel_mm).toEqual([]);
    expect(result.at.share).toBeDefined();
    // closed form: the lug's forward face is tilted, its corner at (310, ±3); nearest to the pin's end as it passes its height
    let least = Number.POSITIVE_INFINITY;
    for (let angle = 0; angle <= 5; angle += 0.0005) {
      const [s, c] = [Math.sin(angle * RAD), Math.cos(angle * RAD)];
      for (let up = -3; up <= 3; up += 0.05) {
        const [x, z] = [310 * c + up * s, up * c - 310 * s];
        least = Math.min(least, Math.hypot(310.25 - x, Math.max(0, Math.abs(z + 13) - 0.2)));
      }
    }
    expect(Math.abs(result.clearance_mm - least)).toBeLessThan(0.02);
  });
});

describe("a ball that swings past a ball", () => {
  // centres √(x² + z²) apart in closed form; facets make the balls up to 0.05 mm thinner
  const swinging = body("swinging", ball(20, [300, 0, 0], 32));

  it("is told at the share where it is nearest", () => {
    for (const [angle, past] of [
      [3, 8],
      [1.2, 5],
      [6.3, 7],
    ] as const) {
      const [s, c] = [Math.sin(angle * RAD), Math.cos(angle * RAD)];
      const still = body("still", ball(15, [341 * c, 0, -341 * s], 32));
      const result = sweepOf(still, swinging, about(past));
      expect(Math.abs(result.clearance_mm - 6)).toBeLessThan(0.12);
      expect(Math.abs(result.at.share! - angle / past)).toBeLessThan(0.1);
      expect(result.clashTravel_mm).toEqual([]);
    }
  });

  it("is told at the pose itself where it comes nearer all the way, and at rest where it goes away", () => {
    const below = body("below", ball(15, [300, 0, -80], 32));
    const nearing = sweepOf(below, swinging, about(5));
    expect(nearing.at).toEqual({ travel_mm: expect.any(Number), pose: "drive" });
    const leaving = sweepOf(below, swinging, about(-5));
    expect(leaving.at.pose).toBe("rest");
    expect(Math.abs(leaving.clearance_mm - 45)).toBeLessThan(0.15);
    // what the pose alone is worth: √(80 + 26.1)² + 1.1² less both radii
    const away = Math.hypot(300 * (1 - Math.cos(5 * RAD)), 80 + 300 * Math.sin(5 * RAD)) - 35;
    const [, drive] = leaving.byVariant;
    expect(drive!.share).toBeUndefined();
    // so much farther than rest that it need not be known how far
    expect(drive!.isAtLeast).toBe(true);
    expect(drive!.clearance_mm).toBeGreaterThan(leaving.clearance_mm - 0.1);
    expect(drive!.clearance_mm).toBeLessThan(away + 0.15);
  });

  it("counts a shift with the turn", () => {
    // a shift alone, straight through the other ball's side: centres 30 apart half way
    const still = body("still", ball(15, [300, 30, -40], 32));
    const result = sweepOf(still, swinging, about(0, [0, 0, -80]));
    expect(Math.abs(result.clearance_mm + 5)).toBeLessThan(0.3);
    expect(Math.abs(result.at.share! - 0.5)).toBeLessThan(0.1);
  });
});

describe("what the way to a pose costs", () => {
  function statesOf(a: SweepBody, b: SweepBody, turn: Turn, ofA: Motion, withRock: boolean): number {
    let states = 0;
    const pair = rockingPair(a, b, turn, ofA);
    const variants = withRock ? pair.variants : pair.variants.map(({ rock: _rock, ...alone }) => alone);
    sweepPair(shelf, a, b, { ...pair, variants }, { isCancelled: () => states++ < 0 });
    return states;
  }
  const casing = body("casing", ball(60, [300, 0, 0], 16));
  const lifting = motion(-60, 60, 1, (travel) => shiftPose([0, 0, travel]));

  it("is next to nothing for pairs that are far off", () => {
    const random = randomFrom(SEED);
    const [total, extra] = [
      { pairs: 0, states: 0 },
      { pairs: 0, states: 0 },
    ];
    while (total.pairs < 100) {
      const at = randomPoint(random, 700);
      // the casing rocks by 19 mm
      if (distance(at, [300, 0, 0]) < 60 + 30 + 60 + 19) continue;
      const far = body("far", ball(30, at, 12));
      const ofA = random() < 0.5 ? STILL : lifting;
      const without = statesOf(far, casing, about(3), ofA, false);
      const more = statesOf(far, casing, about(3), ofA, true) - without;
      total.pairs++;
      total.states += without;
      if (more > 0) extra.pairs++;
      extra.states += more;
    }
    expect(extra.pairs, `seed ${SEED}`).toBeLessThan(total.pairs / 10);
    expect(extra.states, `seed ${SEED}`).toBeLessThan(total.states / 20);
  });

  it("is nothing for a pair that comes nearer all the way", () => {
    const near = body("near", ball(30, [300, 0, -140], 12));
    expect(statesOf(near, casing, about(3), STILL, true)).toBe(statesOf(near, casing, about(3), STILL, false));
  });
});

describe("a way that begins nowhere", () => {
  it("is refused", () => {
    const [a, b] = [body("a", ball(10)), body("b", ball(10, [40, 0, 0]))];
    const pair = rockingPair(a, b, about(3));
    expect(() => sweepPair(shelf, a, b, { ...pair, variants: pair.variants.slice(1) })).toThrow(/begins at no variant/);
  });
});

describe("a way without a bound of its motion", () => {
  it("is looked at in sixteenths", () => {
    const lug = body("lug", brick([20, 30, 6], [300, 0, 0]));
    const tab = body("tab", brick([40, 60, 2], [310, 0, -13]));
    const { variants, ...pair } = rockingPair(tab, lug, about(5));
    const loose = { speed_mm: Number.POSITIVE_INFINITY, bend_mm: Number.POSITIVE_INFINITY };
    const drive = { ...variants[1]!, rock: { ...variants[1]!.rock!, b: loose } };
    const result = sweepPair(shelf, tab, lug, { ...pair, variants: [variants[0]!, drive] });
    expect(result.clearance_mm).toBeLessThan(-3.5);
    expect((result.at.share! * 16) % 1).toBe(0);
  });
});

describe("a pair that comes nearest at rest, beyond the travel in which the pose is credible", () => {
  it("is settled: where rest is known too loosely for the way, it is measured more closely", () => {
    // a goes up at 0.65 mm a mm of travel towards b, which rocks away from it
    const a = body("a", brick([60, 60, 20], [0, 0, -100]));
    const b = body("b", ball(20, [300, 0, 0]));
    const rising = motion(-34, 65, 1, (travel) => shiftPose([300, 0, 0.65 * travel]));
    const turn = about(-4.2);
    const pair = {
      ...pairOf(a, b, [
        variant(rising, turned(turn, 0), -34, 65),
        { ...variant(rising, turned(turn, 1), -17, 19, "drive"), rock: rockOfB(rising, b.solid, turn) },
      ]),
      required_mm: 6,
    };
    let states = 0;
    const swept = sweepPair(new TreeShelf(), a, b, pair, { isCancelled: () => ++states > 2000 });
    // centre to centre 100 mm, less both halves and the rise
    expect(swept.clearance_mm).toBeCloseTo(100 - 20 - 10 - 0.65 * 65, 6);
    expect(swept.at).toEqual({ travel_mm: 65, pose: "rest" });
  });
});
