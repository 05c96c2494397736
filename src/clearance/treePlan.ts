import type { Solid } from "../geometry/solid.ts";
import type { Pacer } from "../maths/poll.ts";
import { sortForTree } from "./kernelChoice.ts";
import type { TreeLayout } from "./meshBvhAdapter.ts";
import { refineLongEdges, verticesOf } from "./treeRefine.ts";

/**
 * All of a tree that does not depend on where its vertices are. Vertices are those of the solid and then the middles of
 * long edges (treeRefine.ts). Another solid with the same triangles in other places fits into the same plan.
 */
export interface TreePlan {
  readonly nodeCount: number;
  readonly triangleCount: number;
  /** Levels below the root; a traversal that keeps one sibling a level needs no more than this. */
  readonly depth: number;
  readonly largestLeaf: number;
  readonly right: Uint32Array;
  readonly first: Uint32Array;
  readonly count: Uint32Array;
  /** 3 vertices a tree triangle. */
  readonly corners: Uint32Array;
  /** The two vertices between which each middle lies. */
  readonly halved: Uint32Array;
  /** The solid's triangle of which a tree triangle is (part of). */
  readonly original: Uint32Array;
  /** The solid's shell to which a tree triangle belongs. */
  readonly shell: Uint32Array;
  /** The vertices of one leaf after the other, each once a leaf: node n holds those from `firstSpot[n]` to before `endSpot[n]`. */
  readonly spots: Uint32Array;
  readonly firstSpot: Uint32Array;
  readonly endSpot: Uint32Array;
}

export function planTree(solid: Solid, pacer: Pacer): TreePlan {
  const { positions } = solid;
  const { halved, corners, original } = refineLongEdges(solid, pacer);
  const triangleCount = original.length;
  const places = halved.length === 0 ? positions : Float32Array.from(verticesOf(positions, halved));
  const layout: TreeLayout =
    triangleCount === 0
      ? { order: new Uint32Array(), right: new Uint32Array(), first: new Uint32Array(), count: new Uint32Array() }
      : sortForTree(places, corners, pacer);
  const { order, right, first, count } = layout;
  const sorted = new Uint32Array(3 * triangleCount);
  const sources = new Uint32Array(triangleCount);
  const shell = new Uint32Array(triangleCount);
  const shellOf = shellOfTriangles(solid);
  for (let i = 0; i < triangleCount; i++) {
    pacer.spend(1);
    const source = original[order[i]!]!;
    sources[i] = source;
    shell[i] = shellOf[source]!;
    const from = 3 * order[i]!;
    sorted[3 * i] = corners[from]!;
    sorted[3 * i + 1] = corners[from + 1]!;
    sorted[3 * i + 2] = corners[from + 2]!;
  }
  return {
    nodeCount: right.length,
    triangleCount,
    depth: depthOf(right),
    largestLeaf: largestLeafOf(layout),
    right,
    first,
    count,
    corners: sorted,
    halved,
    original: sources,
    shell,
    ...spotsOf(layout, sorted, places.length / 3, pacer),
  };
}

/** Whether a solid has the same triangles as the one a plan was made for, be they in other places. */
export function isSameMesh(p: Solid, q: Solid): boolean {
  return (
    p.positions.length === q.positions.length &&
    p.shells.length === q.shells.length &&
    p.shells.every((shell, i) => shell.triangleCount === q.shells[i]!.triangleCount) &&
    sameNumbers(p.indices, q.indices)
  );
}

function sameNumbers(p: Uint32Array, q: Uint32Array): boolean {
  if (p.length !== q.length) return false;
  for (let i = 0; i < p.length; i++) if (p[i] !== q[i]) return false;
  return true;
}

function spotsOf(
  { right, first, count }: TreeLayout,
  corners: Uint32Array,
  vertexCount: number,
  pacer: Pacer,
): Pick<TreePlan, "spots" | "firstSpot" | "endSpot"> {
  const nodeCount = right.length;
  const spots = new Uint32Array(corners.length);
  const firstSpot = new Uint32Array(nodeCount);
  const endSpot = new Uint32Array(nodeCount);
  /** The leaf, counted from 1, that met a vertex last. */
  const metBy = new Uint32Array(vertexCount);
  let size = 0;
  for (let node = 0; node < nodeCount; node++) {
    firstSpot[node] = size;
    if (right[node] !== 0) continue;
    pacer.spend(count[node]!);
    const end = 3 * (first[node]! + count[node]!);
    for (let k = 3 * first[node]!; k < end; k++) {
      const vertex = corners[k]!;
      if (metBy[vertex] === node + 1) continue;
      metBy[vertex] = node + 1;
      spots[size++] = vertex;
    }
  }
  // Children have higher numbers than their parents.
  let end = size;
  for (let node = nodeCount - 1; node >= 0; node--) {
    endSpot[node] = right[node] === 0 ? end : endSpot[right[node]!]!;
    if (right[node] === 0) end = firstSpot[node]!;
  }
  return { spots: spots.slice(0, size), firstSpot, endSpot };
}

function shellOfTriangles(solid: Solid): Uint32Array {
  const shellOf = new Uint32Array(solid.indices.length / 3);
  solid.shells.forEach((shell, index) => {
    shellOf.fill(index, shell.firstTriangle, shell.firstTriangle + shell.triangleCount);
  });
  return shellOf;
}

function depthOf(right: Uint32Array): number {
  const level = new Uint16Array(right.length);
  let deepest = 0;
  for (let node = 0; node < right.length; node++) {
    deepest = Math.max(deepest, level[node]!);
    if (right[node] === 0) continue;
    level[node + 1] = level[node]! + 1;
    level[right[node]!] = level[node]! + 1;
  }
  return deepest;
}

function largestLeafOf({ right, count }: TreeLayout): number {
  let largest = 0;
  for (let node = 0; node < right.length; node++) {
    if (right[node] === 0) largest = Math.max(largest, count[node]!);
  }
  return largest;
}
