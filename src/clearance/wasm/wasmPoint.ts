import { createPointQuery, type PointQuery, type SurfacePoint } from "../distancePoint.ts";
import type { CollisionTree } from "../tree.ts";
import { EXCHANGE, type WasmKernel } from "./wasmKernel.ts";

/** A query that runs in the compiled kernel; null if the tree is empty or does not fit there. */
export function createWasmPoint(kernel: WasmKernel, tree: CollisionTree, neighbours: boolean): PointQuery | null {
  if (!kernel.canDescend(tree)) return null;
  const query = new WasmPoint(kernel, tree, neighbours);
  return query.findTree() ? query : null;
}

class WasmPoint implements PointQuery {
  private readonly kernel: WasmKernel;
  private readonly tree: CollisionTree;
  private readonly neighbours: boolean;
  private last = -1;
  private at = 0;
  /** The kernel's count of releases when the address was right; −1: it is not. */
  private releases = -1;
  /** Measures once the tree does not fit the kernel any more. */
  private substitute: PointQuery | null = null;

  constructor(kernel: WasmKernel, tree: CollisionTree, neighbours: boolean) {
    this.kernel = kernel;
    this.tree = tree;
    this.neighbours = neighbours;
  }

  /** Where the tree is in the kernel, brought there if need be; false if it does not fit. */
  findTree(): boolean {
    const at = this.kernel.addressOf(this.tree);
    if (at === null) return false;
    this.at = at;
    this.releases = this.kernel.releases;
    return true;
  }

  nearest(x: number, y: number, z: number, below_mm: number, out: SurfacePoint, enough_mm = 0): boolean {
    const { kernel } = this;
    if (this.releases !== kernel.releases && !this.findTree()) {
      this.substitute ??= createPointQuery(this.tree, this.neighbours);
      return this.substitute.nearest(x, y, z, below_mm, out, enough_mm);
    }
    const { values, words } = kernel;
    values[EXCHANGE.pose] = x;
    values[EXCHANGE.pose + 1] = y;
    values[EXCHANGE.pose + 2] = z;
    values[EXCHANGE.limit] = below_mm;
    values[EXCHANGE.leewayFloor] = Math.max(0, enough_mm);
    words[EXCHANGE.triangleA] = this.last;
    kernel.measurePoint(this.at);
    const triangle = words[EXCHANGE.triangleA]!;
    out.triangle = triangle;
    if (triangle < 0) {
      out.distance_mm = below_mm;
      return false;
    }
    if (this.neighbours) this.last = triangle;
    out.distance_mm = Math.sqrt(values[EXCHANGE.squared]!);
    for (let k = 0; k < 3; k++) out.point[k] = values[EXCHANGE.points + k]!;
    return true;
  }
}
