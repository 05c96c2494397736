import { afterAll, describe, expect, it } from "vitest";
import {
  buildTree,
  chooseKernel,
  createDistanceQuery,
  createWitness,
  queryCounts,
} from "../../../src/clearance/kernel.ts";
import { identityPose, translationPose } from "../../../src/maths/pose.ts";
import { blob, box, randomFrom } from "./meshes.ts";

afterAll(() => chooseKernel("auto"));

describe.each(["typescript", "wasm"] as const)("counts of distance queries by the %s kernel", (kernel) => {
  /** What one query from nothing counts. */
  function counted(query: ReturnType<typeof createDistanceQuery>, shift: number, below_mm?: number) {
    const before = queryCounts();
    query.distance(translationPose([shift, 0, 0]), createWitness(), below_mm);
    const after = queryCounts();
    return [after.nodePairs - before.nodePairs, after.trianglePairs - before.trianglePairs];
  }

  it("are one pair of roots and no triangles where the boxes are farther apart than asked", () => {
    chooseKernel(kernel);
    const tree = buildTree(box([10, 10, 10]));
    expect(counted(createDistanceQuery(tree, tree), 100, 20)).toEqual([1, 0]);
  });

  it("are two more pairs of nodes for every split, and all pairs of triangles at the most", () => {
    chooseKernel(kernel);
    const tree = buildTree(blob(randomFrom(31), 12, 40, [1, 1, 1], 0.05, [0, 0, 0]));
    const query = createDistanceQuery(tree, tree);
    for (const shift of [0, 30, 85, 300]) {
      const [nodes, triangles] = counted(query, shift);
      expect(nodes! % 2).toBe(1);
      expect(triangles).toBeGreaterThan(0);
      expect(triangles).toBeLessThan(tree.triangleCount ** 2);
    }
  });

  it("are none of nodes where the hint's triangles touch already", () => {
    chooseKernel(kernel);
    const tree = buildTree(box([10, 10, 10]));
    const query = createDistanceQuery(tree, tree);
    const witness = createWitness();
    query.distance(identityPose(), witness);
    const before = queryCounts();
    query.distance(identityPose(), witness);
    const after = queryCounts();
    expect(after.nodePairs).toBe(before.nodePairs);
    expect(after.trianglePairs).toBe(before.trianglePairs + 1);
  });
});
