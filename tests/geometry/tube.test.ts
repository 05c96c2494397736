import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import { volume_mm3 } from "../../src/geometry/measure.ts";
import { rotationPose, turnByPose } from "../../src/maths/pose.ts";
import { add, normalise, scale, squareTo, type Vec3 } from "../../src/maths/vec3.ts";
import { InputError } from "../../src/scene/error.ts";
import { bentTube, frustum } from "./distances.ts";
import {
  asManifold,
  contextAt,
  draw,
  expectOutsideWithin,
  expectPiecesFill,
  expectSound,
  FLOAT32_mm,
  surfacePoints,
} from "./support.ts";

const PATH: Vec3[] = [
  [0, 0, 0],
  [300, 0, 0],
  [300, 220, 100],
  [60, 320, 160],
];

describe("bent tube", () => {
  const solid = draw({ kind: "tube", path: PATH, diameter_mm: 40, bend_mm: 80, wall_mm: 2 });

  test("is a sound surface that manifold-3d takes", async () => {
    expectSound(solid);
    const manifold = await asManifold(solid);
    expect(manifold.genus()).toBe(0);
    expect(volume_mm3(solid) / manifold.volume()).toBeCloseTo(1, 5);
  });

  test("lies outside straights and arcs within the bound", () => {
    expectOutsideWithin(solid, bentTube(PATH, 20, 80), 0.1);
  });

  test("is filled by its legs and the steps of its bends", () => {
    expectPiecesFill(solid, bentTube(PATH, 20, 80), 0.1);
  });

  test("a half turn in two bends without a straight between them holds Pappus' volume", () => {
    const path: Vec3[] = [
      [0, 0, 0],
      [100, 0, 0],
      [100, 120, 0],
      [0, 120, 0],
    ];
    const uBend = draw({ kind: "tube", path, diameter_mm: 30, bend_mm: 60, wall_mm: null });
    expectSound(uBend);
    expectOutsideWithin(uBend, bentTube(path, 15, 60), 0.1);
    // two straights of 40 and half a torus
    const along = 80 + Math.PI * 60;
    expect(volume_mm3(uBend)).toBeGreaterThan(Math.PI * 15 ** 2 * along);
    expect(volume_mm3(uBend)).toBeLessThan(Math.PI * 15.1 ** 2 * along);
  });
});

describe("tube that is drawn for one place of a bend after another", () => {
  const drawn = (lift_mm: number, leastBendSteps?: number) => {
    const path: Vec3[] = [
      [0, 0, 0],
      [200, 0, 0],
      [380, 60, lift_mm],
    ];
    const shape = { kind: "tube", path, diameter_mm: 30, bend_mm: 70, wall_mm: 2, at: null, turn_deg: null } as const;
    const context = { ...contextAt(0.1), ...(leastBendSteps && { leastBendSteps }) };
    return { path, solid: buildSolid(shape, context) };
  };

  test("keeps its triangles, each near where it was, and stays within the bound", () => {
    let before = drawn(-120, 40).solid;
    for (let lift_mm = -116; lift_mm <= 120; lift_mm += 4) {
      const { path, solid } = drawn(lift_mm, 40);
      expect(Buffer.compare(Buffer.from(solid.indices.buffer), Buffer.from(before.indices.buffer))).toBe(0);
      const moved = solid.positions.map((value, i) => Math.abs(value - before.positions[i]!));
      // its end goes by 4 mm at most, its plane turns by 4/60 at most about a leg whose outside is 15 mm away
      expect(Math.max(...moved)).toBeLessThan(6);
      if (lift_mm % 60 === 0) expectOutsideWithin(solid, bentTube(path, 15, 70), 0.1);
      before = solid;
    }
  });

  test("has other triangles for other bends where that is not asked", () => {
    expect(drawn(-120).solid.indices.length).not.toBe(drawn(0).solid.indices.length);
  });
});

describe("mitred tube", () => {
  test("holds the volume of its section times its centre line: what a mitre cuts off inside it adds outside", async () => {
    const solid = draw({ kind: "tube", path: PATH, diameter_mm: 40, bend_mm: null, wall_mm: null });
    expectSound(solid);
    const along = 300 + Math.hypot(220, 100) + Math.hypot(240, 100, 60);
    const manifold = await asManifold(solid);
    expect(volume_mm3(solid) / manifold.volume()).toBeCloseTo(1, 5);
    expect(volume_mm3(solid)).toBeGreaterThanOrEqual(Math.PI * 20 ** 2 * along);
    expect(volume_mm3(solid)).toBeLessThanOrEqual(Math.PI * 20.1 ** 2 * along);
    expect(solid.convexPieces).toHaveLength(3);
  });

  test("stands at most the bound outside a square corner, at its outer tip too", () => {
    const path: Vec3[] = [
      [0, 0, 0],
      [200, 0, 0],
      [200, 200, 0],
    ];
    const solid = draw({ kind: "tube", path, diameter_mm: 50, bend_mm: null, wall_mm: null });
    // each leg cut by the plane x − 200 = −y; long legs stand in for the extrusions that the plane cuts
    const first = frustum([0, 0, 0], [300, 0, 0], 25, 25);
    const second = frustum([200, -100, 0], [200, 200, 0], 25, 25);
    const cut = (p: Vec3) => (p[0] - 200 + p[1]) / Math.SQRT2;
    expectOutsideWithin(solid, (p) => Math.min(Math.max(first(p), cut(p)), Math.max(second(p), -cut(p))), 0.1);
    // the true tip is at (225, −25, 0)
    const tip_mm = Math.max(...surfacePoints(solid, 1, 0).map(([x, y]) => (x - 200 - y) / Math.SQRT2));
    expect(tip_mm).toBeGreaterThanOrEqual(25 * Math.SQRT2 - FLOAT32_mm);
    expect(tip_mm).toBeLessThanOrEqual(25 * Math.SQRT2 + 0.1 + FLOAT32_mm);
  });
});

test("a straight path is a cylinder, whatever the bend; a point on the straight changes nothing", () => {
  const ends = { kind: "cylinder", from: PATH[0]!, to: PATH[1]!, diameter_mm: 40 } as const;
  const straight = {
    kind: "tube",
    path: [PATH[0]!, [120, 0, 0], PATH[1]!] as Vec3[],
    diameter_mm: 40,
    wall_mm: null,
  } as const;
  for (const bend_mm of [null, 60]) {
    expect(volume_mm3(draw({ ...straight, bend_mm }))).toBeCloseTo(volume_mm3(draw(ends)), 1);
  }
});

test("random paths stay sound and within the bound (seeded)", () => {
  const leg = fc.double({ min: 180, max: 400, noNaN: true });
  const turn = fc.double({ min: 0.05, max: 1.4, noNaN: true });
  const around = fc.double({ min: 0, max: 6.28, noNaN: true });
  const corner = fc.tuple(leg, turn, around);
  const radius = fc.double({ min: 5, max: 30, noNaN: true });
  fc.assert(
    fc.property(corner, corner, leg, radius, radius, (one, two, lastLeg, r, more) => {
      const path = walk([one, two], lastLeg);
      const bend_mm = r + 2 + more;
      const bent = draw({ kind: "tube", path, diameter_mm: 2 * r, bend_mm, wall_mm: null }, 0.2);
      expectSound(bent);
      expectOutsideWithin(bent, bentTube(path, r, bend_mm), 0.2);
      expectSound(draw({ kind: "tube", path, diameter_mm: 2 * r, bend_mm: null, wall_mm: null }, 0.2));
    }),
    { seed: 7, numRuns: 25 },
  );
});

describe("refuses, naming the corner,", () => {
  const wrong = (path: Vec3[], bend_mm: number | null, diameter_mm = 40) => {
    try {
      draw({ kind: "tube", path, diameter_mm, bend_mm, wall_mm: null });
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      return error as InputError;
    }
    return expect.fail("it was built");
  };

  test("a bend that does not fit on its leg", () => {
    const error = wrong(PATH, 260);
    expect(error.code).toBe("wrong-value");
    expect(error.path).toBe("path[1]");
    expect(error.message).toMatch(/bend of 260 mm/);
  });

  test("a bend tighter than the tube", () => {
    expect(wrong(PATH, 20).path).toBe("bend_mm");
  });

  test("a bend wider than the tube that its tessellation makes too tight, told with both", () => {
    const shape = { kind: "tube", path: PATH, diameter_mm: 2, bend_mm: 3, wall_mm: null } as const;
    expect(() => draw(shape, 2)).toThrow(/half of the diameter and tessellation_mm, which is 2/);
    expect(draw(shape, 1).indices.length).toBeGreaterThan(0);
  });

  test("two points in one place and a path that folds back", () => {
    expect(wrong([PATH[0]!, PATH[0]!, PATH[1]!], null).code).toBe("zero-length");
    expect(wrong([PATH[0]!, PATH[1]!, [10, 1, 0]], null).path).toBe("path[1]");
  });

  test("a mitre whose inside is longer than the leg", () => {
    const path: Vec3[] = [
      [0, 0, 0],
      [300, 0, 0],
      [300, 30, 0],
      [0, 30, 0],
    ];
    expect(wrong(path, null).path).toBe("path[1]");
  });
});

function walk(corners: readonly (readonly [leg: number, turn: number, around: number])[], lastLeg: number): Vec3[] {
  let at: Vec3 = [-200, 50, 300];
  let along: Vec3 = normalise([1, 0.3, -0.2]);
  const path = [at];
  for (const [leg, turn, around] of corners) {
    at = add(at, scale(along, leg));
    path.push(at);
    const axis = turnByPose(rotationPose(along, around), squareTo(along));
    along = normalise(turnByPose(rotationPose(axis, turn), along));
  }
  path.push(add(at, scale(along, lastLeg)));
  return path;
}
