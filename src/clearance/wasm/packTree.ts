import type { CollisionTree } from "../tree.ts";
import { FITTED_SIZE } from "../treeFit.ts";
import { isMasked, type MaskedTree } from "../treeMask.ts";

// The other side of assembly/layout.ts.
const HEADER_SIZE = 16;
const NODE_SIZE = 144;
const TRIANGLE_SIZE = 72;
const BLOCK_WORDS = 36;
/** Triangles to a block of lanes. */
const LANES = 4;

/** Bytes that a packed tree takes. */
export function packedSize(tree: CollisionTree): number {
  return isMasked(tree) ? trianglesAt(tree) : lanesAt(tree) + 4 * BLOCK_WORDS * blocksOf(tree);
}

/** Writes a masked tree, whose triangles are those of the packed tree that it was made of. */
export function packMasked(tree: MaskedTree, unmasked: number, buffer: ArrayBuffer, at: number): void {
  const header = new Uint32Array(buffer, at, HEADER_SIZE / 4);
  header.set(new Uint32Array(buffer, unmasked, HEADER_SIZE / 4));
  header[0] = at + HEADER_SIZE;
  packNodes(tree, buffer, at + HEADER_SIZE);
}

/** Writes the tree into a memory, at an address divisible by 16. */
export function packTree(tree: CollisionTree, buffer: ArrayBuffer, at: number): void {
  const header = new Uint32Array(buffer, at, HEADER_SIZE / 4);
  header[0] = at + HEADER_SIZE;
  header[1] = at + trianglesAt(tree);
  header[2] = at + lanesAt(tree);
  packNodes(tree, buffer, at + HEADER_SIZE);
  new Float64Array(buffer, at + trianglesAt(tree), tree.triangles.length).set(tree.triangles);
  const lanes = new Float32Array(buffer, at + lanesAt(tree), BLOCK_WORDS * blocksOf(tree));
  for (let node = 0, to = 0; node < tree.nodeCount; node++)
    if (tree.right[node] === 0) to = packLeaf(tree, node, lanes, to);
}

function trianglesAt({ nodeCount }: CollisionTree): number {
  return HEADER_SIZE + NODE_SIZE * nodeCount;
}

/** Triangles take 72 bytes each: an odd number of them would leave the lanes unaligned. */
function lanesAt(tree: CollisionTree): number {
  return trianglesAt(tree) + TRIANGLE_SIZE * (tree.triangleCount + (tree.triangleCount % 2));
}

function blocksOf({ right, count, nodeCount }: CollisionTree): number {
  let blocks = 0;
  for (let node = 0; node < nodeCount; node++) if (right[node] === 0) blocks += Math.ceil(count[node]! / LANES);
  return blocks;
}

function packNodes(tree: CollisionTree, buffer: ArrayBuffer, at: number): void {
  const { nodeCount, boxes, fitted, radius, right, first, count } = tree;
  const wide = new Float64Array(buffer, at, (NODE_SIZE / 8) * nodeCount);
  const narrow = new Float32Array(buffer, at, (NODE_SIZE / 4) * nodeCount);
  const words = new Uint32Array(buffer, at, (NODE_SIZE / 4) * nodeCount);
  let block = 0;
  for (let node = 0; node < nodeCount; node++) {
    const ofWide = (NODE_SIZE / 8) * node;
    const ofNarrow = (NODE_SIZE / 4) * node;
    const box = 6 * node;
    const fit = FITTED_SIZE * node;
    wide[ofWide + 3] = radius[node]!;
    for (let k = 0; k < 3; k++) {
      wide[ofWide + k] = boxes[box + k]!;
      narrow[ofNarrow + 8 + k] = boxes[box + 3 + k]!;
      // axis by axis there, coordinate by coordinate here
      narrow[ofNarrow + 12 + k] = fitted[fit + 3 * k]!;
      narrow[ofNarrow + 16 + k] = fitted[fit + 3 * k + 1]!;
      narrow[ofNarrow + 20 + k] = fitted[fit + 3 * k + 2]!;
      narrow[ofNarrow + 24 + k] = fitted[fit + 9 + 2 * k]!;
      narrow[ofNarrow + 28 + k] = fitted[fit + 10 + 2 * k]!;
    }
    for (let line = 11; line < 32; line += 4) narrow[ofNarrow + line] = 0;
    words[ofNarrow + 32] = right[node]!;
    words[ofNarrow + 33] = first[node]!;
    words[ofNarrow + 34] = count[node]!;
    words[ofNarrow + 35] = block;
    if (right[node] === 0) block += Math.ceil(count[node]! / LANES);
  }
}

/**
 * A leaf's triangles from its centre, four to a block; the last block is filled up with the last triangle. Where the next
 * leaf begins.
 */
function packLeaf(
  { boxes, first, count, triangles }: CollisionTree,
  node: number,
  lanes: Float32Array,
  start: number,
): number {
  const x = boxes[6 * node]!;
  const y = boxes[6 * node + 1]!;
  const z = boxes[6 * node + 2]!;
  const last = first[node]! + count[node]! - 1;
  const blocks = Math.ceil(count[node]! / LANES);
  for (let i = 0; i < LANES * blocks; i++) {
    const from = 9 * Math.min(first[node]! + i, last);
    const to = start + BLOCK_WORDS * (i >> 2) + (i & 3);
    lanes[to] = triangles[from]! - x;
    lanes[to + 4] = triangles[from + 1]! - y;
    lanes[to + 8] = triangles[from + 2]! - z;
    lanes[to + 12] = triangles[from + 3]! - x;
    lanes[to + 16] = triangles[from + 4]! - y;
    lanes[to + 20] = triangles[from + 5]! - z;
    lanes[to + 24] = triangles[from + 6]! - x;
    lanes[to + 28] = triangles[from + 7]! - y;
    lanes[to + 32] = triangles[from + 8]! - z;
  }
  return start + BLOCK_WORDS * blocks;
}
