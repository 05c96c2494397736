import type { TreeLayout } from "./meshBvhAdapter.ts";

/** Larger nodes wrap around the part: no direction makes them thin, and measuring them all would take n·log n. */
const LARGEST_NODE = 1024;

/**
 * A slab for each node, 5 numbers: a unit direction and the lowest and highest coordinate of the node's triangles along
 * it. The direction is the mean normal, along which a patch of a smooth surface is thin however it lies to the axes.
 * Nodes that no slab would help get infinite limits, which bound nothing.
 */
export function fitSlabs(layout: TreeLayout, triangles: Float64Array): Float64Array {
  const { right, first, count } = layout;
  const nodeCount = right.length;
  const normals = new Float64Array(3 * nodeCount);
  const slabs = new Float64Array(5 * nodeCount);
  // Children have higher numbers than their parents.
  for (let node = nodeCount - 1; node >= 0; node--) {
    const second = right[node]!;
    if (second === 0) {
      for (let i = first[node]!; i < first[node]! + count[node]!; i++) addNormal(triangles, 9 * i, normals, 3 * node);
    } else {
      for (let k = 0; k < 3; k++) normals[3 * node + k] = normals[3 * node + 3 + k]! + normals[3 * second + k]!;
    }
    const [x, y, z] = [normals[3 * node]!, normals[3 * node + 1]!, normals[3 * node + 2]!];
    const size = Math.hypot(x, y, z);
    if (size > 0 && count[node]! <= LARGEST_NODE) {
      slabs[5 * node] = x / size;
      slabs[5 * node + 1] = y / size;
      slabs[5 * node + 2] = z / size;
      measureSlab(triangles, first[node]!, count[node]!, slabs, 5 * node);
    } else {
      slabs[5 * node + 3] = Number.NEGATIVE_INFINITY;
      slabs[5 * node + 4] = Number.POSITIVE_INFINITY;
    }
  }
  return slabs;
}

function addNormal(triangles: Float64Array, at: number, normals: Float64Array, into: number): void {
  const ux = triangles[at + 3]! - triangles[at]!;
  const uy = triangles[at + 4]! - triangles[at + 1]!;
  const uz = triangles[at + 5]! - triangles[at + 2]!;
  const vx = triangles[at + 6]! - triangles[at]!;
  const vy = triangles[at + 7]! - triangles[at + 1]!;
  const vz = triangles[at + 8]! - triangles[at + 2]!;
  normals[into] = normals[into]! + uy * vz - uz * vy;
  normals[into + 1] = normals[into + 1]! + uz * vx - ux * vz;
  normals[into + 2] = normals[into + 2]! + ux * vy - uy * vx;
}

function measureSlab(triangles: Float64Array, first: number, count: number, slabs: Float64Array, at: number): void {
  const x = slabs[at]!;
  const y = slabs[at + 1]!;
  const z = slabs[at + 2]!;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const end = 9 * (first + count);
  for (let k = 9 * first; k < end; k += 3) {
    const along = x * triangles[k]! + y * triangles[k + 1]! + z * triangles[k + 2]!;
    if (along < low) low = along;
    if (along > high) high = along;
  }
  const slack = (Math.abs(low) + Math.abs(high)) * 1e-15;
  slabs[at + 3] = low - slack;
  slabs[at + 4] = high + slack;
}
