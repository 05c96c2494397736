import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildTree, chooseKernel, createDistanceQuery, createWitness } from "../../../src/clearance/kernel.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, translationPose, turnPose } from "../../../src/maths/pose.ts";
import { allPairs } from "./bruteForce.ts";
import { blob, box, randomFrom, randomPose, shards } from "./meshes.ts";

const SEED = 53;

/** A square plate of n × n cells, 2·n² triangles, in the plane z = 0: ±100 each way. */
function plate(n: number): Solid {
  const positions = new Float32Array(3 * (n + 1) ** 2);
  const indices = new Uint32Array(6 * n * n);
  for (let i = 0; i <= n; i++) {
    for (let j = 0; j <= n; j++) positions.set([(200 * i) / n - 100, (200 * j) / n - 100, 0], 3 * (i * (n + 1) + j));
  }
  for (let i = 0, k = 0; i < n; i++) {
    for (let j = 0; j < n; j++, k += 6) {
      const [p, q, r, s] = [i * (n + 1) + j, (i + 1) * (n + 1) + j, (i + 1) * (n + 1) + j + 1, i * (n + 1) + j + 1];
      indices.set([p, q, r, p, r, s], k);
    }
  }
  return {
    positions,
    indices,
    shells: [{ firstTriangle: 0, triangleCount: 2 * n * n, closed: false }],
    convexPieces: null,
  };
}

describe.each(["typescript", "wasm"] as const)("trees of over 100,000 triangles by the %s kernel", (kernel) => {
  beforeAll(() => chooseKernel(kernel));
  afterAll(() => chooseKernel("auto"));

  function distanceOf(a: Solid, b: Solid, poses: readonly Float64Array[]): number[] {
    expect(a.indices.length / 3).toBeGreaterThan(100_000);
    const query = createDistanceQuery(buildTree(a), buildTree(b));
    const witness = createWitness();
    return poses.map((pose) => {
      query.distance(pose, witness);
      return witness.distance_mm;
    });
  }

  it(`are as far as the least of all pairs of triangles (seed ${SEED})`, () => {
    const random = randomFrom(SEED);
    const a = blob(random, 165, 100, [1, 2, 0.5], 0.02, [0, 0, 0]);
    const b = shards(random, 8, 30, 20, [0, 0, 0]);
    const poses = [0, 1, 2].map(() => randomPose(random, 180, 250));
    const found = distanceOf(a, b, poses);
    poses.forEach((pose, i) => {
      const expected = allPairs(a, b, pose).reduce((least, value) => Math.min(least, value));
      expect(found[i]).toBeCloseTo(expected, 9);
    });
  });

  // worked out by hand: the corner of a box that stands on it, 30 below its middle
  it("are as far off a plate as is a corner over it, beside its edge and beyond its corner", () => {
    const onCorner = turnPose([(Math.atan(Math.SQRT1_2) * 180) / Math.PI, 45, 0]);
    const side = 60 / Math.sqrt(3);
    const at = (x: number, y: number, z: number) => composePoses(translationPose([x, y, z]), onCorner);
    const stood = distanceOf(plate(230), box([side, side, side]), [at(3.1, 7.3, 30.5), at(-50, 20, 33)]);
    expect(stood[0]).toBeCloseTo(0.5, 4);
    expect(stood[1]).toBeCloseTo(3, 4);
    const flat = distanceOf(
      plate(230),
      box([2, 2, 2]),
      [
        [113, 0, 0],
        [104, 10, 5],
        [-113, 105, 13],
      ].map(([x, y, z]) => translationPose([x!, y!, z!])),
    );
    expect(flat[0]).toBeCloseTo(12, 6);
    expect(flat[1]).toBeCloseTo(Math.hypot(3, 4), 6);
    expect(flat[2]).toBeCloseTo(Math.hypot(12, 4, 12), 6);
  });
});
