import { beforeAll, describe, expect, it } from "vitest";
import { convexPieceOf, createConvexOverlap, createConvexQuery } from "../../../src/clearance/kernel.ts";
import {
  identityPose,
  invertPose,
  type Pose,
  rotationPose,
  translationPose,
  turnPose,
} from "../../../src/maths/pose.ts";
import { dot, length, normalise, scale, subtract, type Vec3 } from "../../../src/maths/vec3.ts";
import { agrees } from "../../truth/agreement.ts";
import { depthBySeparatingAxes, overlapAlong, pointsOf } from "./convexOracle.ts";
import { randomFrom, randomPoint, randomPose } from "./meshes.ts";

const query = createConvexQuery();

function cloud(random: () => number, count: number, size: Vec3): number[] {
  return Array.from({ length: count }, () => randomPoint(random, 1).map((value, k) => value * size[k]!)).flat();
}

function boxCloud(x: number, y: number, z: number): number[] {
  return Array.from({ length: 8 }, (_, c) => [
    c & 1 ? x / 2 : -x / 2,
    c & 2 ? y / 2 : -y / 2,
    c & 4 ? z / 2 : -z / 2,
  ]).flat();
}

/** A drum along x, drawn outside the true cylinder. */
function drumCloud(radius: number, length_mm: number, sides: number): number[] {
  const out = radius / Math.cos(Math.PI / sides);
  return Array.from({ length: 2 * sides }, (_, k) => {
    const angle = (Math.PI * (k >> 1)) / (sides / 2);
    return [k & 1 ? length_mm / 2 : -length_mm / 2, out * Math.cos(angle), out * Math.sin(angle)];
  }).flat();
}

function ballCloud(radius: number, rings: number): number[] {
  const points: number[] = [0, 0, radius, 0, 0, -radius];
  for (let i = 1; i < rings; i++) {
    for (let j = 0; j < 2 * rings; j++) {
      const [t, p] = [(Math.PI * i) / rings, (Math.PI * j) / rings];
      points.push(radius * Math.sin(t) * Math.cos(p), radius * Math.sin(t) * Math.sin(p), radius * Math.cos(t));
    }
  }
  return points;
}

/** Depth, after checking what must hold of any answer: the translation does part the two, and the points are a depth apart. */
function depthOf(a: number[], b: number[], relative: Pose): number | null {
  const out = createConvexOverlap();
  const [placedA, placedB] = [pointsOf(a), pointsOf(b, relative)];
  if (!query.penetration(convexPieceOf(a), convexPieceOf(b), relative, out)) return null;
  const size = Math.max(...[...placedA, ...placedB].flat().map(Math.abs));
  const direction = Array.from(out.partingOfA) as unknown as Vec3;
  expect(length(direction)).toBeCloseTo(1, 12);
  const left = overlapAlong(placedA, placedB, scale(direction, -1)) - out.depth_mm;
  expect(Math.abs(left), "the translation parts the two and no more").toBeLessThan(1e-6 * out.depth_mm + 1e-9 * size);
  for (let k = 0; k < 3; k++) {
    expect(out.pointB[k]! - out.pointA[k]!).toBeCloseTo(out.depth_mm * direction[k]!, 9);
  }
  return out.depth_mm;
}

describe("penetration of convex pieces", () => {
  it("equals the least overlap over all separating axes, and is none where one of them shows a gap", () => {
    const random = randomFrom(31);
    let overlapping = 0;
    for (let k = 0; k < 400; k++) {
      const a = cloud(random, 4 + Math.floor(random() * 6), [10, 10, 10 ** (random() * 3 - 1.5)]);
      const b = cloud(random, 4 + Math.floor(random() * 6), [10, 10 ** (random() * 3 - 1.5), 10]);
      const relative = randomPose(random, 180, 9);
      const expected = depthBySeparatingAxes(pointsOf(a), pointsOf(b, relative));
      const depth = depthOf(a, b, relative);
      if (expected < 0) {
        expect(depth, `case ${k}`).toBe(null);
        continue;
      }
      overlapping++;
      expect(Math.abs(depth! - expected), `case ${k}: ${depth} for ${expected}`).toBeLessThan(1e-6 * expected + 1e-9);
      const swapped = depthOf(b, a, invertPose(relative));
      expect(Math.abs(swapped! - expected), `case ${k}, swapped`).toBeLessThan(1e-6 * expected + 1e-9);
    }
    expect(overlapping).toBeGreaterThan(100);
  });

  it("is right for boxes in all the poses in which corners, edges and faces line up", () => {
    for (const size of [10, 0.3]) {
      for (const angle of [0, 30, 45, 90, 1e-4, 1e-7]) {
        for (const shift of [0, 2, 4.9, 5, 7]) {
          const relative = turnPose([angle, 0, 0]);
          relative[3] = shift;
          relative[7] = shift / 3;
          const [a, b] = [boxCloud(10, 10, 10), boxCloud(size, 10, 4)];
          const expected = depthBySeparatingAxes(pointsOf(a), pointsOf(b, relative));
          const depth = depthOf(a, b, relative);
          if (expected < -1e-9) expect(depth).toBe(null);
          else expect(depth!, `${size} ${angle} ${shift}`).toBeCloseTo(Math.max(0, expected), 6);
        }
      }
    }
  });

  it("of two crossed tubes is r1 + r2 − axis distance, although neither has a corner in the other", () => {
    for (const [apart, sides] of [
      [0, 64],
      [5, 120],
      [20, 131],
      [24.9, 200],
    ] as const) {
      const relative = turnPose([0, 0, 90]);
      relative[11] = apart;
      const sag = 15 * (1 / Math.cos(Math.PI / sides) - 1) + 10 * (1 / Math.cos(Math.PI / sides) - 1);
      const depth = depthOf(drumCloud(15, 600, sides), drumCloud(10, 400, sides), relative)!;
      expect(depth).toBeGreaterThan(25 - apart - 1e-9);
      expect(depth).toBeLessThan(25 - apart + sag + 1e-9);
    }
  });

  it("of tubes with many corners in the plane of their caps is the way out through the caps", () => {
    for (const sides of [100, 128, 257]) {
      const drum = drumCloud(50, 40, sides);
      expect(depthOf(drum, drum, translationPose([30, 3, 0]))).toBeCloseTo(10, 9);
      expect(depthOf(drum, drum, translationPose([40, 3, 0]))).toBeCloseTo(0, 9);
      expect(depthOf(drum, drum, identityPose())).toBeCloseTo(40, 9);
    }
  });

  it("of two balls approaches r1 + r2 − centre distance, deep, shallow and concentric", () => {
    const [a, b] = [ballCloud(30, 24), ballCloud(20, 24)];
    for (const apart of [0, 1, 10, 35, 49.5]) {
      const depth = depthOf(a, b, translationPose([apart * 0.48, apart * 0.6, apart * 0.64]))!;
      // drawn through its corners, each ball is thinner by up to r(1 − cos(π/n)) in either angle
      expect(depth).toBeLessThan(50 - apart + 1e-9);
      expect(depth).toBeGreaterThan(50 - apart - 2 * 50 * (1 - Math.cos(Math.PI / 24)));
    }
  });

  it("of a thin plate in a block is the shortest way out, and flat pieces need none", () => {
    expect(depthOf(boxCloud(10, 10, 0), boxCloud(10, 10, 4), translationPose([5, 0, 1]))).toBeCloseTo(1, 9);
    expect(depthOf(boxCloud(10, 10, 0), boxCloud(10, 10, 0), translationPose([5, 0, 0]))).toBe(0);
    expect(depthOf([0, 0, 0], boxCloud(10, 10, 4), translationPose([1, 0, 1]))).toBeCloseTo(1, 9);
    expect(depthOf([0, 0, 0, 30, 0, 0], boxCloud(10, 10, 4), identityPose())).toBeCloseTo(2, 9);
    expect(depthOf([1, 2, 3], [1, 2, 3], identityPose())).toBe(0);
  });

  it("may answer none once it knows the depth to be below what is asked for", () => {
    const [a, b] = [convexPieceOf(boxCloud(10, 10, 10)), convexPieceOf(boxCloud(10, 10, 10))];
    const out = createConvexOverlap();
    expect(query.penetration(a, b, translationPose([7, 0, 0]), out, 5)).toBe(false);
    expect(query.penetration(a, b, translationPose([7, 0, 0]), out, 2)).toBe(true);
    expect(out.depth_mm).toBeCloseTo(3, 9);
  });
});

describe("distance of convex pieces", () => {
  it("is proven by its points and the slab between them", () => {
    const random = randomFrom(32);
    for (let k = 0; k < 500; k++) {
      const a = cloud(random, 1 + Math.floor(random() * 30), [10, 10, 10 ** (random() * 4 - 3)]);
      const b = cloud(random, 1 + Math.floor(random() * 30), [10, 10 ** (random() * 4 - 3), 10]);
      const relative = randomPose(random, 180, 40);
      const out = createConvexOverlap();
      const distance = query.distance(convexPieceOf(a), convexPieceOf(b), relative, out);
      if (distance === 0) {
        expect(query.penetration(convexPieceOf(a), convexPieceOf(b), relative, out)).toBe(true);
        continue;
      }
      const between = subtract(Array.from(out.pointB) as unknown as Vec3, Array.from(out.pointA) as unknown as Vec3);
      expect(length(between)).toBeCloseTo(distance, 9);
      expect(-overlapAlong(pointsOf(a), pointsOf(b, relative), normalise(between))).toBeCloseTo(distance, 8);
      agrees("parting", dot(Array.from(out.partingOfA) as unknown as Vec3, normalise(between)), -1, 9);
    }
  });

  it("of skew and end-on rods is the textbook distance of two segments", () => {
    // (0..100,0,0) and (130..230,40,0): 50; (±100,0,0) and (0,±100,60): 60
    expect(
      query.distance(convexPieceOf([0, 0, 0, 100, 0, 0]), convexPieceOf([130, 40, 0, 230, 40, 0]), identityPose()),
    ).toBe(50);
    expect(
      query.distance(convexPieceOf([-100, 0, 0, 100, 0, 0]), convexPieceOf([0, -100, 60, 0, 100, 60]), identityPose()),
    ).toBe(60);
  });
});

/** A general-purpose physics library as a second opinion; it works in float32. */
describe("convex pieces against rapier", () => {
  let rapier: typeof import("@dimforge/rapier3d-compat");
  beforeAll(async () => {
    rapier = await import("@dimforge/rapier3d-compat");
    await rapier.init();
  });

  it("has the same depth and distance on random rounded lumps", () => {
    const random = randomFrom(33);
    for (let k = 0; k < 60; k++) {
      const make = () =>
        Array.from({ length: 40 }, () => scale(normalise(randomPoint(random, 1)), 1 + random() * 0.1)).flat();
      const [a, b] = [make(), make()];
      const axis = normalise(randomPoint(random, 1));
      const angle = random() * 3;
      const relative = rotationPose(axis, angle);
      const away = scale(normalise(randomPoint(random, 1)), 1.2 + random() * 1.6);
      for (let row = 0; row < 3; row++) relative[4 * row + 3] = away[row]!;
      const hull = (points: number[]) => rapier.ColliderDesc.convexHull(Float32Array.from(points))!.shape;
      const sine = Math.sin(angle / 2);
      const turn = { x: axis[0] * sine, y: axis[1] * sine, z: axis[2] * sine, w: Math.cos(angle / 2) };
      const contact = hull(a).contactShape(
        { x: 0, y: 0, z: 0 },
        { x: 0, y: 0, z: 0, w: 1 },
        hull(b),
        { x: away[0], y: away[1], z: away[2] },
        turn,
        10,
      )!;
      const depth = depthOf(a, b, relative);
      const ours = depth ? -depth : query.distance(convexPieceOf(a), convexPieceOf(b), relative);
      expect(ours, `case ${k}`).toBeCloseTo(contact.distance, 3);
    }
  });
});
