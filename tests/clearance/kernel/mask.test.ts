import { afterAll, describe, expect, it } from "vitest";
import {
  buildTree,
  type CollisionTree,
  chooseKernel,
  createDistanceQuery,
  createPairQuery,
  createPointQuery,
  createSurfacePoint,
  createWitness,
} from "../../../src/clearance/kernel.ts";
import { createSurfaceDistance, createSurfacePoints } from "../../../src/clearance/surface.ts";
import { bytesOf, maskTree } from "../../../src/clearance/treeMask.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { identityPose } from "../../../src/maths/pose.ts";
import { blob, randomFrom, randomPoint, randomPose } from "./meshes.ts";

afterAll(() => chooseKernel("auto"));

const SEED = 41;

function leavesOf({ right }: CollisionTree): number[] {
  return [...right.keys()].filter((node) => right[node] === 0);
}

/** The triangles of all leaves but the given ones, as a solid of their own. */
function without(tree: CollisionTree, leaves: Uint32Array): Solid {
  const kept: number[] = [];
  for (const leaf of leavesOf(tree)) {
    if (leaves.includes(leaf)) continue;
    for (let i = tree.first[leaf]!; i < tree.first[leaf]! + tree.count[leaf]!; i++) kept.push(i);
  }
  return {
    positions: tree.solid.positions,
    indices: Uint32Array.from(kept.flatMap((i) => [...tree.corners.subarray(3 * i, 3 * i + 3)])),
    shells: [{ firstTriangle: 0, triangleCount: kept.length, closed: false }],
    convexPieces: null,
  };
}

describe("a tree less some of its leaves", () => {
  it.each(["typescript", "wasm"] as const)(
    `is as far from everything as a tree of what is left, in %s (seed ${SEED})`,
    (kernel) => {
      chooseKernel(kernel);
      const random = randomFrom(SEED);
      for (let round = 0; round < 12; round++) {
        const [a, b] = [0, 1].map((i) => buildTree(blob(random, 16, 40, [1, 0.7, 0.5], 0.1, [85 * i, 0, 0])));
        const [hiddenA, hiddenB] = [a!, b!].map((tree) => {
          const share = [0.05, 0.5, 0.95][round % 3]!;
          return Uint32Array.from(leavesOf(tree).filter((_, leaf) => leaf > 0 && random() < share));
        });
        const masked = [maskTree(a!, hiddenA!)!, maskTree(b!, hiddenB!)!] as const;
        const left = [buildTree(without(a!, hiddenA!)), buildTree(without(b!, hiddenB!))] as const;
        const pose = randomPose(random, 90, 30);
        for (const [p, q, plainP, plainQ] of [
          [masked[0], masked[1], left[0], left[1]],
          [masked[0], b!, left[0], b!],
          [a!, masked[1], a!, left[1]],
        ] as const) {
          const [witness, expected] = [createWitness(), createWitness()];
          createDistanceQuery(p, q).distance(pose, witness);
          createDistanceQuery(plainP, plainQ).distance(pose, expected);
          expect(witness.distance_mm).toBeCloseTo(expected.distance_mm, 9);
          const count = (first: CollisionTree, second: CollisionTree) => {
            let pairs = 0;
            createPairQuery(first, second).forEachPairWithin(pose, 3, () => {
              pairs++;
              return false;
            });
            return pairs;
          };
          expect(count(p, q)).toBe(count(plainP, plainQ));
        }
        const [one, other] = [createSurfacePoint(), createSurfacePoint()];
        for (let i = 0; i < 20; i++) {
          const [x, y, z] = randomPoint(random, 60);
          createPointQuery(masked[0]).nearest(x, y, z, Number.POSITIVE_INFINITY, one);
          createPointQuery(left[0]).nearest(x, y, z, Number.POSITIVE_INFINITY, other);
          expect(one.distance_mm).toBeCloseTo(other.distance_mm, 9);
        }
      }
    },
  );

  it("is nothing where all are left out, and costs little beside the whole", () => {
    const tree = buildTree(blob(randomFrom(SEED), 30, 40, [1, 1, 1], 0.1, [0, 0, 0]));
    const leaves = leavesOf(tree);
    expect(maskTree(tree, Uint32Array.from(leaves))).toBeNull();
    expect(bytesOf(maskTree(tree, Uint32Array.from(leaves.slice(1)))!)).toBeLessThan(bytesOf(tree) / 10);
  });
});

describe("a surface in several trees", () => {
  it.each(["typescript", "wasm"] as const)(
    `is measured as one, cold, warm, below a limit and with leeway, in %s (seed ${SEED})`,
    (kernel) => {
      chooseKernel(kernel);
      const random = randomFrom(SEED);
      for (let round = 0; round < 8; round++) {
        const [a, b] = [0, 1].map((i) => buildTree(blob(random, 16, 40, [1, 0.7, 0.5], 0.1, [95 * i, 0, 0])));
        const partsOf = (tree: CollisionTree) => {
          const some = Uint32Array.from(leavesOf(tree).filter(() => random() < 0.4));
          const others = Uint32Array.from(leavesOf(tree).filter((leaf) => !some.includes(leaf)));
          return [maskTree(tree, some)!, buildTree(without(tree, others))];
        };
        const [partsA, partsB] = [partsOf(a!), partsOf(b!)];
        const parts = createSurfaceDistance(partsA, partsB);
        const one = createDistanceQuery(a!, b!);
        const [warm, expected] = [createWitness(), createWitness()];
        for (let step = 0; step < 6; step++) {
          const pose = randomPose(random, 10, 6);
          one.distance(pose, expected);
          parts.distance(pose, warm);
          expect(warm.distance_mm).toBeCloseTo(expected.distance_mm, 9);
          for (let k = 0; k < 3; k++)
            expect(warm.pointB[k]! - warm.pointA[k]!).toBeCloseTo(warm.distance_mm * warm.direction[k]!, 4);
          const { distance_mm } = expected;
          expect(parts.distance(pose, createWitness(), distance_mm * 0.99)).toBe(false);
          expect(parts.distance(pose, createWitness(), distance_mm * 1.01 + 1e-6)).toBe(true);
          expect(parts.intersects(pose, createWitness())).toBe(one.intersects(pose, createWitness()));
          const loose = createWitness();
          parts.distance(pose, loose, Number.POSITIVE_INFINITY, { floor_mm: 1, share: 0.3 });
          expect(loose.least_mm).toBeLessThanOrEqual(distance_mm + 1e-9);
          expect(loose.distance_mm).toBeGreaterThanOrEqual(distance_mm - 1e-9);
        }
        const [found, plain] = [createSurfacePoint(), createSurfacePoint()];
        for (let i = 0; i < 20; i++) {
          const [x, y, z] = randomPoint(random, 60);
          createPointQuery(a!).nearest(x, y, z, Number.POSITIVE_INFINITY, plain);
          createSurfacePoints(partsA).nearest(x, y, z, Number.POSITIVE_INFINITY, found);
          expect(found.distance_mm).toBeCloseTo(plain.distance_mm, 9);
          const below = plain.distance_mm * 0.9;
          expect(createSurfacePoints(partsA).nearest(x, y, z, below, found)).toBe(false);
          expect(found.distance_mm).toBe(below);
        }
      }
    },
  );

  it("of none at all is nowhere", () => {
    const tree = buildTree(blob(randomFrom(SEED), 8, 40, [1, 1, 1], 0.1, [0, 0, 0]));
    expect(createSurfaceDistance([], [tree]).distance(identityPose(), createWitness())).toBe(false);
    expect(createSurfacePoints([]).nearest(0, 0, 0, 10, createSurfacePoint())).toBe(false);
  });
});
