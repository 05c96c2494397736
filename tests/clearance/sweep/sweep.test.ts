import { describe, expect, it } from "vitest";
import { SweepStopped, sweepAll, sweepPair, sweepPairs } from "../../../src/clearance/sweep.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { Motion, PairSweep, SweepBody } from "../../../src/clearance/types.ts";
import { applyPose, composePoses, invertPose, rotationPose, turnByPose } from "../../../src/maths/pose.ts";
import { add, distance, scale, type Vec3 } from "../../../src/maths/vec3.ts";
import { blob, randomFrom } from "../kernel/meshes.ts";
import {
  armPose,
  ball,
  bar,
  body,
  brick,
  joined,
  motion,
  movedMotion,
  pairOf,
  STILL,
  shiftPose,
  variant,
} from "./shapes.ts";

const shelf = new TreeShelf();

function sweepOf(
  a: SweepBody,
  b: SweepBody,
  ofA: Motion,
  ofB: Motion,
  from: number,
  to: number,
  required = 10,
): PairSweep {
  return sweepPair(shelf, a, b, pairOf(a, b, [variant(ofA, ofB, from, to)], required));
}

const along = (direction: Vec3, from: number, to: number, step = 1): Motion =>
  motion(from, to, step, (travel) => shiftPose(scale(direction, travel)));

describe("two balls that pass each other on a line", () => {
  // distance of centres √(t² + h²) in closed form
  const still = body("still", ball(20, [0, 0, 0], 32));
  const passing = (h: number) => body("passing", ball(15, [0, h, 0], 32));

  it("clash where the closed form says so, to 0.1 mm of travel", () => {
    for (const h of [0, 10, 30, 34]) {
      const result = sweepOf(still, passing(h), STILL, along([1, 0, 0], -60, 60), -60, 60);
      const end = Math.sqrt(35 ** 2 - h ** 2);
      // facets make the balls up to 0.04 mm thinner, which shifts a grazing end by that over its slope
      const facets = (0.06 * 35) / end;
      expect(result.clashTravel_mm).toHaveLength(1);
      const [from, to] = result.clashTravel_mm[0]!;
      expect(Math.abs(from + end)).toBeLessThan(0.1 + facets);
      expect(Math.abs(to - end)).toBeLessThan(0.1 + facets);
      expect(result.clearance_mm).toBeGreaterThan(h - 35 - 0.01);
      expect(result.clearance_mm).toBeLessThan(h - 35 + 0.15);
      // with centres nearer than 20 − 15 the smaller ball is wholly within the larger
      expect(result.measure).toBe(h < 5 ? "inside" : "convex");
    }
  });

  it("part by the depth along the reported direction", () => {
    const result = sweepOf(still, passing(30), STILL, along([1, 0, 0], -60, 60), -60, 60);
    expect(Math.abs(result.partingOfA[1] + 1)).toBeLessThan(0.01);
    const step = add(result.pointA, scale(result.partingOfA, -result.clearance_mm));
    expect(distance(step, result.pointB)).toBeLessThan(0.01);
  });

  it("keep the closest distance where they miss", () => {
    for (const [h, tolerance] of [
      [35.5, 0.05],
      [44, 0.05],
      [150, 0.15],
    ] as const) {
      const result = sweepOf(still, passing(h), STILL, along([1, 0, 0], -60, 60), -60, 60);
      expect(result.clashTravel_mm).toEqual([]);
      expect(result.measure).toBe("surface");
      expect(result.clearance_mm).toBeGreaterThan(h - 35 - 1e-3);
      expect(result.clearance_mm).toBeLessThan(h - 35 + tolerance);
      expect(distance(result.pointA, result.pointB)).toBeCloseTo(result.clearance_mm, 6);
    }
  });

  it("give a profile from end to end that holds the worst", () => {
    const result = sweepOf(still, passing(44), STILL, along([1, 0, 0], -60, 60), -60, 60);
    const { profile, travel_mm, clearance_mm } = result.byVariant[0]!;
    const travels = [...profile].filter((_, i) => i % 2 === 0);
    expect(travels[0]).toBe(-60);
    expect(travels[travels.length - 1]).toBe(60);
    expect([...travels].sort((p, q) => p - q)).toEqual(travels);
    for (let i = 1; i < travels.length; i++) expect(travels[i]! - travels[i - 1]!).toBeLessThanOrEqual(5 + 1e-9);
    expect(profile[2 * travels.indexOf(travel_mm) + 1]).toBe(clearance_mm);
    for (let i = 0; i < travels.length; i++) {
      // within twice the facets of the closed form at every state
      expect(Math.abs(profile[2 * i + 1]! - (Math.hypot(travels[i]!, 44) - 35))).toBeLessThan(0.1);
    }
  });
});

describe("a ball that begins or ends its travel wholly within another", () => {
  // what lies far out makes the clear end look the likelier to be near, which is measured first
  const hollow = body("hollow", joined(ball(60, [0, 0, 0], 32), ball(2, [400, 0, 0], 8)));
  const small = body("small", ball(5, [0, 0, 0], 16));

  it("clashes all the way out of it, deepest where it is farthest in", () => {
    for (const way of [1, -1]) {
      const leaving = motion(-100, 100, 1, (travel) => shiftPose([100 + way * travel, 0, 0]));
      const result = sweepOf(hollow, small, STILL, leaving, -100, 100);
      expect(result.clashTravel_mm).toHaveLength(1);
      const [from, to] = result.clashTravel_mm[0]!;
      const [deep, clear] = way === 1 ? [from, to] : [to, from];
      expect(deep).toBe(-100 * way);
      expect(Math.abs(clear - -35 * way)).toBeLessThan(0.3);
      expect(result.at.travel_mm).toBe(-100 * way);
      expect(result.clearance_mm).toBeLessThan(-64.7);
      expect(result.clearance_mm).toBeGreaterThan(-65.01);
      expect(result.measure).toBe("inside");
    }
  });
});

describe("what happens between two states", () => {
  it("finds a thin tab that swings past a pin between two knots far apart", () => {
    // 1 mm tab on a 250 mm arm that turns by 90° over 30 mm of travel; knots 30 mm apart: 13 mm of arc a mm of travel
    const tab = body("tab", brick([20, 8, 1], [250, 0, 0]));
    const swing = motion(-15, 15, 30, (travel) => rotationPose([0, 1, 0], (travel / 30) * (Math.PI / 2)));
    for (const angle of [3.1, 11, -27.7]) {
      const at = applyPose(rotationPose([0, 1, 0], (angle * Math.PI) / 180), [250, 0, 0]);
      const pin = body("pin", brick([2, 20, 0.6], at));
      const result = sweepOf(tab, pin, swing, STILL, -15, 15);
      expect(result.clashTravel_mm.length, `${angle}`).toBe(1);
      const [from, to] = result.clashTravel_mm[0]!;
      expect(from).toBeLessThan(angle / 3);
      expect(to).toBeGreaterThan(angle / 3);
      expect(to - from).toBeLessThan(1);
      expect(result.clearance_mm).toBeLessThan(-0.5);
      const besides = body("besides", brick([2, 20, 0.6], [at[0] * 1.06, 0, at[2] * 1.06]));
      expect(sweepOf(tab, besides, swing, STILL, -15, 15).clashTravel_mm).toEqual([]);
    }
  });

  it("finds both clashes and the gap between them", () => {
    const rail = body("rail", joined(brick([10, 40, 40], [-20, 0, 0]), brick([10, 40, 40], [20, 0, 0])));
    const bolt = body("bolt", brick([8, 8, 8]));
    const result = sweepOf(rail, bolt, STILL, along([1, 0, 0], -60, 60), -60, 60);
    const expected = [
      [-29, -11],
      [11, 29],
    ];
    expect(result.clashTravel_mm).toHaveLength(2);
    result.clashTravel_mm.forEach((ends, i) => {
      for (const k of [0, 1] as const) expect(Math.abs(ends[k] - expected[i]![k]!)).toBeLessThan(0.1);
    });
  });

  it("finds a body that is wholly inside another at every state", () => {
    const box = body("box", brick([200, 200, 200]));
    const nut = body("nut", ball(5));
    const result = sweepOf(box, nut, STILL, along([0, 0, 1], -60, 60), -60, 60);
    expect(result.measure).toBe("inside");
    expect(result.clashTravel_mm).toEqual([[-60, 60]]);
    // deepest in the middle: 100 to any side, and the nut's radius
    expect(Math.abs(result.clearance_mm + 105)).toBeLessThan(0.1);
    expect(Math.abs(result.at.travel_mm)).toBeLessThan(65);
  });
});

describe("long parts that cross", () => {
  it("read the full depth r1 + r2 − distance of the axes", () => {
    const a = body("a", bar([-300, 0, 0], [300, 0, 0], 15, 96));
    for (const gap of [5, 12, 24]) {
      const b = body("b", bar([0, -300, gap], [0, 300, gap], 12, 96));
      const result = sweepOf(a, b, STILL, along([1, 0, 0], -40, 40), -40, 40);
      expect(result.measure).toBe("convex");
      expect(Math.abs(result.clearance_mm - (gap - 27))).toBeLessThan(0.05);
      expect(result.clashTravel_mm).toEqual([[-40, 40]]);
    }
  });
});

describe("whatever way a pair is told", () => {
  const a = body("a", joined(bar([-80, 10, 5], [90, -20, 30], 14), brick([40, 30, 20], [60, 40, 10])));
  const b = body("b", joined(ball(30, [40, 70, 60], 12), bar([40, 70, 60], [-60, 90, 30], 9)));
  const ofA = motion(-50, 50, 1, (travel) => armPose(travel, [250, 0, 0]));
  const ofB = motion(-50, 50, 1, (travel) =>
    composePoses(shiftPose([0.1 * travel, -0.6 * travel, 0]), armPose(-travel, [0, 0, 300])),
  );
  const plain = sweepOf(a, b, ofA, ofB, -50, 50);

  function alike(other: PairSweep): void {
    expect(Math.abs(other.clearance_mm - plain.clearance_mm)).toBeLessThan(0.06);
    expect(other.clashTravel_mm).toHaveLength(plain.clashTravel_mm.length);
    other.clashTravel_mm.forEach((ends, i) => {
      expect(Math.abs(ends[0] - plain.clashTravel_mm[i]![0])).toBeLessThan(0.1);
      expect(Math.abs(ends[1] - plain.clashTravel_mm[i]![1])).toBeLessThan(0.1);
    });
  }

  it("is a pair worth asking about", () => {
    expect(plain.clearance_mm).toBeLessThan(0);
    expect(plain.clashTravel_mm.length).toBeGreaterThan(0);
    expect(plain.clashTravel_mm[0]![1] - plain.clashTravel_mm[0]![0]).toBeLessThan(99);
  });

  it("exchanging the bodies changes nothing but the sense", () => {
    const swapped = sweepOf(b, a, ofB, ofA, -50, 50);
    alike(swapped);
    expect(Math.abs(swapped.clearance_mm - plain.clearance_mm)).toBeLessThan(0.06);
  });

  it("moving both by one rigid motion changes nothing but coordinates", () => {
    const by = composePoses(shiftPose([400, -700, 300]), rotationPose([0.6, 0, 0.8], 1.1));
    const moved = sweepOf(a, b, movedMotion(by, ofA), movedMotion(by, ofB), -50, 50);
    alike(moved);
    expect(moved.clearance_mm).toBeCloseTo(plain.clearance_mm, 6);
    const back = invertPose(by);
    for (const [p, q] of [
      [applyPose(back, moved.pointA), plain.pointA],
      [applyPose(back, moved.pointB), plain.pointB],
      [turnByPose(back, moved.partingOfA), plain.partingOfA],
    ] as const) {
      expect(distance(p, q)).toBeLessThan(1e-3);
    }
  });

  it("halving the knots changes no verdict", () => {
    const halved = (poses: (travel: number) => Float64Array) => motion(-50, 50, 0.5, poses);
    const finer = sweepOf(
      a,
      b,
      halved((travel) => armPose(travel, [250, 0, 0])),
      halved((travel) => composePoses(shiftPose([0.1 * travel, -0.6 * travel, 0]), armPose(-travel, [0, 0, 300]))),
      -50,
      50,
    );
    alike(finer);
  });
});

describe("several poses of the powertrain", () => {
  const sump = body("sump", brick([100, 100, 60]));
  const arm = body("arm", bar([-100, 0, 50], [100, 0, 50], 10));
  const rising = along([0, 0, 1], -10, 40);
  const rocked: Motion = { travel_mm: Float64Array.of(0), poses: shiftPose([0, 0, 12]) };

  it("keep the worst of each and unite the clashes of all", () => {
    const pair = pairOf(sump, arm, [
      variant(STILL, rising, -10, 40, "rest"),
      variant(rocked, rising, -10, 40, "drive"),
      variant(rocked, rising, 20, 40, "overrun"),
      variant(STILL, rising, -10, 40, "coast"),
    ]);
    const result = sweepPair(shelf, sump, arm, pair);
    // 50 − 10 − 30 = 10 at ride height
    const expected = [0, -12, 18, 0];
    expect(result.byVariant.map(({ pose }) => pose)).toEqual(["rest", "drive", "overrun", "coast"]);
    result.byVariant.forEach(({ clearance_mm }, i) => {
      expect(Math.abs(clearance_mm - expected[i]!)).toBeLessThan(0.1);
    });
    expect(result.at).toEqual({ travel_mm: -10, pose: "drive" });
    expect(result.clashTravel_mm).toHaveLength(1);
    expect(result.clashTravel_mm[0]![0]).toBe(-10);
    expect(Math.abs(result.clashTravel_mm[0]![1] - 2)).toBeLessThan(0.1);
  });

  it("measure a pair that stands still only once", () => {
    let states = 0;
    const pair = pairOf(sump, arm, [variant(STILL, STILL, -70, 80), variant(STILL, STILL, -70, 80, "drive")]);
    const result = sweepPair(shelf, sump, arm, pair, {
      isCancelled: () => {
        states++;
        return false;
      },
    });
    expect(states).toBe(1);
    expect(result.clearance_mm).toBeCloseTo(10, 5);
    expect([...result.byVariant[1]!.profile].filter((_, i) => i % 2 === 0)).toEqual([-70, 80]);
  });
});

describe("a stop", () => {
  // two rough lumps of some 20,000 triangles, a few millimetres apart: a single distance takes thousands of pairs of nodes
  const random = randomFrom(5);
  const still = body("still", blob(random, 100, 80, [1, 1, 1], 0.02, [0, 0, 0]));
  const moving = body("moving", blob(random, 100, 80, [1, 1, 1], 0.02, [168, 0, 0]));
  const pair = pairOf(still, moving, [variant(STILL, along([0, 0, 1], -2, 2), -2, 2)]);

  it("is seen within a single state, and leaves the trees as they were", () => {
    const kept = new TreeShelf();
    for (const each of [still, moving]) kept.prepare(each);
    const all = { asked: 0 };
    const expected = sweepPair(kept, still, moving, pair, { isCancelled: () => all.asked++ < 0 });
    for (const stopAt of [1, 2, Math.floor(all.asked / 2)]) {
      let asked = 0;
      const isCancelled = () => ++asked > stopAt;
      expect(() => sweepPair(kept, still, moving, pair, { isCancelled })).toThrow(SweepStopped);
      expect(asked).toBe(stopAt + 1);
      expect(sweepPair(kept, still, moving, pair).clearance_mm).toBe(expected.clearance_mm);
    }
  });
});

describe("a job of many pairs", () => {
  const bodies = [body("p", ball(10)), body("q", ball(10, [50, 0, 0])), body("r", ball(10, [0, 60, 0]))];
  const moving = along([0, 0, 1], -20, 20);
  const pairs = [
    pairOf(bodies[0]!, bodies[1]!, [variant(STILL, moving, -20, 20)]),
    pairOf(bodies[0]!, bodies[2]!, [variant(STILL, moving, -20, 20)]),
    pairOf(bodies[1]!, bodies[2]!, [variant(moving, moving, -20, 20)]),
  ];

  it("reports each pair as it is done, in order", () => {
    const seen: number[] = [];
    const results = sweepAll(bodies, pairs, { onProgress: (done, total) => seen.push(done, total) });
    expect(seen).toEqual([1, 3, 2, 3, 3, 3]);
    expect(results.map(({ clearance_mm }) => Math.round(clearance_mm))).toEqual([
      30,
      40,
      Math.round(Math.hypot(50, 60) - 20),
    ]);
  });

  it("can be left between two pairs", () => {
    const job = sweepPairs(bodies, pairs);
    expect(job.next().done).toBe(false);
    job.return();
    expect(job.next().done).toBe(true);
  });

  it("stops within a pair when cancelled", () => {
    let asked = 0;
    expect(() =>
      sweepAll(bodies, pairs, {
        isCancelled: () => {
          asked++;
          return asked > 3;
        },
      }),
    ).toThrow(SweepStopped);
    expect(asked).toBe(4);
  });
});
