import { BufferAttribute, BufferGeometry } from "three";
import { MeshBVH, SAH } from "three-mesh-bvh";
import type { Pacer } from "../maths/poll.ts";

/** What sorting has cost by the time a leaf is there, in visits to a triangle. */
const LEAF_WORK = 2000;

/** Words of 32 bits to a node in the library's packed tree: six float bounds, then two words of links. */
const NODE_WORDS = 8;
const LEAF_MARK = 0xffff;

/**
 * How triangles are sorted into a binary tree. Nodes are numbered depth first: the left child of an inner node n is n + 1,
 * the right one `right[n]`; leaves have `right[n] = 0`. Node n holds the run of `count[n]` triangles from `first[n]` in
 * the order `order`, which lists triangle numbers of the input.
 */
export interface TreeLayout {
  readonly order: Uint32Array;
  readonly right: Uint32Array;
  readonly first: Uint32Array;
  readonly count: Uint32Array;
}

/**
 * Sorts triangles (3 vertices each, of 3 float32 coordinates; at least one triangle) by the surface-area heuristic. Only
 * the sorting is the library's: bounds, distances and verdicts are our own.
 */
export function sortTriangles(
  vertices: Float32Array,
  corners: Uint32Array,
  leafSize: number,
  pacer: Pacer,
): TreeLayout {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(vertices, 3));
  geometry.setIndex(new BufferAttribute(corners, 1));
  const bvh = new MeshBVH(geometry, {
    strategy: SAH,
    targetLeafSize: leafSize,
    maxDepth: 48,
    indirect: true,
    setBoundingBox: false,
    verbose: false,
    // at every leaf
    onProgress: () => pacer.spend(LEAF_WORK),
  });
  const { roots, indirectBuffer } = MeshBVH.serialize(bvh, { cloneBuffers: false });
  const root = roots[0];
  if (!root || !indirectBuffer) throw new Error("the tree builder returned no tree");
  return readNodes(root, Uint32Array.from(indirectBuffer));
}

function readNodes(root: ArrayBuffer, order: Uint32Array): TreeLayout {
  const words = new Uint32Array(root);
  const halves = new Uint16Array(root);
  const nodeCount = words.length / NODE_WORDS;
  const right = new Uint32Array(nodeCount);
  const first = new Uint32Array(nodeCount);
  const count = new Uint32Array(nodeCount);
  // Backwards, children come before their parents. A leaf ends where the next one begins: the stored 16-bit count would
  // overflow for very many coincident triangles.
  let end = order.length;
  for (let node = nodeCount - 1; node >= 0; node--) {
    const word = node * NODE_WORDS;
    if (halves[2 * word + 15] === LEAF_MARK) {
      first[node] = words[word + 6]!;
      count[node] = end - first[node]!;
      end = first[node]!;
    } else {
      const second = node + words[word + 6]!;
      right[node] = second;
      first[node] = first[node + 1]!;
      count[node] = count[node + 1]! + count[second]!;
    }
  }
  return { order, right, first, count };
}
