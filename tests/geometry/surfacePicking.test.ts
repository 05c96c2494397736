import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { featureNear } from "../../src/geometry/features.ts";
import { rayOnSolid } from "../../src/geometry/rayOnSolid.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { distance, dot, normalise, subtract, type Vec3 } from "../../src/maths/vec3.ts";

/** A box by its half sizes, each face cut into n × n squares of two triangles. */
function box([a, b, c]: Vec3, n = 1): Solid {
  const positions: number[] = [];
  const indices: number[] = [];
  for (const k of [0, 1, 2] as const) {
    for (const sign of [-1, 1]) {
      const [u, v] = [(k + 1) % 3, (k + 2) % 3];
      const at = (s: number, t: number): number => {
        const p = [0, 0, 0];
        p[k] = sign;
        p[u] = (2 * s) / n - 1;
        p[v] = (2 * t) / n - 1;
        return positions.push(p[0]! * a, p[1]! * b, p[2]! * c) / 3 - 1;
      };
      for (let s = 0; s < n; s++) {
        for (let t = 0; t < n; t++) {
          const [p, q, r, w] = [at(s, t), at(s + 1, t), at(s + 1, t + 1), at(s, t + 1)];
          indices.push(...(sign > 0 ? [p, q, r, p, r, w] : [p, r, q, p, w, r]));
        }
      }
    }
  }
  return {
    positions: Float32Array.from(positions),
    indices: Uint32Array.from(indices),
    shells: [],
    convexPieces: null,
  };
}

/** A sphere of many flat faces by latitude and longitude. */
function sphere(radius: number, n: number): Solid {
  const positions: number[] = [];
  const indices: number[] = [];
  for (let i = 0; i <= n; i++) {
    for (let j = 0; j <= 2 * n; j++) {
      const [p, q] = [(Math.PI * i) / n, (Math.PI * j) / n];
      positions.push(radius * Math.sin(p) * Math.cos(q), radius * Math.sin(p) * Math.sin(q), radius * Math.cos(p));
      if (i < n && j < 2 * n) {
        const k = i * (2 * n + 1) + j;
        indices.push(k, k + 2 * n + 1, k + 1, k + 1, k + 2 * n + 1, k + 2 * n + 2);
      }
    }
  }
  return {
    positions: Float32Array.from(positions),
    indices: Uint32Array.from(indices),
    shells: [],
    convexPieces: null,
  };
}

const size = fc.double({ min: -1, max: 1, noNaN: true });
const vector = fc.tuple(size, size, size) as fc.Arbitrary<Vec3>;

describe("a ray on a solid", () => {
  const solid = box([100, 40, 25], 8);

  it("meets a box where its slabs say, from outside and from inside", () => {
    fc.assert(
      fc.property(vector, vector, (p, w) => {
        fc.pre(Math.hypot(...w) > 0.1);
        const way = normalise(w);
        const from: Vec3 = [p[0] * 250, p[1] * 150, p[2] * 100];
        // closed form: the ray is inside while it is between all three pairs of faces
        const half = [100, 40, 25];
        let [enter, leave] = [-Infinity, Infinity];
        for (let k = 0; k < 3; k++) {
          const [t, u] = [(-half[k]! - from[k]!) / way[k]!, (half[k]! - from[k]!) / way[k]!];
          enter = Math.max(enter, Math.min(t, u));
          leave = Math.min(leave, Math.max(t, u));
        }
        fc.pre(Math.abs(leave - enter) > 1e-3 && Math.abs(enter) > 1e-3);
        const wanted = leave < enter || leave < 0 ? Infinity : enter >= 0 ? enter : leave;
        const found = rayOnSolid(solid, from, way);
        if (wanted === Infinity) expect(found).toBe(Infinity);
        else expect(found).toBeCloseTo(wanted, 3);
      }),
      { seed: 61, numRuns: 2000 },
    );
  });

  it("meets a sphere where the quadratic says, to the flatness of its faces", () => {
    const ball = sphere(100, 64);
    fc.assert(
      fc.property(vector, vector, (p, q) => {
        fc.pre(Math.hypot(...p) > 0.2);
        const from = normalise(p).map((value) => value * 300) as unknown as Vec3;
        const way = normalise(subtract(q.map((value) => value * 50) as unknown as Vec3, from));
        const b = dot(from, way);
        const wanted = -b - Math.sqrt(b * b - (300 ** 2 - 100 ** 2));
        expect(Math.abs(rayOnSolid(ball, from, way) - wanted)).toBeLessThan(0.5);
      }),
      { seed: 62, numRuns: 300 },
    );
  });

  it("asks no farther than it is told", () => {
    expect(rayOnSolid(solid, [-300, 1, 1], [1, 0, 0], 199)).toBe(Infinity);
    expect(rayOnSolid(solid, [-300, 1, 1], [1, 0, 0], 201)).toBeCloseTo(200, 9);
    expect(rayOnSolid(solid, [-300, 1, 1], [-1, 0, 0])).toBe(Infinity);
  });
});

describe("corners and edges near a place", () => {
  const solid = box([100, 40, 25], 8);

  it("are the box's own, never those of its triangles", () => {
    expect(featureNear(solid, [98, 38, 25], 5)).toEqual({ kind: "corner", at: [100, 40, 25] });
    const edge = featureNear(solid, [13, 38, 25], 5)!;
    expect(edge.kind).toBe("edge");
    expect(distance(edge.at, [13, 40, 25])).toBeLessThan(1e-4);
    // a corner of four of its squares, in the middle of a face
    expect(featureNear(solid, [50, 20, 25], 8)).toBeNull();
    expect(featureNear(solid, [0, 0, 0], 5)).toBeNull();
  });

  it("are not found on a smooth surface, however it is cut into faces", () => {
    expect(featureNear(sphere(100, 32), [100, 0, 0], 15)).toBeNull();
  });

  it("include the open edge of a sheet", () => {
    const sheet: Solid = {
      positions: Float32Array.of(0, 0, 0, 50, 0, 0, 50, 50, 0, 0, 50, 0),
      indices: Uint32Array.of(0, 1, 2, 0, 2, 3),
      shells: [],
      convexPieces: null,
    };
    expect(featureNear(sheet, [25, 2, 0], 4)).toEqual({ kind: "edge", at: [25, 0, 0] });
    expect(featureNear(sheet, [25, 25, 0], 4)).toBeNull();
  });
});
