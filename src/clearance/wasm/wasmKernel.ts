import type { CollisionTree } from "../tree.ts";
import { isMasked } from "../treeMask.ts";
import { KERNEL_BASE64 } from "./kernel.generated.ts";
import { LinearMemory } from "./memory.ts";
import { packedSize, packMasked, packTree } from "./packTree.ts";

/** What trees may take in all; beyond that, queries go without. */
const MOST_BYTES = 1_000_000_000;

interface KernelExports {
  readonly memory: WebAssembly.Memory;
  /** Address of the block through which a query talks. */
  exchange(): number;
  heapStart(): number;
  /** Levels that two trees may have together, and triangles to a leaf. */
  stackEntries(): number;
  leafTriangles(): number;
  distance(treeA: number, treeB: number): number;
}

/** Numbers in the exchange block (assembly/layout.ts): float64, but for triangles and counts, which are words. */
export const EXCHANGE = {
  pose: 0,
  limit: 12,
  direction: 13,
  squared: 16,
  points: 17,
  leewayFloor: 25,
  leewayShare: 26,
  size: 27,
  triangleA: 46,
  triangleB: 47,
  nodePairs: 48,
  trianglePairs: 49,
};

/** The compiled kernel and the trees it holds. */
export class WasmKernel {
  /** Views on the exchange block; a new pair whenever the memory has grown. */
  values: Float64Array;
  words: Int32Array;
  readonly distance: KernelExports["distance"];
  private readonly kernel: KernelExports;
  private readonly memory: LinearMemory;
  private readonly addresses = new WeakMap<CollisionTree, number>();
  private readonly dropped: FinalizationRegistry<{ at: number; size: number }>;

  /** Throws a WebAssembly.CompileError where SIMD or WebAssembly itself is missing or forbidden. */
  constructor() {
    const bytes = Uint8Array.from(atob(KERNEL_BASE64), (character) => character.charCodeAt(0));
    const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes));
    this.kernel = exports as unknown as KernelExports;
    this.distance = this.kernel.distance;
    this.memory = new LinearMemory(this.kernel.memory, this.kernel.heapStart(), MOST_BYTES);
    this.dropped = new FinalizationRegistry(({ at, size }) => this.memory.free(at, size));
    this.values = new Float64Array();
    this.words = new Int32Array();
    this.view();
  }

  /**
   * The address of a tree, copied into the memory when first asked for and kept as long as the tree itself; null if it has
   * no triangles or does not fit.
   */
  addressOf(tree: CollisionTree): number | null {
    const known = this.addresses.get(tree);
    if (known !== undefined) return known;
    if (tree.nodeCount === 0 || tree.largestLeaf > this.kernel.leafTriangles()) return null;
    const unmasked = isMasked(tree) ? this.addressOf(tree.unmasked) : null;
    if (isMasked(tree) && unmasked === null) return null;
    const size = packedSize(tree);
    const at = this.memory.take(size);
    if (this.values.buffer !== this.kernel.memory.buffer) this.view();
    if (at === null) return null;
    const buffer = this.kernel.memory.buffer as ArrayBuffer;
    if (isMasked(tree) && unmasked !== null) packMasked(tree, unmasked, buffer, at);
    else packTree(tree, buffer, at);
    this.addresses.set(tree, at);
    this.dropped.register(tree, { at, size });
    return at;
  }

  /** Whether a descent through both trees fits the stack. */
  canDescend(a: CollisionTree, b: CollisionTree): boolean {
    return a.depth + b.depth + 2 <= this.kernel.stackEntries();
  }

  private view(): void {
    const { buffer } = this.kernel.memory;
    const at = this.kernel.exchange();
    this.values = new Float64Array(buffer, at, EXCHANGE.size);
    this.words = new Int32Array(buffer, at, 2 * EXCHANGE.size);
  }
}
