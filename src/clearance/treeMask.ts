import type { CollisionTree } from "./tree.ts";

/** Half a box so small that it is far from everything, mm. */
const HIDDEN_HALF_mm = -1e8;

/** A tree less some of its leaves, sharing all but the boxes with the tree that it was made of. */
export interface MaskedTree extends CollisionTree {
  readonly unmasked: CollisionTree;
}

/**
 * The tree without the given leaves: what is left in it is found as ever, at the cost of a copy of its boxes. Boxes of hidden
 * nodes have sizes below nothing, so that they bound to far from everything and no query gets to them: of two children
 * at least one is not hidden, or their parent were too. Null if nothing is left.
 */
export function maskTree(tree: CollisionTree, leaves: Uint32Array): MaskedTree | null {
  const { nodeCount, right } = tree;
  const isHidden = new Uint8Array(nodeCount);
  for (const leaf of leaves) isHidden[leaf] = 1;
  const boxes = tree.boxes.slice();
  const radius = tree.radius.slice();
  // children have higher numbers than their parents
  for (let node = nodeCount - 1; node >= 0; node--) {
    if (right[node] !== 0) isHidden[node] = isHidden[node + 1]! & isHidden[right[node]!]!;
    if (isHidden[node] === 0) continue;
    boxes.fill(HIDDEN_HALF_mm, 6 * node + 3, 6 * node + 6);
    radius[node] = HIDDEN_HALF_mm;
  }
  return isHidden[0] === 1 ? null : { ...tree, boxes, radius, unmasked: tree };
}

export function isMasked(tree: CollisionTree): tree is MaskedTree {
  return "unmasked" in tree;
}

const sizes = new WeakMap<CollisionTree, number>();

/** Bytes of a tree's arrays, beside the solid's own; of a masked tree those that it does not share. */
export function bytesOf(tree: CollisionTree): number {
  const known = sizes.get(tree);
  if (known !== undefined) return known;
  const own: unknown[] = isMasked(tree) ? [tree.boxes, tree.radius] : Object.values(tree);
  const bytes = own.reduce<number>((sum, part) => sum + (ArrayBuffer.isView(part) ? part.byteLength : 0), 0);
  sizes.set(tree, bytes);
  return bytes;
}
