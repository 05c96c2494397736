import { describe, expect, it } from "vitest";
import { clipOutside } from "../../../src/clearance/excuse.ts";
import { sweepPair } from "../../../src/clearance/sweep.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { JointExcuse, PairSweep } from "../../../src/clearance/types.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { distance, type Vec3 } from "../../../src/maths/vec3.ts";
import { randomFrom } from "../kernel/meshes.ts";
import { armPose, ball, bar, body, brick, joined, motion, pairOf, STILL, shiftPose, variant } from "./shapes.ts";

function trianglesOf({ positions, indices }: Solid): Vec3[][] {
  const at = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  return Array.from({ length: indices.length / 3 }, (_, t) => [0, 1, 2].map((k) => at(indices[3 * t + k]!)));
}

function areaOf(triangles: readonly Vec3[][]): number {
  let area = 0;
  for (const [a, b, c] of triangles) {
    const sides = [distance(a!, b!), distance(b!, c!), distance(c!, a!)] as const;
    const half = (sides[0] + sides[1] + sides[2]) / 2;
    area += Math.sqrt(Math.max(0, half * (half - sides[0]) * (half - sides[1]) * (half - sides[2])));
  }
  return area;
}

describe("cutting a ball out of a surface", () => {
  it("leaves of a plate what lies outside the circle, and a little more", () => {
    // closed form: area of the face less the circle of radius √(r² − height²)
    const plate = brick([200, 160, 10]);
    for (const [height, radius] of [
      [0, 40],
      [25, 40],
      [3, 8],
    ] as const) {
      const centre: Vec3 = [30, -10, 5 + height];
      const left = clipOutside(plate, [{ centre, radius_mm: radius }])!;
      const top = trianglesOf(left.solid).filter((triangle) => triangle.every((p) => Math.abs(p[2] - 5) < 1e-6));
      const exact = 200 * 160 - Math.PI * (radius ** 2 - height ** 2);
      const looser = 200 * 160 - Math.PI * ((radius - 0.25) ** 2 - height ** 2);
      expect(areaOf(top)).toBeGreaterThanOrEqual(exact - 1e-3);
      expect(areaOf(top)).toBeLessThanOrEqual(looser);
    }
  });

  it("keeps all at or beyond the radius and nothing 0.25 mm nearer", () => {
    const random = randomFrom(5);
    const solid = joined(brick([80, 60, 40]), bar([0, 0, 0], [150, 20, 60], 18), ball(30, [0, 40, 0], 12));
    const centre: Vec3 = [20, 10, 5];
    const left = trianglesOf(clipOutside(solid, [{ centre, radius_mm: 40 }])!.solid);
    for (const [a, b, c] of left) {
      for (let i = 0; i < 10; i++) {
        const [s, t] = [random(), random()].sort() as [number, number];
        const p = [0, 1, 2].map((k) => s * a![k]! + (t - s) * b![k]! + (1 - t) * c![k]!) as unknown as Vec3;
        expect(distance(p, centre)).toBeGreaterThan(39.75 - 1e-4);
      }
    }
    // nothing else is lost: the area of all that lies outside, sampled from the whole surface
    let outside = 0;
    for (const triangle of trianglesOf(solid)) {
      const [a, b, c] = triangle;
      let share = 0;
      for (let i = 0; i < 400; i++) {
        const [s, t] = [random(), random()].sort() as [number, number];
        const p = [0, 1, 2].map((k) => s * a![k]! + (t - s) * b![k]! + (1 - t) * c![k]!) as unknown as Vec3;
        if (distance(p, centre) >= 40) share++;
      }
      outside += (areaOf([triangle]) * share) / 400;
    }
    expect(areaOf(left) / outside).toBeGreaterThan(0.99);
    expect(areaOf(left) / outside).toBeLessThan(1.03);
  });

  it("says so where it touches nothing, and where nothing is left", () => {
    expect(clipOutside(ball(20), [{ centre: [100, 0, 0], radius_mm: 70 }])).toBeNull();
    expect(clipOutside(ball(20), [{ centre: [0, 0, 0], radius_mm: 30 }])!.solid.indices).toHaveLength(0);
    expect(clipOutside(ball(20), [])).toBeNull();
  });
});

describe("a link in its bracket", () => {
  const shelf = new TreeShelf();
  // two lugs and a back plate 45 mm behind the bolt; the link's eye between the lugs, its shank towards +x
  const bracket = body(
    "bracket",
    joined(brick([60, 6, 60], [0, 18, 0]), brick([60, 6, 60], [0, -18, 0]), bar([0, -25, 0], [0, 25, 0], 6, 24)),
  );
  const link = body("link", joined(ball(16, [0, 0, 0], 16), bar([0, 0, 0], [300, 0, 0], 10, 24)));
  const joint = (radius_mm: number): JointExcuse => ({ centreInA: [0, 0, 0], centreInB: [0, 0, 0], radius_mm });
  const swinging = motion(-60, 60, 1, (travel) => armPose(travel, [0, 0, 0]));

  function sweepOf(other: typeof bracket, excuses: readonly JointExcuse[]): PairSweep {
    return sweepPair(shelf, other, link, pairOf(other, link, [variant(STILL, swinging, -60, 60)], 3, excuses));
  }

  it("clashes with the bolt through its eye if the joint is not excused", () => {
    expect(sweepOf(bracket, []).clashTravel_mm).toEqual([[-60, 60]]);
  });

  it("is clear of its lugs beyond the excused radius", () => {
    // of the lugs only their corners lie beyond 40 mm: x, z = ±30, the shank passes at z ≤ 30·sin; lug face 15 off, shank 10
    const result = sweepOf(bracket, [joint(40)]);
    expect(result.clashTravel_mm).toEqual([]);
    expect(result.clearance_mm).toBeGreaterThan(3);
    expect(result.measure).toBe("surface");
  });

  it("is found where its shank meets a tab farther out than the radius", () => {
    // a tab 70 to 80 mm out, its lower face 20 mm up
    const tabbed = body("tabbed", joined(bracket.solid, brick([10, 20, 10], [75, 0, 25])));
    const result = sweepOf(tabbed, [joint(40)]);
    expect(result.clashTravel_mm).toHaveLength(1);
    // the link rises towards +x at negative angles about +y; the shank's top line reaches the tab's lower corners
    const rises = (angle: number, x: number) => x * Math.tan(angle) + 10 / Math.cos(angle);
    let angle = 0;
    while (Math.max(rises(angle, 70), rises(angle, 80)) < 20) angle += 1e-5;
    const [from, to] = result.clashTravel_mm[0]!;
    const sides = [from, to].filter((end) => Math.abs(end) < 59);
    expect(sides).toHaveLength(1);
    // facets of the shank: up to 10·(1 − cos(π/24)) = 0.09 mm
    expect(Math.abs(Math.abs(sides[0]!) - 300 * Math.sin(angle))).toBeLessThan(0.1 + (0.09 * 300) / 80);
    expect(result.measure).toBe("sampled");
    expect(result.clearance_mm).toBeLessThan(-1);
  });

  it("finds a shank buried wholly in another body beyond the radius", () => {
    const block = body("block", brick([400, 60, 200], [250, 0, 0]));
    const result = sweepOf(block, [joint(40)]);
    expect(result.clashTravel_mm).toEqual([[-60, 60]]);
    expect(result.clearance_mm).toBeLessThan(-15);
  });

  it("may be excused altogether", () => {
    const bush = body("bush", ball(20));
    const result = sweepOf(bush, [joint(40)]);
    expect(result.clearance_mm).toBe(Number.POSITIVE_INFINITY);
    expect(result.clashTravel_mm).toEqual([]);
  });

  it("keeps the excuse at the joint when both bodies move", () => {
    const shifted = joint(40);
    const lifted = motion(-60, 60, 1, (travel) => shiftPose([0, 0, travel]));
    const both = motion(-60, 60, 1, (travel) => {
      const pose = armPose(travel, [0, 0, 0]);
      pose[11]! += travel;
      return pose;
    });
    const result = sweepPair(
      shelf,
      bracket,
      link,
      pairOf(bracket, link, [variant(lifted, both, -60, 60)], 3, [shifted]),
    );
    expect(result.clearance_mm).toBeCloseTo(sweepOf(bracket, [shifted]).clearance_mm, 2);
  });
});
