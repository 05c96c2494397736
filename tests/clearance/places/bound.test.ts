import { describe, expect, it } from "vitest";
import type { Extent } from "../../../src/clearance/bound.ts";
import { boxesApart, changeBetween, farthestSquared, nearBox } from "../../../src/clearance/placeBound.ts";
import { applyPose, composePoses, invertPose, type Pose } from "../../../src/maths/pose.ts";
import { distance, type Vec3 } from "../../../src/maths/vec3.ts";
import { randomFrom, randomPoint, randomPose } from "../kernel/meshes.ts";

const SEED = 4711;

function randomBox(random: () => number): Extent {
  const [p, q] = [randomPoint(random, 200), randomPoint(random, 200)];
  return Float64Array.of(
    ...[0, 1, 2].map((k) => Math.min(p[k]!, q[k]!)),
    ...[0, 1, 2].map((k) => Math.max(p[k]!, q[k]!)),
  );
}

function cornersOf(box: ArrayLike<number>): Vec3[] {
  return Array.from({ length: 8 }, (_, i) => [box[i & 1 ? 3 : 0]!, box[i & 2 ? 4 : 1]!, box[i & 4 ? 5 : 2]!]);
}

function pointIn(random: () => number, box: ArrayLike<number>): Vec3 {
  const at = (k: number) => box[k]! + (box[k + 3]! - box[k]!) * random();
  return [at(0), at(1), at(2)];
}

function farthest(from: Pose, to: Pose, points: readonly Vec3[]): number {
  return Math.max(...points.map((p) => distance(applyPose(from, p), applyPose(to, p))));
}

describe("how far the points of a box go between two poses", () => {
  it("is how far its farthest corner goes", () => {
    const random = randomFrom(SEED);
    for (let i = 0; i < 500; i++) {
      const box = randomBox(random);
      const from = randomPose(random, 180, 300);
      const to = i % 5 === 0 ? randomPose(random, 180, 300) : composePoses(randomPose(random, 0.5, 2), from);
      const poses = new Float64Array(36);
      poses.set(from, 12);
      poses.set(to, 24);
      const told = Math.sqrt(farthestSquared(poses, 12, poses, 24, box));
      expect(told).toBeCloseTo(farthest(from, to, cornersOf(box)), 9);
    }
  });
});

describe("how much gaps differ between two relative poses", () => {
  it("is no more than the less of what either body sees the other's corners go", () => {
    const random = randomFrom(SEED);
    for (let i = 0; i < 500; i++) {
      const [a, b, nearOfA, nearOfB] = Array.from({ length: 4 }, () => randomBox(random)) as [
        Extent,
        Extent,
        Extent,
        Extent,
      ];
      const kept = randomPose(random, 180, 300);
      const now = i % 5 === 0 ? randomPose(random, 180, 300) : composePoses(randomPose(random, 0.5, 2), kept);
      const change = { anywhere_mm: 0, near_mm: 0 };
      changeBetween(kept, 0, now, a, b, Float64Array.of(...nearOfA, ...nearOfB), 0, change);
      const [back, backNow] = [invertPose(kept), invertPose(now)];
      const seen = (ofA: Extent, ofB: Extent) =>
        Math.min(farthest(kept, now, cornersOf(ofB)), farthest(back, backNow, cornersOf(ofA)));
      expect(change.anywhere_mm).toBeCloseTo(seen(a, b), 9);
      expect(change.near_mm).toBeCloseTo(seen(nearOfA, nearOfB), 9);
      for (let k = 0; k < 20; k++) {
        const [p, q] = [pointIn(random, a), pointIn(random, b)];
        const before = distance(p, applyPose(kept, q));
        const after = distance(p, applyPose(now, q));
        expect(Math.abs(after - before)).toBeLessThanOrEqual(change.anywhere_mm + 1e-9);
      }
    }
  });
});

describe("the parts of two boxes that are near each other", () => {
  it("hold all points nearer than the reach, and lie in the boxes", () => {
    const random = randomFrom(SEED);
    const near = new Float64Array(12);
    let within = 0;
    for (let i = 0; i < 2000; i++) {
      const [a, b] = [randomBox(random), randomBox(random)];
      const relative = randomPose(random, 180, 250);
      const reach = 60 * random();
      nearBox(relative, 0, true, b, a, reach, near, 0);
      nearBox(relative, 0, false, a, b, reach, near, 6);
      const holds = (at: number, p: Vec3) =>
        p.every((value, k) => value >= near[at + k]! - 1e-9 && value <= near[at + 3 + k]! + 1e-9);
      for (let k = 0; k < 3; k++) {
        expect(near[k]).toBeGreaterThanOrEqual(a[k]!);
        expect(near[k + 3]).toBeLessThanOrEqual(a[k + 3]!);
        expect(near[k + 6]).toBeGreaterThanOrEqual(b[k]!);
        expect(near[k + 9]).toBeLessThanOrEqual(b[k + 3]!);
        expect(near[k + 3]).toBeGreaterThanOrEqual(near[k]!);
        expect(near[k + 9]).toBeGreaterThanOrEqual(near[k + 6]!);
      }
      for (let k = 0; k < 40; k++) {
        const p = pointIn(random, a);
        const q = pointIn(random, b);
        if (distance(p, applyPose(relative, q)) >= reach) continue;
        within++;
        expect(holds(0, p), `seed ${SEED}, box ${i}`).toBe(true);
        expect(holds(6, q), `seed ${SEED}, box ${i}`).toBe(true);
      }
    }
    expect(within).toBeGreaterThan(100);
  });
});

describe("how far apart two boxes are", () => {
  it("is no more than the gap of any two of their points, and the gap itself where their edges lie alike", () => {
    const random = randomFrom(SEED);
    let parted = 0;
    for (let i = 0; i < 500; i++) {
      const [a, b] = [randomBox(random), randomBox(random)];
      const relative = randomPose(random, 180, 600);
      const apart = boxesApart(relative, a, b);
      if (apart > 0) parted++;
      for (let k = 0; k < 50; k++) {
        const gap = distance(pointIn(random, a), applyPose(relative, pointIn(random, b)));
        expect(apart).toBeLessThanOrEqual(gap + 1e-9);
      }
      expect(boxesApart(invertPose(relative), b, a)).toBeCloseTo(apart, 9);
      const shifted = Float64Array.of(1, 0, 0, relative[3]!, 0, 1, 0, relative[7]!, 0, 0, 1, relative[11]!);
      const gaps = [0, 1, 2].map((k) => {
        const by = relative[4 * k + 3]!;
        return Math.max(0, b[k]! + by - a[k + 3]!, a[k]! - b[k + 3]! - by);
      });
      expect(boxesApart(shifted, a, b)).toBeCloseTo(Math.hypot(...gaps), 9);
    }
    expect(parted).toBeGreaterThan(100);
  });
});
