import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { volume_mm3 } from "../../src/geometry/measure.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { dot, normalise, type Vec3 } from "../../src/maths/vec3.ts";
import type { HullShape } from "../../src/scene/scene.ts";
import { aroundSegment } from "./distances.ts";
import { asManifold, draw, expectOutsideWithin, expectSound, FLOAT32_mm, randomFrom, vertexOf } from "./support.ts";

type Casing = Pick<HullShape, "points" | "spheres">;

function hullOf({ points, spheres }: Casing, tessellation_mm = 0.1): Solid {
  return draw({ kind: "hull", points, spheres }, tessellation_mm);
}

/**
 * For a convex body the farthest reach along every direction says it all: two bodies lie within a bound of each other just
 * when their reaches do (support functions). Of a hull it is the largest of its points' and spheres'.
 */
function expectReach(solid: Solid, { points, spheres }: Casing, tessellation_mm: number): void {
  const random = randomFrom(5);
  for (let i = 0; i < 400; i++) {
    const z = 2 * random() - 1;
    const angle = 2 * Math.PI * random();
    const d: Vec3 = [Math.sqrt(1 - z * z) * Math.cos(angle), Math.sqrt(1 - z * z) * Math.sin(angle), z];
    const wanted = Math.max(
      ...points.map((p) => dot(p, d)),
      ...spheres.map(({ at, diameter_mm }) => dot(at, d) + diameter_mm / 2),
    );
    let drawn = -Infinity;
    for (let k = 0; k < solid.positions.length / 3; k++) drawn = Math.max(drawn, dot(vertexOf(solid, k), d));
    expect(drawn).toBeGreaterThanOrEqual(wanted - FLOAT32_mm);
    expect(drawn).toBeLessThanOrEqual(wanted + tessellation_mm + FLOAT32_mm);
  }
}

/** No vertex stands above the plane of any triangle. */
function expectConvex(solid: Solid): void {
  const { indices } = solid;
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => vertexOf(solid, indices[i + k]!)) as [Vec3, Vec3, Vec3];
    const n = normalise([
      (b[1] - a[1]) * (c[2] - a[2]) - (b[2] - a[2]) * (c[1] - a[1]),
      (b[2] - a[2]) * (c[0] - a[0]) - (b[0] - a[0]) * (c[2] - a[2]),
      (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]),
    ]);
    for (let k = 0; k < solid.positions.length / 3; k++) {
      const above = dot(n, vertexOf(solid, k)) - dot(n, a);
      if (above > FLOAT32_mm) expect.fail(`vertex ${k} stands ${above} mm above triangle ${i / 3}`);
    }
  }
}

const SUMP: Casing = {
  points: [
    [120, -150, 460],
    [120, 150, 460],
    [-180, -150, 460],
    [-180, 150, 460],
  ],
  spheres: [
    { at: [100, -120, 380], diameter_mm: 60 },
    { at: [100, 120, 380], diameter_mm: 60 },
    { at: [-150, 0, 340], diameter_mm: 90 },
  ],
};

describe("hull", () => {
  test("of points and spheres reaches as far as they do in every direction, and no farther than the bound lets it", async () => {
    const solid = hullOf(SUMP);
    expectSound(solid);
    expectConvex(solid);
    expectReach(solid, SUMP, 0.1);
    expect(volume_mm3(solid) / (await asManifold(solid)).volume()).toBeCloseTo(1, 5);
    expect(solid.convexPieces).toHaveLength(1);
  });

  test("of two equal spheres is a capsule", () => {
    const [a, b]: [Vec3, Vec3] = [
      [0, 50, 20],
      [200, 80, -40],
    ];
    const casing = { points: [], spheres: [a, b].map((at) => ({ at, diameter_mm: 50 })) };
    const solid = hullOf(casing);
    expectSound(solid);
    expectOutsideWithin(solid, aroundSegment(a, b, 25), 0.1);
  });

  test("of a cube's corners and points within its faces is the cube, exactly", () => {
    const sides = [-10, 10];
    const corners = sides.flatMap((x) => sides.flatMap((y) => sides.map((z): Vec3 => [x, y, z])));
    const solid = hullOf({ points: [...corners, [0, 0, 10], [3, 10, 4], [0, 0, 0], ...corners], spheres: [] });
    expectSound(solid);
    expect(volume_mm3(solid)).toBe(8000);
    expect(solid.positions.length / 3).toBe(8);
  });

  test("without volume is refused", () => {
    const flat: Vec3[] = [
      [0, 0, 0],
      [100, 0, 0],
      [0, 100, 0],
      [70, 80, 0],
    ];
    expect(() => hullOf({ points: flat, spheres: [] })).toThrow(/no volume/);
    expect(() => hullOf({ points: flat.slice(0, 2), spheres: [] })).toThrow(/no volume/);
    expect(() => hullOf({ points: [], spheres: [] })).toThrow(/no volume/);
  });

  test("random casings are sound, convex and within the bound (seeded)", () => {
    const whole = fc.integer({ min: -200, max: 200 });
    const at: fc.Arbitrary<Vec3> = fc.tuple(whole, whole, whole);
    const sphere = fc.record({ at, diameter_mm: fc.integer({ min: 4, max: 120 }) });
    fc.assert(
      fc.property(
        fc.array(at, { maxLength: 6 }),
        fc.array(sphere, { minLength: 1, maxLength: 5 }),
        (points, spheres) => {
          const solid = hullOf({ points, spheres }, 0.5);
          expectSound(solid);
          expectConvex(solid);
          expectReach(solid, { points, spheres }, 0.5);
        },
      ),
      { seed: 3, numRuns: 40 },
    );
  });
});
