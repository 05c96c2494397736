import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { area_mm2, volume_mm3 } from "../../src/geometry/measure.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { InputError } from "../../src/scene/error.ts";
import { asManifold, draw, expectSound, inPieces, pointsAround } from "./support.ts";

type Flat = [number, number];

const PLACE = { origin: [100, 300, 250] as Vec3, u: [0, 1, 0] as Vec3, v: [0, 0, 1] as Vec3 };

function plate(outline: Flat[], holes: Flat[][] = [], thickness_mm = 6) {
  return draw({ kind: "prism", outline, holes, thickness_mm, ...PLACE });
}

function round(cu: number, cv: number, r: number, sides: number): Flat[] {
  return Array.from({ length: sides }, (_, i) => {
    const angle = (2 * Math.PI * i) / sides;
    return [cu + r * Math.cos(angle), cv + r * Math.sin(angle)];
  });
}

/** Shoelace. */
function area(outline: readonly Flat[]): number {
  return Math.abs(
    outline.reduce((sum, [u, v], i) => {
      const [nu, nv] = outline[(i + 1) % outline.length]!;
      return sum + (u * nv - nu * v) / 2;
    }, 0),
  );
}

function perimeter(outline: readonly Flat[]): number {
  return outline.reduce((sum, [u, v], i) => {
    const [nu, nv] = outline[(i + 1) % outline.length]!;
    return sum + Math.hypot(nu - u, nv - v);
  }, 0);
}

/** Even-odd rule. */
function contains(outline: readonly Flat[], [u, v]: Flat): boolean {
  return outline.reduce((inside, [u0, v0], i) => {
    const [u1, v1] = outline[(i + 1) % outline.length]!;
    return v0 > v !== v1 > v && u < u0 + ((v - v0) / (v1 - v0)) * (u1 - u0) ? !inside : inside;
  }, false);
}

const L_SHAPE: Flat[] = [
  [0, 0],
  [120, 0],
  [120, 40],
  [40, 40],
  [40, 100],
  [0, 100],
];

const CASES: [string, Flat[], Flat[][]][] = [
  ["rectangle", L_SHAPE.slice(0, 3).concat([[0, 40]]), []],
  ["angle", L_SHAPE, []],
  ["angle, drawn clockwise, its first point repeated", [...L_SHAPE, L_SHAPE[0]!].reverse(), []],
  [
    "points on straight sides",
    [
      [0, 0],
      [30, 0],
      [60, 0],
      [120, 0],
      [120, 40],
      [60, 40],
      [0, 40],
      [0, 20],
    ],
    [],
  ],
  ["angle with round holes", L_SHAPE, [round(20, 20, 8.25, 32), round(100, 20, 5, 24), round(20, 80, 6.5, 16)]],
  [
    "square holes in line with each other and with corners",
    L_SHAPE,
    [10, 40, 70, 100].map((u): Flat[] => [
      [u, 10],
      [u + 10, 10],
      [u + 10, 20],
      [u, 20],
    ]),
  ],
  [
    "lug with a round end",
    [...round(0, 0, 20, 40).filter(([u]) => u <= 1e-9), [60, -20], [60, 20]],
    [round(0, 0, 6, 24)],
  ],
];

describe.each(CASES)("plate: %s", (_name, outline, holes) => {
  const solid = plate(outline, holes);
  const filled = area(outline) - holes.reduce((sum, hole) => sum + area(hole), 0);
  const around = [outline, ...holes].reduce((sum, ring) => sum + perimeter(ring), 0);

  test("is sound, and manifold-3d finds the volume and one handle for each hole", async () => {
    expectSound(solid);
    const manifold = await asManifold(solid);
    expect(manifold.genus()).toBe(holes.length);
    expect(volume_mm3(solid) / manifold.volume()).toBeCloseTo(1, 6);
  });

  test("has the volume and area of its outline less its holes", () => {
    expect(volume_mm3(solid) / (filled * 6)).toBeCloseTo(1, 5);
    expect(area_mm2(solid) / (2 * filled + 6 * around)).toBeCloseTo(1, 5);
  });

  test("grows along u×v from its origin", () => {
    const x = [...solid.positions].filter((_, i) => i % 3 === 0);
    expect([Math.min(...x), Math.max(...x)]).toEqual([100, 106]);
  });

  test("its convex pieces fill it and leave the holes free", () => {
    const isIn = inPieces(solid);
    for (const p of pointsAround(solid, 1500)) {
      const flat: Flat = [p[1] - 300, p[2] - 250];
      if (nearBorder([outline, ...holes], flat)) continue;
      const expected = contains(outline, flat) && !holes.some((hole) => contains(hole, flat));
      expect(isIn(p), `at ${flat}`).toBe(expected);
    }
  });
});

test("random star-shaped plates with a hole are sound and exact (seeded)", () => {
  const spoke = fc.double({ min: 30, max: 80, noNaN: true });
  fc.assert(
    fc.property(fc.array(spoke, { minLength: 5, maxLength: 24 }), fc.integer({ min: 3, max: 12 }), (spokes, sides) => {
      const outline = spokes.map((r, i): Flat => {
        const angle = (2 * Math.PI * i) / spokes.length;
        return [r * Math.cos(angle), r * Math.sin(angle)];
      });
      const hole = round(0, 0, 9, sides);
      const solid = plate(outline, [hole]);
      expectSound(solid);
      expect(volume_mm3(solid) / (6 * (area(outline) - area(hole)))).toBeCloseTo(1, 4);
    }),
    { seed: 11, numRuns: 60 },
  );
});

test("plates on a whole-number grid, full of corners in line, are sound (seeded)", () => {
  const columns = fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 2, maxLength: 9 });
  fc.assert(
    fc.property(columns, columns, (upper, lower) => {
      const outline: Flat[] = [];
      const n = Math.min(upper.length, lower.length);
      for (let i = 0; i < n; i++) outline.push([10 * i, -10 * lower[i]!], [10 * i + 10, -10 * lower[i]!]);
      for (let i = n - 1; i >= 0; i--) outline.push([10 * i + 10, 10 * upper[i]!], [10 * i, 10 * upper[i]!]);
      const holes = Array.from({ length: n }, (_, i): Flat[] => [
        [10 * i + 3, -5],
        [10 * i + 7, -5],
        [10 * i + 7, 5],
        [10 * i + 3, 5],
      ]);
      const solid = plate(outline, holes);
      expectSound(solid);
      expect(volume_mm3(solid)).toBeCloseTo(6 * (area(outline) - 40 * n), 0);
    }),
    { seed: 12, numRuns: 60 },
  );
});

test("outlines that cross themselves or leave the plate are refused by name", () => {
  const bowTie: Flat[] = [
    [0, 0],
    [50, 50],
    [50, 0],
    [0, 50],
  ];
  expect(() => plate(bowTie)).toThrow(InputError);
  expect(() =>
    plate([
      [0, 0],
      [10, 0],
      [20, 0],
    ]),
  ).toThrow(/outline/);
  expect(() => plate(L_SHAPE, [round(100, 80, 10, 12)])).toThrow(/holes/);
});

function nearBorder(rings: readonly Flat[][], [u, v]: Flat): boolean {
  return rings.some((ring) =>
    ring.some(([au, av], i) => {
      const [bu, bv] = ring[(i + 1) % ring.length]!;
      const [du, dv] = [bu - au, bv - av];
      const t = Math.min(1, Math.max(0, ((u - au) * du + (v - av) * dv) / (du * du + dv * dv || 1)));
      return Math.hypot(u - au - t * du, v - av - t * dv) < 1e-3;
    }),
  );
}
