import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { area_mm2, volume_mm3 } from "../../src/geometry/measure.ts";
import { sidesForSag } from "../../src/geometry/roundness.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { distance, type Vec3 } from "../../src/maths/vec3.ts";
import { aroundSegment, ball, block, frustum, ring, type SignedDistance } from "./distances.ts";
import { asManifold, type Drawn, draw, expectOutsideWithin, expectPiecesFill, expectSound } from "./support.ts";

interface Case {
  readonly shape: Drawn;
  readonly signedDistance: SignedDistance;
  /** Volume and area of the shape grown by `out` on every side: the true ones at 0, upper bounds at the tessellation. */
  readonly volume: (out: number) => number;
  readonly area: (out: number) => number;
}

const A: Vec3 = [-40, 12, 500];
const B: Vec3 = [160, 95, 380];

function sphereCase(r: number): Case {
  return {
    shape: { kind: "sphere", diameter_mm: 2 * r },
    signedDistance: ball([0, 0, 0], r),
    volume: (out) => (4 / 3) * Math.PI * (r + out) ** 3,
    area: (out) => 4 * Math.PI * (r + out) ** 2,
  };
}

function cylinderCase(r: number): Case {
  const h = distance(A, B);
  return {
    shape: { kind: "cylinder", from: A, to: B, diameter_mm: 2 * r },
    signedDistance: frustum(A, B, r, r),
    volume: (out) => Math.PI * (r + out) ** 2 * h,
    area: (out) => 2 * Math.PI * (r + out) * h + 2 * Math.PI * (r + out) ** 2,
  };
}

function capsuleCase(r: number): Case {
  const h = distance(A, B);
  return {
    shape: { kind: "capsule", from: A, to: B, diameter_mm: 2 * r },
    signedDistance: aroundSegment(A, B, r),
    volume: (out) => Math.PI * (r + out) ** 2 * h + (4 / 3) * Math.PI * (r + out) ** 3,
    area: (out) => 2 * Math.PI * (r + out) * h + 4 * Math.PI * (r + out) ** 2,
  };
}

function coneCase(r1: number, r2: number): Case {
  const h = distance(A, B);
  const grown = (out: number) => [r1 === 0 ? 0 : r1 + 1.5 * out, r2 === 0 ? 0 : r2 + 1.5 * out] as const;
  return {
    shape: { kind: "cone", from: A, to: B, fromDiameter_mm: 2 * r1, toDiameter_mm: 2 * r2 },
    signedDistance: frustum(A, B, r1, r2),
    volume: (out) => {
      const [a, b] = grown(out);
      return (Math.PI * h * (a * a + a * b + b * b)) / 3;
    },
    area: (out) => {
      const [a, b] = grown(out);
      return Math.PI * (a + b) * Math.hypot(h, a - b) + Math.PI * (a * a + b * b);
    },
  };
}

/** Steiner's formula for a block grown by its edge radius. */
function blockCase(size: Vec3, edge: number): Case {
  const [a, b, c] = size.map((s) => s - 2 * edge) as [number, number, number];
  const flats = 2 * (a * b + b * c + c * a);
  const edges = a + b + c;
  return {
    shape: { kind: "box", size_mm: size, edge_mm: edge || null },
    signedDistance: block(size, edge),
    volume: (out) => {
      const r = edge && edge + out;
      return a * b * c + flats * r + Math.PI * r * r * edges + (4 / 3) * Math.PI * r ** 3;
    },
    area: (out) => {
      const r = edge && edge + out;
      return flats + 2 * Math.PI * r * edges + 4 * Math.PI * r * r;
    },
  };
}

/** Pappus. */
function torusCase(R: number, r: number): Case {
  return {
    shape: { kind: "torus", diameter_mm: 2 * R, section_mm: 2 * r },
    signedDistance: ring(R, r),
    volume: (out) => 2 * Math.PI ** 2 * R * (r + out) ** 2,
    area: (out) => 4 * Math.PI ** 2 * R * (r + out),
  };
}

const CASES: [string, Case][] = [
  ["sphere", sphereCase(50)],
  ["large sphere", sphereCase(160)],
  ["small sphere", sphereCase(2)],
  ["cylinder", cylinderCase(15)],
  ["capsule", capsuleCase(15)],
  ["frustum", coneCase(40, 25)],
  ["cone to a point", coneCase(0, 60)],
  ["sharp box", blockCase([10, 20, 30], 0)],
  ["box with rounded edges", blockCase([100, 60, 40], 8)],
  ["box rounded to a pill", blockCase([90, 30, 30], 15)],
  ["torus", torusCase(120, 30)],
];

describe.each(CASES)("%s", (_name, { shape, signedDistance, volume, area }) => {
  describe.each([0.1, 0.5])("within %s mm", (tessellation_mm) => {
    const solid = draw(shape, tessellation_mm);

    test("is a sound surface that manifold-3d takes, with the volume it finds", async () => {
      expectSound(solid);
      const manifold = await asManifold(solid);
      expect(manifold.status()).toBe("NoError");
      expect(volume_mm3(solid) / manifold.volume()).toBeCloseTo(1, 5);
      expect(area_mm2(solid) / manifold.surfaceArea()).toBeCloseTo(1, 5);
    });

    test("holds the closed form's volume and no more than the bound lets it", () => {
      const drawn = volume_mm3(solid);
      expect(drawn).toBeGreaterThanOrEqual(volume(0) * (1 - 1e-6));
      expect(drawn).toBeLessThanOrEqual(volume(tessellation_mm) * (1 + 1e-6));
    });

    test("has the closed form's area within what the bound lets it", () => {
      const drawn = area_mm2(solid);
      expect(drawn).toBeGreaterThanOrEqual(area(0) * (1 - 1e-6));
      expect(drawn).toBeLessThanOrEqual(area(2 * tessellation_mm));
    });

    test("lies nowhere inside the true surface and within the bound outside", () => {
      expectOutsideWithin(solid, signedDistance, tessellation_mm);
    });

    test("is filled by its convex pieces", () => {
      expectPiecesFill(solid, signedDistance, tessellation_mm);
    });
  });
});

test("sides of a circle: sag r(1 − cos(π/n)) of radius 316, by hand", () => {
  // closed form: 32, 64 and 128 sides sag by 1.52163, 0.38064 and 0.09517 mm
  for (const [n, sag] of [
    [32, 1.52163],
    [64, 0.38064],
    [128, 0.09517],
  ] as const) {
    expect(316 * (1 - Math.cos(Math.PI / n))).toBeCloseTo(sag, 5);
    const outside = 316 / Math.cos(Math.PI / n) - 316;
    expect(sidesForSag(316, outside)).toBe(n);
    expect(sidesForSag(316, outside * 0.999)).toBe(n + 1);
  }
  expect(sidesForSag(316, 0.1)).toBe(125);
});

test("a sphere takes no more triangles than a grid of meridians and parallels with the same bound", () => {
  for (const r of [5, 15, 50, 160]) {
    // both errors of such a grid share the bound: half of it each
    const meridians = sidesForSag(r, 0.05);
    expect(triangles(draw({ kind: "sphere", diameter_mm: 2 * r }))).toBeLessThan(meridians * meridians);
  }
});

test("random shapes stay sound and within the bound (seeded)", () => {
  const size = fc.double({ min: 1, max: 120, noNaN: true });
  const place = fc.double({ min: -600, max: 600, noNaN: true });
  const point: fc.Arbitrary<Vec3> = fc.tuple(place, place, place);
  const bound = fc.double({ min: 0.08, max: 1, noNaN: true });
  fc.assert(
    fc.property(size, size, point, point, bound, (r, s, from, to, tessellation_mm) => {
      fc.pre(distance(from, to) > 1);
      const check = (shape: Drawn, signedDistance: SignedDistance) => {
        const solid = draw(shape, tessellation_mm);
        expectSound(solid);
        expectOutsideWithin(solid, signedDistance, tessellation_mm);
      };
      check({ kind: "cylinder", from, to, diameter_mm: 2 * r }, frustum(from, to, r, r));
      check({ kind: "capsule", from, to, diameter_mm: 2 * s }, aroundSegment(from, to, s));
      check({ kind: "cone", from, to, fromDiameter_mm: 2 * r, toDiameter_mm: 2 * s }, frustum(from, to, r, s));
      const edge = Math.min(r, s) / 2.5;
      check({ kind: "box", size_mm: [r, s, r + s], edge_mm: edge }, block([r, s, r + s], edge));
      check({ kind: "torus", diameter_mm: 2 * (r + s + 3), section_mm: 2 * s }, ring(r + s + 3, s));
    }),
    { seed: 20240611, numRuns: 25 },
  );
});

function triangles(solid: Solid): number {
  return solid.indices.length / 3;
}
