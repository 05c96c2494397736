import type { Pacer, Poll } from "../maths/poll.ts";
import { createDistanceQuery as createTypeScriptQuery, type DistanceQuery } from "./distance.ts";
import { createPointQuery as createTypeScriptPoints, type PointQuery } from "./distancePoint.ts";
import { sortTriangles, type TreeLayout } from "./meshBvhAdapter.ts";
import type { CollisionTree } from "./tree.ts";
import { createWasmDistance } from "./wasm/wasmDistance.ts";
import { WasmKernel } from "./wasm/wasmKernel.ts";
import { createWasmPoint } from "./wasm/wasmPoint.ts";
import { sortInKernel } from "./wasm/wasmSort.ts";

/** Which code measures distances; both measure the same. `auto`: the compiled one wherever it runs. */
export type KernelName = "auto" | "wasm" | "typescript";

/** (module (func (result v128) i32.const 0 i8x16.splat)): valid only where 128-bit vectors are known. */
const SIMD_PROBE = Uint8Array.of(
  0,
  97,
  115,
  109,
  1,
  0,
  0,
  0,
  1,
  5,
  1,
  96,
  0,
  1,
  123,
  3,
  2,
  1,
  0,
  10,
  8,
  1,
  6,
  0,
  65,
  0,
  253,
  15,
  11,
);

let wanted: KernelName = "auto";
/** Undefined until first asked for; null where it does not run. */
let compiled: WasmKernel | null | undefined;

/** Sets which kernel queries made from now on use: for tests and benchmarks. */
export function chooseKernel(name: KernelName): void {
  wanted = name;
}

/** The kernel that queries made now would use. Throws if the compiled one was asked for by name and cannot run. */
export function kernelInUse(): "wasm" | "typescript" {
  return compiledIfWanted() === null ? "typescript" : "wasm";
}

/** A query for the distance of two trees (distance.ts), in the kernel in use. */
export function createDistanceQuery(a: CollisionTree, b: CollisionTree, poll?: Poll): DistanceQuery {
  const kernel = compiledIfWanted();
  const query = kernel === null ? null : createWasmDistance(kernel, a, b, poll);
  return query ?? createTypeScriptQuery(a, b, poll);
}

/** A query for the nearest point of a tree (distancePoint.ts), in the kernel in use: for trees of which very many points are asked. */
export function createPointQuery(tree: CollisionTree, neighbours = false): PointQuery {
  const kernel = compiledIfWanted();
  const query = kernel === null ? null : createWasmPoint(kernel, tree, neighbours);
  return query ?? createTypeScriptPoints(tree, neighbours);
}

/** Triangles to a leaf: measured best for all queries taken together (distances alone: 24 to 32; points: 16). */
const LEAF_SIZE = 24;

/** Triangles (3 vertices each; at least one triangle) sorted into a tree, by the kernel in use. */
export function sortForTree(vertices: Float32Array, corners: Uint32Array, pacer: Pacer): TreeLayout {
  const kernel = compiledIfWanted();
  const layout = kernel === null ? null : sortInKernel(kernel, vertices, corners, LEAF_SIZE, pacer);
  return layout ?? sortTriangles(vertices, corners, LEAF_SIZE, pacer);
}

/** Gives back at once what the kernel holds of a tree; queries that still want it get it again. */
export function releaseTree(tree: CollisionTree): void {
  compiled?.release(tree);
}

function compiledIfWanted(): WasmKernel | null {
  if (wanted === "typescript") return null;
  if (compiled === undefined) compiled = compile();
  if (compiled === null && wanted === "wasm") throw new Error("WebAssembly with 128-bit vectors does not run here");
  return compiled;
}

function compile(): WasmKernel | null {
  if (typeof WebAssembly === "undefined" || !WebAssembly.validate(SIMD_PROBE)) return null;
  try {
    return new WasmKernel();
  } catch (error) {
    // a page may forbid compiling, or compiling of this much outside a worker
    if (error instanceof WebAssembly.CompileError || error instanceof RangeError) return null;
    throw error;
  }
}
