/** Disjoint sets over 0 … n − 1 that are joined step by step. */
export class JoinedSets {
  readonly #parent: Int32Array;
  /** How many sets there are now. */
  count: number;

  constructor(size: number) {
    this.#parent = Int32Array.from({ length: size }, (_, i) => i);
    this.count = size;
  }

  /** The set's representative. */
  find(member: number): number {
    const parent = this.#parent;
    let root = member;
    while (parent[root]! !== root) {
      parent[root] = parent[parent[root]!]!;
      root = parent[root]!;
    }
    return root;
  }

  join(a: number, b: number): void {
    const [rootA, rootB] = [this.find(a), this.find(b)];
    if (rootA === rootB) return;
    this.#parent[Math.max(rootA, rootB)] = Math.min(rootA, rootB);
    this.count--;
  }
}
