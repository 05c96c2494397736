import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { describe, expect, it } from "vitest";
import { buildTree } from "../../../src/clearance/kernel.ts";
import { LinearMemory } from "../../../src/clearance/wasm/memory.ts";
import { packedSize } from "../../../src/clearance/wasm/packTree.ts";
import { WasmKernel } from "../../../src/clearance/wasm/wasmKernel.ts";
import { blob, box, randomFrom, solidOf } from "../kernel/meshes.ts";

const PAGE = 65_536;

describe("blocks of the linear memory", () => {
  it("never overlap, keep to the bounds, and leave one gap when all are freed", () => {
    const SEED = 3;
    const random = randomFrom(SEED);
    const memory = new WebAssembly.Memory({ initial: 1 });
    const [start, most] = [1000, 20 * PAGE];
    const blocks = new LinearMemory(memory, start, most);
    const held: { at: number; size: number }[] = [];
    for (let step = 0; step < 3000; step++) {
      if (held.length > 0 && random() < 0.45) {
        const [block] = held.splice(Math.floor(random() * held.length), 1);
        blocks.free(block!.at, block!.size);
        continue;
      }
      const size = 1 + Math.floor(random() ** 3 * 2 * PAGE);
      const at = blocks.take(size);
      if (at === null) continue;
      expect(at % 16, `seed ${SEED}`).toBe(0);
      expect(at, `seed ${SEED}`).toBeGreaterThanOrEqual(start);
      expect(at + size, `seed ${SEED}`).toBeLessThanOrEqual(Math.min(most, memory.buffer.byteLength));
      const overlapping = held.filter((other) => at < other.at + other.size && other.at < at + size);
      expect(overlapping, `seed ${SEED}`).toEqual([]);
      held.push({ at, size });
    }
    for (const { at, size } of held) blocks.free(at, size);
    expect(blocks.take(most - 1008)).toBe(1008);
  });

  it("refuse what the memory may not or cannot hold", () => {
    const memory = new WebAssembly.Memory({ initial: 1, maximum: 3 });
    const blocks = new LinearMemory(memory, 0, 2 * PAGE);
    expect(blocks.take(2 * PAGE + 1)).toBeNull();
    expect(blocks.take(2 * PAGE)).toBe(0);
    expect(new LinearMemory(memory, 0, 10 * PAGE).take(4 * PAGE)).toBeNull();
  });
});

describe("trees in the kernel", () => {
  it("are copied once, each to a place of its own", () => {
    const kernel = new WasmKernel();
    const random = randomFrom(9);
    const trees = [box([1, 2, 3]), blob(random, 9, 40, [1, 1, 1], 0.1, [0, 0, 0]), box([600, 2, 3])].map((solid) =>
      buildTree(solid),
    );
    const addresses = trees.map((tree) => kernel.addressOf(tree)!);
    expect(trees.map((tree) => kernel.addressOf(tree))).toEqual(addresses);
    for (let i = 1; i < trees.length; i++) {
      expect(addresses[i]).toBeGreaterThanOrEqual(addresses[i - 1]! + packedSize(trees[i - 1]!));
    }
  });

  it("make room for others once nobody holds them any more", async () => {
    setFlagsFromString("--expose-gc");
    const collect = runInNewContext("gc") as () => void;
    const kernel = new WasmKernel();
    const random = randomFrom(13);
    let taken = 0;
    let reached = 0;
    for (let k = 0; k < 30; k++) {
      const tree = buildTree(blob(random, 40, 40, [1, 1, 1], 0.1, [0, 0, 0]));
      taken += packedSize(tree);
      reached = Math.max(reached, kernel.addressOf(tree)! + packedSize(tree));
      collect();
      await new Promise((resume) => setTimeout(resume, 1));
    }
    expect(reached).toBeLessThan(taken / 2);
  });

  it("have no address when they are empty", () => {
    expect(new WasmKernel().addressOf(buildTree(solidOf([], [])))).toBeNull();
  });
});
