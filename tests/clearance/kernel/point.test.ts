import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildTree, chooseKernel, createPointQuery, createSurfacePoint } from "../../../src/clearance/kernel.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { cross, dot, length, mix, normalise, subtract, type Vec3 } from "../../../src/maths/vec3.ts";
import { soupOf } from "./bruteForce.ts";
import { blob, box, randomFrom, randomPoint, shards, solidOf } from "./meshes.ts";

function toEdge(p: Vec3, from: Vec3, to: Vec3): number {
  const edge = subtract(to, from);
  const square = dot(edge, edge);
  const along = square > 0 ? Math.min(1, Math.max(0, dot(edge, subtract(p, from)) / square)) : 0;
  return length(subtract(p, mix(from, to, along)));
}

/** To the edges, and to the plane where the point lies on the inner side of all three. */
function bruteForce(solid: Solid, p: Vec3): number {
  const soup = soupOf(solid);
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < soup.length; at += 9) {
    const [a, b, c] = [0, 3, 6].map((k): Vec3 => [soup[at + k]!, soup[at + k + 1]!, soup[at + k + 2]!]) as [
      Vec3,
      Vec3,
      Vec3,
    ];
    least = Math.min(least, toEdge(p, a, b), toEdge(p, b, c), toEdge(p, c, a));
    const normal = normalise(cross(subtract(b, a), subtract(c, a)));
    const isInner = (from: Vec3, to: Vec3) => dot(cross(normal, subtract(to, from)), subtract(p, from)) >= 0;
    if (length(normal) > 0 && isInner(a, b) && isInner(b, c) && isInner(c, a)) {
      least = Math.min(least, Math.abs(dot(normal, subtract(p, a))));
    }
  }
  return least;
}

describe.each(["typescript", "wasm"] as const)("nearest point of a surface, %s", (kernel) => {
  beforeAll(() => chooseKernel(kernel));
  afterAll(() => chooseKernel("auto"));

  it("is as near as the nearest of all triangles, and lies that far away (seed 61)", () => {
    const random = randomFrom(61);
    for (const solid of [
      blob(random, 8, 50, [1, 2, 0.1], 0.2, [300, 0, -100]),
      shards(random, 150, 100, 60, [0, 0, 0]),
      box([400, 300, 2]),
    ]) {
      const tree = buildTree(solid);
      const query = createPointQuery(tree);
      const fromLast = createPointQuery(tree, true);
      const out = createSurfacePoint();
      for (let k = 0; k < 300; k++) {
        const p = randomPoint(random, 400);
        expect(fromLast.nearest(...p, Number.POSITIVE_INFINITY, out)).toBe(true);
        const told = out.distance_mm;
        expect(query.nearest(...p, Number.POSITIVE_INFINITY, out)).toBe(true);
        const expected = bruteForce(solid, p);
        expect(out.distance_mm).toBeCloseTo(expected, 9);
        expect(told).toBe(out.distance_mm);
        const point: Vec3 = [out.point[0]!, out.point[1]!, out.point[2]!];
        expect(length(subtract(point, p))).toBeCloseTo(expected, 9);
        expect(bruteForce(solid, point)).toBeLessThan(1e-9);
        // below a limit, or not
        const limit = expected * (0.5 + random());
        expect(fromLast.nearest(...p, limit, out)).toBe(expected < limit);
        expect(query.nearest(...p, limit, out)).toBe(expected < limit);
        expect(out.distance_mm).toBeCloseTo(Math.min(expected, limit), 9);
        expect(out.triangle >= 0).toBe(expected < limit);
      }
    }
  });

  it("ends early with any point that is near enough", () => {
    const out = createSurfacePoint();
    const query = createPointQuery(buildTree(box([100, 100, 100])));
    expect(query.nearest(0, 0, 40, Number.POSITIVE_INFINITY, out, 1000)).toBe(true);
    expect(out.distance_mm).toBeLessThan(1000);
  });

  it("is none on a body without triangles", () => {
    const out = createSurfacePoint();
    expect(createPointQuery(buildTree(solidOf([], []))).nearest(0, 0, 0, Number.POSITIVE_INFINITY, out)).toBe(false);
    expect(out.triangle).toBe(-1);
  });
});
