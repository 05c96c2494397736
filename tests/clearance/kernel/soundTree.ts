import { expect } from "vitest";
import type { CollisionTree } from "../../../src/clearance/kernel.ts";

/** Corner k of a tree triangle. */
export function corner(tree: CollisionTree, triangle: number, k: number): readonly [number, number, number] {
  const at = 9 * triangle + 3 * k;
  return [tree.triangles[at]!, tree.triangles[at + 1]!, tree.triangles[at + 2]!];
}

/** Nodes hang together, and every triangle lies in the upright and the fitted box of every node that holds it. */
export function expectSound(tree: CollisionTree): void {
  const parent = new Int32Array(tree.nodeCount).fill(-1);
  // counted, for an assertion a corner would take long
  let outside = 0;
  for (let node = 0; node < tree.nodeCount; node++) {
    const second = tree.right[node]!;
    if (second !== 0) {
      expect(tree.first[node + 1]).toBe(tree.first[node]);
      expect(tree.first[second]).toBe(tree.first[node]! + tree.count[node + 1]!);
      expect(tree.count[node]).toBe(tree.count[node + 1]! + tree.count[second]!);
      parent[node + 1] = node;
      parent[second] = node;
    }
    const fitted = tree.fitted.subarray(15 * node, 15 * node + 15);
    for (let one = 0; one < 3; one++) {
      for (let other = 0; other < 3; other++) {
        const product = [0, 1, 2].reduce((sum, k) => sum + fitted[3 * one + k]! * fitted[3 * other + k]!, 0);
        expect(product).toBeCloseTo(one === other ? 1 : 0, 14);
      }
    }
    for (let i = tree.first[node]!; i < tree.first[node]! + tree.count[node]!; i++) {
      for (let k = 0; k < 3; k++) {
        const p = corner(tree, i, k);
        for (let axis = 0; axis < 3; axis++) {
          const off = Math.abs(p[axis]! - tree.boxes[6 * node + axis]!);
          if (!(off <= tree.boxes[6 * node + 3 + axis]!)) outside++;
        }
        const off = p.map((value, axis) => value - tree.boxes[6 * node + axis]!);
        for (let axis = 0; axis < 3; axis++) {
          const along = off.reduce((sum, value, k) => sum + value * fitted[3 * axis + k]!, 0);
          if (!(along >= fitted[9 + 2 * axis]! && along <= fitted[10 + 2 * axis]!)) outside++;
        }
      }
    }
  }
  expect(outside).toBe(0);
  expect(tree.nodeCount === 0 || tree.count[0] === tree.triangleCount).toBe(true);
  expect(Array.from(parent).filter((node) => node < 0)).toHaveLength(Math.min(1, tree.nodeCount));
}

/** Every edge is run as often one way as the other. */
export function expectClosed(tree: CollisionTree): void {
  const edges = new Map<string, number>();
  for (let i = 0; i < tree.triangleCount; i++) {
    for (let k = 0; k < 3; k++) {
      const [from, to] = [corner(tree, i, k), corner(tree, i, (k + 1) % 3)];
      edges.set(`${from} ${to}`, (edges.get(`${from} ${to}`) ?? 0) + 1);
      edges.set(`${to} ${from}`, (edges.get(`${to} ${from}`) ?? 0) - 1);
    }
  }
  expect([...edges.values()].every((balance) => balance === 0)).toBe(true);
}
