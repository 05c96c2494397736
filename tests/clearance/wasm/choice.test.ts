import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { identityPose } from "../../../src/maths/pose.ts";
import { box } from "../kernel/meshes.ts";

describe("the choice of the kernel", () => {
  beforeEach(() => vi.resetModules());
  afterEach(() => vi.unstubAllGlobals());

  const load = () => import("../../../src/clearance/kernel.ts");

  it("is the compiled one where it runs", async () => {
    const { kernelInUse } = await load();
    expect(kernelInUse()).toBe("wasm");
  });

  it("is what it is set to", async () => {
    const { chooseKernel, kernelInUse } = await load();
    chooseKernel("typescript");
    expect(kernelInUse()).toBe("typescript");
    chooseKernel("wasm");
    expect(kernelInUse()).toBe("wasm");
  });

  const lacking: [string, unknown][] = [
    ["WebAssembly is missing", undefined],
    ["vectors are unknown", { ...pieces(), validate: () => false }],
    [
      "the page forbids compiling",
      {
        ...pieces(),
        Module: class {
          constructor() {
            throw new WebAssembly.CompileError("blocked by policy");
          }
        },
      },
    ],
  ];
  it.each(lacking)("falls back where %s, and measures all the same", async (_, stub) => {
    vi.stubGlobal("WebAssembly", stub);
    const { buildTree, chooseKernel, createDistanceQuery, createWitness, kernelInUse } = await load();
    expect(kernelInUse()).toBe("typescript");
    const witness = createWitness();
    createDistanceQuery(buildTree(box([2, 2, 2])), buildTree(box([2, 2, 2], [5, 0, 0]))).distance(
      identityPose(),
      witness,
    );
    expect(witness.distance_mm).toBe(3);
    chooseKernel("wasm");
    expect(() => kernelInUse()).toThrow("does not run here");
  });
});

/** WebAssembly's members do not enumerate. */
function pieces() {
  const { CompileError, Instance, Memory, Module, validate } = WebAssembly;
  return { CompileError, Instance, Memory, Module, validate };
}
