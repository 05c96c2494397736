import { describe, expect, it, vi } from "vitest";
import { createWitness, type DistanceQuery } from "../../../src/clearance/distance.ts";
import { buildTree, chooseKernel, createDistanceQuery } from "../../../src/clearance/kernel.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import { bytesOf, maskTree } from "../../../src/clearance/treeMask.ts";
import { createWasmDistance } from "../../../src/clearance/wasm/wasmDistance.ts";
import { WasmKernel } from "../../../src/clearance/wasm/wasmKernel.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { translationPose } from "../../../src/maths/pose.ts";
import { blob, box, randomFrom } from "../kernel/meshes.ts";

const lump = (seed: number, rings = 30) => blob(randomFrom(seed), rings, 40, [1, 1, 1], 0.1, [0, 0, 0]);

function distanceOf(query: DistanceQuery, x: number): number {
  const witness = createWitness();
  query.distance(translationPose([x, 0, 0]), witness);
  return witness.distance_mm;
}

describe("a released tree", () => {
  it("leaves its place to the next one at once", () => {
    const kernel = new WasmKernel();
    const [one, two] = [buildTree(lump(1)), buildTree(lump(1))];
    const at = kernel.addressOf(one);
    kernel.release(one);
    expect(kernel.addressOf(two)).toBe(at);
    kernel.release(one);
    expect(kernel.addressOf(one)).not.toBe(at);
  });

  it.each([0, 1])(
    "is measured as before by queries that still hold it, though another lies in its place: body %i",
    (which) => {
      const kernel = new WasmKernel();
      const [a, b, stranger] = [buildTree(lump(2)), buildTree(lump(3)), buildTree(lump(4, 20))];
      const query = createWasmDistance(kernel, a, b)!;
      const expected = [90, 120, 200].map((x) => distanceOf(query, x));
      const tree = [a, b][which]!;
      const at = kernel.addressOf(tree);
      kernel.release(tree);
      expect(kernel.addressOf(stranger)).toBe(at);
      expect([90, 120, 200].map((x) => distanceOf(query, x))).toEqual(expected);
      expect(kernel.addressOf(tree)).not.toBe(at);
    },
  );

  it("is measured as before in the masked trees made of it, though another lies in its place", () => {
    const kernel = new WasmKernel();
    const [whole, b] = [buildTree(lump(2)), buildTree(lump(3))];
    // as large in the memory
    const stranger = buildTree(blob(randomFrom(2), 30, 20, [1, 1, 1], 0.1, [0, 0, 0]));
    const leaves = Uint32Array.from(whole.right.keys()).filter((node) => whole.right[node] === 0);
    const masked = maskTree(
      whole,
      leaves.filter((_, i) => i % 2 === 0),
    )!;
    const query = createWasmDistance(kernel, masked, b)!;
    const expected = [90, 120, 200].map((x) => distanceOf(query, x));
    const at = kernel.addressOf(whole);
    // released, and a stranger in its place; then there again, but elsewhere
    kernel.release(whole);
    expect(kernel.addressOf(stranger)).toBe(at);
    expect([90, 120, 200].map((x) => distanceOf(query, x))).toEqual(expected);
    kernel.release(whole);
    kernel.release(stranger);
    kernel.addressOf(whole);
    expect([90, 120, 200].map((x) => distanceOf(query, x))).toEqual(expected);
  });

  it("is measured by the other kernel when there is no room for it any more", () => {
    const kernel = new WasmKernel();
    const [a, b] = [buildTree(lump(6)), buildTree(lump(7))];
    const query = createWasmDistance(kernel, a, b)!;
    const expected = distanceOf(query, 100);
    kernel.release(a);
    const full = vi.spyOn(kernel, "addressOf").mockReturnValue(null);
    expect(distanceOf(query, 100)).toBeCloseTo(expected, 9);
    full.mockRestore();
    expect(distanceOf(query, 100)).toBe(expected);
  });
});

describe("a shelf that is full", () => {
  const bodyOf = (key: string, solid: Solid) => ({ key, solid, content: key });

  it("gives back the kernel's memory of what it drops, so that this grows no further", () => {
    chooseKernel("wasm");
    const still = buildTree(lump(8, 10));
    const solid = lump(9, 60);
    const shelf = new TreeShelf(undefined, 5 * bytesOf(buildTree(solid)));
    const grow = vi.spyOn(WebAssembly.Memory.prototype, "grow");
    const growths: number[] = [];
    // 1 MB each; the memory grows by 4 MB at least
    for (let i = 0; i < 60; i++) {
      const { tree } = shelf.prepare(bodyOf(`lump ${i}`, solid));
      expect(distanceOf(createDistanceQuery(tree, still), 150)).toBeGreaterThan(0);
      growths.push(grow.mock.calls.length);
    }
    expect(growths.at(-1)).toBe(growths[10]);
    grow.mockRestore();
    chooseKernel("auto");
  });

  it("still answers for what a clipping needs, and makes anew what it has dropped", () => {
    const solid = box([200, 20, 20]);
    const shelf = new TreeShelf(undefined, 10_000);
    const first = shelf.clip(bodyOf("bar", solid), [{ centre: [100, 0, 0], radius_mm: 30 }]);
    const query = createDistanceQuery(first.counted[0]!, first.whole.tree);
    const before = distanceOf(query, 300);
    for (let i = 0; i < 5; i++) shelf.prepare(bodyOf(`box ${i}`, box([300, 300, 30 + i])));
    expect(distanceOf(query, 300)).toBe(before);
    const again = shelf.clip(bodyOf("bar", solid), [{ centre: [100, 0, 0], radius_mm: 30 }]);
    expect(again.counted[0]!.triangles).toEqual(first.counted[0]!.triangles);
  });
});
