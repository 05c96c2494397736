import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildTree, chooseKernel } from "../../../src/clearance/kernel.ts";
import { blob, box, randomFrom, shards, solidOf } from "./meshes.ts";
import { corner, expectClosed, expectSound } from "./soundTree.ts";

function areaVector(points: readonly (readonly number[])[]): number[] {
  const [a, b, c] = points as [number[], number[], number[]];
  const u = b.map((value, k) => value - a[k]!) as [number, number, number];
  const v = c.map((value, k) => value - a[k]!) as [number, number, number];
  return [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
}

describe.each(["typescript", "wasm"] as const)("a tree sorted by the %s kernel", (kernel) => {
  beforeAll(() => chooseKernel(kernel));
  afterAll(() => chooseKernel("auto"));

  it("bounds every triangle of every node by its upright and its fitted box", () => {
    const random = randomFrom(3);
    expectSound(buildTree(blob(random, 12, 100, [1, 2, 0.3], 0.1, [400, -700, 300])));
    expectSound(buildTree(shards(random, 200, 500, 200, [1e4, 0, -1e4])));
    expectSound(buildTree(box([1000, 1, 300])));
    expectSound(buildTree(solidOf([], [])));
  });

  it("keeps every triangle once: parts of a triangle add up to its area and face the same way", () => {
    const solid = box([1000, 700, 20], [10, 20, 30]);
    const tree = buildTree(solid);
    const sums = Array.from({ length: 12 }, () => [0, 0, 0]);
    for (let i = 0; i < tree.triangleCount; i++) {
      const area = areaVector([0, 1, 2].map((k) => corner(tree, i, k)));
      sums[tree.original[i]!] = sums[tree.original[i]!]!.map((value, k) => value + area[k]!);
    }
    sums.forEach((sum, triangle) => {
      const corners = Array.from(solid.indices.subarray(3 * triangle, 3 * triangle + 3), (vertex) =>
        Array.from(solid.positions.subarray(3 * vertex, 3 * vertex + 3)),
      );
      for (const [k, value] of areaVector(corners).entries()) expect(sum[k]).toBeCloseTo(value, 6);
    });
  });

  it("cuts long edges alike on both sides, so a closed surface stays closed", () => {
    const tree = buildTree(box([1000, 700, 20]));
    for (let i = 0; i < tree.triangleCount; i++) {
      for (let k = 0; k < 3; k++) {
        const [from, to] = [corner(tree, i, k), corner(tree, i, (k + 1) % 3)];
        expect(Math.hypot(from[0] - to[0], from[1] - to[1], from[2] - to[2])).toBeLessThanOrEqual(150);
      }
    }
    expectClosed(tree);
  });

  it("cuts needles across: twice as many parts of a long thin bar's face as slices, where proportions kept would take their square", () => {
    // 8 slices along each of 8 needles, and the 4 triangles of the ends
    const tree = buildTree(box([1100, 3, 3]));
    expect(tree.triangleCount).toBeLessThanOrEqual(8 * 2 * 8 + 4);
    expectClosed(tree);
    expectSound(tree);
    for (const seed of [11, 12, 13]) {
      const stretched = buildTree(blob(randomFrom(seed), 8, 900, [1, 0.01, 0.02], 0.2, [0, 0, 0]));
      expect(stretched.triangleCount).toBeGreaterThan(stretched.solid.indices.length / 3);
      expectClosed(stretched);
      expectSound(stretched);
    }
  });

  it("holds a hundred thousand triangles in one place", () => {
    const count = 100_000;
    const tree = buildTree({
      positions: Float32Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0),
      indices: Uint32Array.from({ length: 3 * count }, (_, k) => k % 3),
      shells: [{ firstTriangle: 0, triangleCount: count, closed: false }],
      convexPieces: null,
    });
    expect(tree.count[0]).toBe(count);
  });
});
