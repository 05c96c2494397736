import { Pacer, type Poll } from "../../maths/poll.ts";
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
  distance(treeA: number, treeB: number, most: number): number;
  resume(most: number): number;
  nearestPoint(tree: number): void;
  sortStart(records: number, count: number, nodes: number, mostNodes: number, leafSize: number): void;
  sortOn(most: number): number;
}

/** Pairs of nodes and triangles between two polls: some 2 ms. */
const STRETCH = 16_000;

/** Records between two polls: some 2 ms. */
const SORT_STRETCH = 100_000;

/** What the kernel answers (assembly/index.ts). */
const FOUND = 1;
const UNFINISHED = 2;

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
  /** Grows when trees are released: addresses got before may be others' now. */
  releases = 0;
  /** Grows with all that disturbs a query that is not done. */
  private disturbances = 0;
  private readonly kernel: KernelExports;
  private readonly memory: LinearMemory;
  private readonly addresses = new WeakMap<CollisionTree, number>();
  /** Of a masked tree, where the tree that it was made of lay when it was copied. */
  private readonly maskedOn = new WeakMap<CollisionTree, number>();
  private readonly dropped: FinalizationRegistry<{ at: number; size: number }>;

  /** Throws a WebAssembly.CompileError where SIMD or WebAssembly itself is missing or forbidden. */
  constructor() {
    const bytes = Uint8Array.from(atob(KERNEL_BASE64), (character) => character.charCodeAt(0));
    const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes));
    this.kernel = exports as unknown as KernelExports;
    this.memory = new LinearMemory(this.kernel.memory, this.kernel.heapStart(), MOST_BYTES);
    this.dropped = new FinalizationRegistry(({ at, size }) => this.memory.free(at, size));
    this.values = new Float64Array();
    this.words = new Int32Array();
    this.view();
  }

  /**
   * The address of a tree, copied into the memory when first asked for and kept until it is released or nobody holds the
   * tree any more; null if it has no triangles or does not fit.
   */
  addressOf(tree: CollisionTree): number | null {
    const known = this.addresses.get(tree);
    if (known !== undefined && this.isWhole(tree)) return known;
    this.release(tree);
    if (tree.nodeCount === 0 || tree.largestLeaf > this.kernel.leafTriangles()) return null;
    const unmasked = isMasked(tree) ? this.addressOf(tree.unmasked) : null;
    if (isMasked(tree) && unmasked === null) return null;
    const size = packedSize(tree);
    const at = this.take(size);
    if (at === null) return null;
    const buffer = this.kernel.memory.buffer as ArrayBuffer;
    if (isMasked(tree) && unmasked !== null) packMasked(tree, unmasked, buffer, at);
    else packTree(tree, buffer, at);
    this.addresses.set(tree, at);
    if (unmasked !== null) this.maskedOn.set(tree, unmasked);
    this.dropped.register(tree, { at, size }, tree);
    return at;
  }

  /** Gives a tree's memory to others at once. Who needs it after all gets a new copy from `addressOf`. */
  release(tree: CollisionTree): void {
    const at = this.addresses.get(tree);
    if (at === undefined) return;
    this.addresses.delete(tree);
    this.dropped.unregister(tree);
    this.memory.free(at, packedSize(tree));
    this.releases++;
    this.disturbances++;
  }

  /** A pacer for queries of this kernel, which spend a unit a pair. */
  pacerOf(poll: Poll | undefined): Pacer {
    return new Pacer(poll, STRETCH);
  }

  /** Runs the query that lies in the exchange block: whether there is something nearer than its limit. Polls by the pacer. */
  measure(treeA: number, treeB: number, pacer: Pacer): boolean {
    const { kernel } = this;
    const mine = ++this.disturbances;
    let answer = kernel.distance(treeA, treeB, STRETCH);
    while (answer === UNFINISHED) {
      pacer.spend(STRETCH);
      if (this.disturbances !== mine) throw new Error("a poll asked the kernel for something else");
      answer = kernel.resume(STRETCH);
    }
    return answer === FOUND;
  }

  /** Runs the query for the nearest point that lies in the exchange block. */
  measurePoint(tree: number): void {
    this.disturbances++;
    this.kernel.nearestPoint(tree);
  }

  /** What the last query has spent since it polled last. */
  unspent(): number {
    return (this.words[EXCHANGE.nodePairs]! + this.words[EXCHANGE.trianglePairs]!) % STRETCH;
  }

  /** Whether a descent through the trees at once fits the stack. */
  canDescend(...trees: CollisionTree[]): boolean {
    return trees.reduce((levels, { depth }) => levels + depth, 2) <= this.kernel.stackEntries();
  }

  /** What `use` makes with a block of memory, which it gets lent; null if there is none. */
  lend<T>(size: number, use: (memory: ArrayBuffer, at: number) => T): T | null {
    const at = this.take(size);
    if (at === null) return null;
    try {
      return use(this.kernel.memory.buffer as ArrayBuffer, at);
    } finally {
      this.memory.free(at, size);
    }
  }

  /** Sorts records into nodes (assembly/sort.ts); how many nodes there are. The pacer spends a unit a record looked at. */
  sort(records: number, count: number, nodes: number, mostNodes: number, leafSize: number, pacer: Pacer): number {
    const { kernel } = this;
    kernel.sortStart(records, count, nodes, mostNodes, leafSize);
    while (true) {
      const nodeCount = kernel.sortOn(SORT_STRETCH);
      if (nodeCount > 0) return nodeCount;
      pacer.spend(SORT_STRETCH);
    }
  }

  /** A masked tree lies here without its triangles, which it looks up where the tree that it was made of lay then. */
  private isWhole(tree: CollisionTree): boolean {
    return !isMasked(tree) || this.addresses.get(tree.unmasked) === this.maskedOn.get(tree);
  }

  private take(size: number): number | null {
    const at = this.memory.take(size);
    this.disturbances++;
    if (this.values.buffer !== this.kernel.memory.buffer) this.view();
    return at;
  }

  private view(): void {
    const { buffer } = this.kernel.memory;
    const at = this.kernel.exchange();
    this.values = new Float64Array(buffer, at, EXCHANGE.size);
    this.words = new Int32Array(buffer, at, 2 * EXCHANGE.size);
  }
}
