import type { Pacer, Poll } from "../../maths/poll.ts";
import type { Pose } from "../../maths/pose.ts";
import {
  createDistanceQuery,
  type DistanceQuery,
  type Leeway,
  leastWithin,
  NO_LEEWAY,
  TOUCHING_mm,
  type Witness,
} from "../distance.ts";
import { countQuery } from "../queryCounts.ts";
import type { CollisionTree } from "../tree.ts";
import { EXCHANGE, type WasmKernel } from "./wasmKernel.ts";

/** A query that runs in the compiled kernel; null if one of the trees is empty or does not fit there. */
export function createWasmDistance(
  kernel: WasmKernel,
  a: CollisionTree,
  b: CollisionTree,
  poll?: Poll,
): DistanceQuery | null {
  if (!kernel.canDescend(a, b)) return null;
  const query = new WasmDistance(kernel, a, b, poll);
  return query.findTrees() ? query : null;
}

class WasmDistance implements DistanceQuery {
  private readonly kernel: WasmKernel;
  private readonly a: CollisionTree;
  private readonly b: CollisionTree;
  private readonly poll: Poll | undefined;
  private readonly pacer: Pacer;
  private unspent = 0;
  private treeA = 0;
  private treeB = 0;
  /** The kernel's count of releases when the addresses were right; −1: they are not. */
  private releases = -1;
  /** Measures once the trees do not fit the kernel any more. */
  private substitute: DistanceQuery | null = null;

  constructor(kernel: WasmKernel, a: CollisionTree, b: CollisionTree, poll: Poll | undefined) {
    this.kernel = kernel;
    this.a = a;
    this.b = b;
    this.poll = poll;
    this.pacer = kernel.pacerOf(poll);
  }

  /** Where the trees are in the kernel, brought there if need be; false if they do not fit. */
  findTrees(): boolean {
    const { kernel } = this;
    const treeA = kernel.addressOf(this.a);
    const treeB = kernel.addressOf(this.b);
    if (treeA === null || treeB === null) return false;
    this.treeA = treeA;
    this.treeB = treeB;
    this.releases = kernel.releases;
    return true;
  }

  distance(relative: Pose, witness: Witness, below_mm = Number.POSITIVE_INFINITY, leeway: Leeway = NO_LEEWAY): boolean {
    const { kernel, pacer } = this;
    if (this.releases !== kernel.releases && !this.findTrees()) {
      this.substitute ??= createDistanceQuery(this.a, this.b, this.poll);
      return this.substitute.distance(relative, witness, below_mm, leeway);
    }
    const { unspent } = this;
    this.unspent = 0;
    pacer.spend(unspent);
    const { values, words } = kernel;
    const { direction, pointA, pointB } = witness;
    for (let k = 0; k < 12; k++) values[EXCHANGE.pose + k] = relative[k]!;
    values[EXCHANGE.limit] = below_mm;
    values[EXCHANGE.leewayFloor] = leeway.floor_mm;
    values[EXCHANGE.leewayShare] = leeway.share;
    for (let k = 0; k < 3; k++) values[EXCHANGE.direction + k] = direction[k]!;
    words[EXCHANGE.triangleA] = witness.triangleA;
    words[EXCHANGE.triangleB] = witness.triangleB;
    const found = kernel.measure(this.treeA, this.treeB, pacer);
    this.unspent = kernel.unspent();
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
