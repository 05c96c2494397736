import { describe, expect, it, vi } from "vitest";
import { sortTriangles, type TreeLayout } from "../../../src/clearance/meshBvhAdapter.ts";
import { WasmKernel } from "../../../src/clearance/wasm/wasmKernel.ts";
import { sortInKernel } from "../../../src/clearance/wasm/wasmSort.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { Pacer } from "../../../src/maths/poll.ts";
import { blob, box, randomFrom, shards } from "../kernel/meshes.ts";

const LEAF_SIZE = 24;
const SEED = 83;
const kernel = new WasmKernel();
const idle = new Pacer(undefined, 1);

function sorted({ positions, indices }: Solid): TreeLayout {
  return sortInKernel(kernel, positions, indices, LEAF_SIZE, idle)!;
}

function depthOf({ right }: TreeLayout): number {
  const level = new Uint32Array(right.length);
  right.forEach((second, node) => {
    if (second !== 0) level.fill(level[node]! + 1, node + 1, node + 2).fill(level[node]! + 1, second, second + 1);
  });
  return level.reduce((most, value) => Math.max(most, value), 0);
}

/** Nodes numbered depth first, each holding the run that its children share; every triangle once. */
function expectSound(layout: TreeLayout, triangles: number): void {
  const { order, right, first, count } = layout;
  expect(Array.from(order).sort((a, b) => a - b)).toEqual(Array.from({ length: triangles }, (_, i) => i));
  expect([first[0], count[0]]).toEqual([0, triangles]);
  let next = 1;
  const visit = (node: number): void => {
    const second = right[node]!;
    if (second === 0) {
      expect(count[node]).toBeLessThanOrEqual(LEAF_SIZE);
      return;
    }
    expect(next++).toBe(node + 1);
    expect([first[node + 1], first[second]]).toEqual([first[node], first[node]! + count[node + 1]!]);
    expect(count[node + 1]! + count[second]!).toBe(count[node]);
    expect(Math.min(count[node + 1]!, count[second]!)).toBeGreaterThan(0);
    visit(node + 1);
    expect(next++).toBe(second);
    visit(second);
  };
  visit(0);
  expect(next).toBe(right.length);
}

/** Area of all boxes over the root's: what the heuristic is to keep small. */
function bulkOf({ order, right, first, count }: TreeLayout, { positions, indices }: Solid): number {
  const areas = Array.from(right, (_, node) => {
    const low = [Infinity, Infinity, Infinity];
    const high = [-Infinity, -Infinity, -Infinity];
    for (let i = first[node]!; i < first[node]! + count[node]!; i++) {
      for (let corner = 0; corner < 9; corner++) {
        const axis = corner % 3;
        const value = positions[3 * indices[3 * order[i]! + Math.floor(corner / 3)]! + axis]!;
        low[axis] = Math.min(low[axis]!, value);
        high[axis] = Math.max(high[axis]!, value);
      }
    }
    const [x, y, z] = high.map((value, axis) => value - low[axis]!) as [number, number, number];
    return x * y + y * z + z * x;
  });
  return areas.reduce((sum, area) => sum + area, 0) / areas[0]!;
}

const kinds: Record<string, (random: () => number) => Solid> = {
  lump: (random) => blob(random, 30, 60, [1, 2, 0.5], 0.1, [400, -700, 300]),
  "long bar": (random) => blob(random, 25, 20, [30, 1, 1], 0.02, [0, 0, 0]),
  "flat disc": (random) => blob(random, 25, 200, [1, 1, 0.001], 0.05, [0, 0, 5000]),
  "loose shards, needles and points": (random) => shards(random, 3000, 500, 30, [0, 0, 0]),
};

describe("triangles sorted in the compiled kernel", () => {
  it.each(Object.entries(kinds))(`lie in a sound tree, as good as the library's: %s (seed ${SEED})`, (_, make) => {
    const solid = make(randomFrom(SEED));
    const layout = sorted(solid);
    expectSound(layout, solid.indices.length / 3);
    const peer = sortTriangles(solid.positions, solid.indices, LEAF_SIZE, idle);
    expect(bulkOf(layout, solid)).toBeLessThan(1.05 * bulkOf(peer, solid));
  });

  it("are few in every leaf, wherever they lie and however many in one place", () => {
    const random = randomFrom(SEED + 1);
    expectSound(sorted(box([1, 2, 3])), 12);
    const one = box([1, 1, 1]);
    for (const copies of [1, 2, 3, 50, 1000]) {
      const indices = Uint32Array.from({ length: 3 * copies }, (_, i) => one.indices[i % 3]!);
      expectSound(sorted({ ...one, indices }), copies);
    }
    // each a thousandth nearer to the origin than the one before: ever the same shape, down to nothing
    const shrinking = shards(random, 2000, 1, 1, [0, 0, 0]);
    const positions = shrinking.positions.map((value, k) => value * 0.98 ** Math.floor(k / 9));
    const layout = sorted({ ...shrinking, positions });
    expectSound(layout, 2000);
    expect(depthOf(layout)).toBeLessThan(64);
  });

  it("leave no memory taken, also when a poll throws", () => {
    const solid = blob(randomFrom(SEED), 200, 60, [1, 1, 1], 0.1, [0, 0, 0]);
    const before = kernel.lend(16, (_, at) => at);
    sorted(solid);
    for (let k = 1; k < 4; k++) {
      let calls = 0;
      const pacer = new Pacer(() => {
        if (++calls === k) throw new Error("stopped");
      }, 20_000);
      expect(() => sortInKernel(kernel, solid.positions, solid.indices, LEAF_SIZE, pacer)).toThrow("stopped");
    }
    expectSound(sorted(box([1, 2, 3])), 12);
    expect(kernel.lend(16, (_, at) => at)).toBe(before);
  });

  it("are left to others where there is no room for them", () => {
    const full = vi.spyOn(kernel, "lend").mockReturnValue(null);
    const { positions, indices } = box([1, 2, 3]);
    expect(sortInKernel(kernel, positions, indices, LEAF_SIZE, idle)).toBeNull();
    full.mockRestore();
  });
});
