import { afterAll, describe, expect, it } from "vitest";
import {
  buildTree,
  chooseKernel,
  createDistanceQuery,
  createPointQuery,
  createSurfacePoint,
  createWitness,
} from "../../../src/clearance/kernel.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, translationPose } from "../../../src/maths/pose.ts";
import type { Vec3 } from "../../../src/maths/vec3.ts";
import { kinds } from "../kernel/distanceCases.ts";
import { randomFrom, randomPoint, randomPose, solidOf } from "../kernel/meshes.ts";

afterAll(() => chooseKernel("auto"));

describe("the compiled kernel beside the one in TypeScript", () => {
  const SEED = 23;
  it.each(Object.entries(kinds))(
    `measures the same to 1e-9, cold and warm, between points along the direction: %s (seed ${SEED})`,
    (_, make) => {
      const random = randomFrom(SEED);
      for (let k = 0; k < 12; k++) {
        const one = make(random);
        const [a, b] = [buildTree(one.a), buildTree(one.b)];
        chooseKernel("typescript");
        const plain = { query: createDistanceQuery(a, b), witness: createWitness() };
        chooseKernel("wasm");
        const compiled = { query: createDistanceQuery(a, b), witness: createWitness() };
        for (let step = 0; step < 6; step++) {
          const relative = step === 0 ? one.relative : composePoses(one.relative, randomPose(random, 4, 2));
          plain.query.distance(relative, plain.witness);
          compiled.query.distance(relative, compiled.witness);
          const { distance_mm, pointA, pointB, direction } = compiled.witness;
          const expected = plain.witness.distance_mm;
          expect(Math.abs(distance_mm - expected), `case ${k}`).toBeLessThanOrEqual(1e-9 * Math.max(1, expected));
          if (distance_mm < 1e-6) continue;
          for (let axis = 0; axis < 3; axis++) {
            const along = (pointB[axis]! - pointA[axis]!) / distance_mm;
            expect(direction[axis]!, `case ${k}: direction`).toBeCloseTo(along, 4);
          }
        }
      }
    },
  );

  it.each(Object.entries(kinds))(
    `finds nearest points at the same distances to the last bit, from the last triangle too: %s (seed ${SEED})`,
    (_, make) => {
      const random = randomFrom(SEED);
      for (let k = 0; k < 6; k++) {
        const tree = buildTree(make(random).a);
        const [plain, compiled] = (["typescript", "wasm"] as const).map((kernel) => {
          chooseKernel(kernel);
          return [createPointQuery(tree), createPointQuery(tree, true)].map((query) => ({
            query,
            out: createSurfacePoint(),
          }));
        });
        for (let i = 0; i < 100; i++) {
          const at = randomPoint(random, 300);
          const limit = i % 3 === 0 ? 100 * random() : Number.POSITIVE_INFINITY;
          const enough = i % 5 === 0 ? limit / 2 : 0;
          for (const [v, { query, out }] of compiled!.entries()) {
            const other = plain![v]!;
            expect(query.nearest(...at, limit, out, enough)).toBe(other.query.nearest(...at, limit, other.out, enough));
            if (enough === 0) expect(out.distance_mm).toBe(other.out.distance_mm);
            else expect(out.distance_mm < enough).toBe(other.out.distance_mm < enough);
          }
        }
      }
    },
  );

  it("leaves leaves of very many coincident triangles to the other, and measures the same", () => {
    for (const count of [1, 3, 5, 255, 256, 257, 700]) {
      for (const kernel of ["typescript", "wasm"] as const) {
        chooseKernel(kernel);
        const query = createDistanceQuery(buildTree(pile(count)), buildTree(pile(3)));
        const witness = createWitness();
        query.distance(translationPose([1, 1, 7]), witness);
        expect(witness.distance_mm).toBeCloseTo(7, 12);
        expect(query.intersects(translationPose([1, 1, 0]), witness)).toBe(true);
      }
    }
  });
});

/** So many times the same triangle. */
function pile(count: number): Solid {
  const corners: Vec3[] = [
    [0, 0, 0],
    [10, 0, 0],
    [0, 10, 0],
  ];
  return solidOf(
    Array.from({ length: count }, () => corners).flat(),
    Array.from({ length: count }, (_, i) => [3 * i, 3 * i + 1, 3 * i + 2]),
    false,
  );
}
