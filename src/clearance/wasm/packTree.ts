import type { CollisionTree } from "../tree.ts";
import { FITTED_SIZE } from "../treeFit.ts";

// The other side of assembly/layout.ts.
const HEADER_SIZE = 16;
const NODE_SIZE = 144;
const TRIANGLE_SIZE = 72;
const BLOCK_SIZE = 144;
/** Triangles to a block of lanes. */
const LANES = 4;

/** Bytes that a packed tree takes. */
export function packedSize(tree: CollisionTree): number {
  return lanesAt(tree) + BLOCK_SIZE * blocksOf(tree);
}

/** Writes the tree into a memory, at an address divisible by 16. */
export function packTree(tree: CollisionTree, buffer: ArrayBuffer, at: number): void {
  const header = new Uint32Array(buffer, at, HEADER_SIZE / 4);
  header[0] = at + HEADER_SIZE;
  header[1] = at + trianglesAt(tree);
  header[2] = at + lanesAt(tree);
  packNodes(tree, buffer, at + HEADER_SIZE);
  new Float64Array(buffer, at + trianglesAt(tree), tree.triangles.length).set(tree.triangles);
  packLanes(tree, new Float32Array(buffer, at + lanesAt(tree), (BLOCK_SIZE / 4) * blocksOf(tree)));
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

/** A leaf's triangles from its centre, four to a block; the last block is filled up with the last triangle. */
function packLanes(tree: CollisionTree, lanes: Float32Array): void {
  const { nodeCount, boxes, right, first, count, triangles } = tree;
  let at = 0;
  for (let node = 0; node < nodeCount; node++) {
    if (right[node] !== 0) continue;
    const last = first[node]! + count[node]! - 1;
    for (let i = first[node]!; i <= last; i += LANES, at += BLOCK_SIZE / 4) {
      for (let lane = 0; lane < LANES; lane++) {
        const from = 9 * Math.min(i + lane, last);
        for (let k = 0; k < 9; k++) lanes[at + LANES * k + lane] = triangles[from + k]! - boxes[6 * node + (k % 3)]!;
      }
    }
  }
}
