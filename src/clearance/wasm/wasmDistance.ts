import type { Pose } from "../../maths/pose.ts";
import { type DistanceQuery, type Leeway, leastWithin, NO_LEEWAY, TOUCHING_mm, type Witness } from "../distance.ts";
import { countQuery } from "../queryCounts.ts";
import type { CollisionTree } from "../tree.ts";
import { EXCHANGE, type WasmKernel } from "./wasmKernel.ts";

/** A query that runs in the compiled kernel; null if one of the trees is empty or does not fit there. */
export function createWasmDistance(kernel: WasmKernel, a: CollisionTree, b: CollisionTree): DistanceQuery | null {
  if (!kernel.canDescend(a, b)) return null;
  const treeA = kernel.addressOf(a);
  const treeB = kernel.addressOf(b);
  return treeA === null || treeB === null ? null : new WasmDistance(kernel, a, b, treeA, treeB);
}

class WasmDistance implements DistanceQuery {
  private readonly kernel: WasmKernel;
  /** Kept so that the kernel keeps its copies. */
  readonly a: CollisionTree;
  readonly b: CollisionTree;
  private readonly treeA: number;
  private readonly treeB: number;

  constructor(kernel: WasmKernel, a: CollisionTree, b: CollisionTree, treeA: number, treeB: number) {
    this.kernel = kernel;
    this.a = a;
    this.b = b;
    this.treeA = treeA;
    this.treeB = treeB;
  }

  distance(relative: Pose, witness: Witness, below_mm = Number.POSITIVE_INFINITY, leeway: Leeway = NO_LEEWAY): boolean {
    const { kernel, treeA, treeB } = this;
    const { values, words } = kernel;
    const { direction, pointA, pointB } = witness;
    for (let k = 0; k < 12; k++) values[EXCHANGE.pose + k] = relative[k]!;
    values[EXCHANGE.limit] = below_mm;
    values[EXCHANGE.leewayFloor] = leeway.floor_mm;
    values[EXCHANGE.leewayShare] = leeway.share;
    for (let k = 0; k < 3; k++) values[EXCHANGE.direction + k] = direction[k]!;
    words[EXCHANGE.triangleA] = witness.triangleA;
    words[EXCHANGE.triangleB] = witness.triangleB;
    const found = kernel.distance(treeA, treeB) !== 0;
    countQuery(words[EXCHANGE.nodePairs]!, words[EXCHANGE.trianglePairs]!);
    for (let k = 0; k < 3; k++) direction[k] = values[EXCHANGE.direction + k]!;
    if (!found) {
      witness.distance_mm = below_mm;
      witness.least_mm = below_mm;
      return false;
    }
    witness.distance_mm = Math.sqrt(values[EXCHANGE.squared]!);
    witness.least_mm = leastWithin(witness.distance_mm, leeway);
    witness.triangleA = words[EXCHANGE.triangleA]!;
    witness.triangleB = words[EXCHANGE.triangleB]!;
    for (let k = 0; k < 3; k++) {
      pointA[k] = values[EXCHANGE.points + k]!;
      pointB[k] = values[EXCHANGE.points + 3 + k]!;
    }
    return true;
  }

  intersects(relative: Pose, witness: Witness): boolean {
    return this.distance(relative, witness, TOUCHING_mm);
  }
}
