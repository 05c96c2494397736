import type { TreeLayout } from "./meshBvhAdapter.ts";
import { principalAxes } from "./treeAxes.ts";

/** Larger nodes wrap around the part and gain little; measuring them all would take n·log n. */
const LARGEST_NODE = 4096;

/** Numbers of a fitted box: three unit axes, thinnest first, then lo and hi along each from the centre of the upright box. */
export const FITTED_SIZE = 15;

/**
 * A box for each node that is turned to fit what the node holds: along the principal axes of its surface, so a sloping bar or
 * plate, or a patch of a curved surface, is held closely however it lies to the car's axes.
 */
export function fitBoxes(layout: TreeLayout, triangles: Float64Array, boxes: Float64Array): Float64Array {
  const { right, first, count } = layout;
  const nodeCount = right.length;
  const fitted = new Float64Array(FITTED_SIZE * nodeCount);
  const moments = surfaceMoments(layout, triangles, boxes);
  const axes = new Float64Array(9);
  const low = new Float64Array(3);
  const high = new Float64Array(3);
  for (let node = 0; node < nodeCount; node++) {
    const box = 6 * node;
    if (count[node]! > LARGEST_NODE) {
      axes.fill(0);
      for (let k = 0; k < 3; k++) {
        axes[4 * k] = 1;
        low[k] = -boxes[box + 3 + k]!;
        high[k] = boxes[box + 3 + k]!;
      }
    } else {
      principalAxes(moments, MOMENTS * node, axes);
      measure(triangles, first[node]!, count[node]!, boxes, box, axes, low, high);
    }
    write(axes, low, high, fitted, FITTED_SIZE * node);
  }
  return fitted;
}

/** Area, first moments x, y, z, second moments xx, yy, zz, xy, xz, yz. */
const MOMENTS = 10;

/** Moments of each node's surface about the centre of the root's box. */
function surfaceMoments(layout: TreeLayout, triangles: Float64Array, boxes: Float64Array): Float64Array {
  const { right, first, count } = layout;
  const moments = new Float64Array(MOMENTS * right.length);
  // Children have higher numbers than their parents.
  for (let node = right.length - 1; node >= 0; node--) {
    const at = MOMENTS * node;
    const second = right[node]!;
    if (second === 0) {
      for (let i = first[node]!; i < first[node]! + count[node]!; i++) addMoments(triangles, 9 * i, boxes, moments, at);
    } else {
      for (let k = 0; k < MOMENTS; k++) {
        moments[at + k] = moments[at + MOMENTS + k]! + moments[MOMENTS * second + k]!;
      }
    }
  }
  return moments;
}

/**
 * Adds a triangle's moments: with corners p, q, r and centroid g, the mean of x·y over it is (9·gx·gy + px·py + qx·qy + rx·ry) / 12.
 */
function addMoments(t: Float64Array, at: number, boxes: Float64Array, moments: Float64Array, into: number): void {
  const px = t[at]! - boxes[0]!;
  const py = t[at + 1]! - boxes[1]!;
  const pz = t[at + 2]! - boxes[2]!;
  const qx = t[at + 3]! - boxes[0]!;
  const qy = t[at + 4]! - boxes[1]!;
  const qz = t[at + 5]! - boxes[2]!;
  const rx = t[at + 6]! - boxes[0]!;
  const ry = t[at + 7]! - boxes[1]!;
  const rz = t[at + 8]! - boxes[2]!;
  const nx = (qy - py) * (rz - pz) - (qz - pz) * (ry - py);
  const ny = (qz - pz) * (rx - px) - (qx - px) * (rz - pz);
  const nz = (qx - px) * (ry - py) - (qy - py) * (rx - px);
  // Needles and points still have a place: a trace of area for them.
  const area = Math.sqrt(nx * nx + ny * ny + nz * nz) + 1e-9;
  const gx = px + qx + rx;
  const gy = py + qy + ry;
  const gz = pz + qz + rz;
  moments[into] = moments[into]! + area;
  moments[into + 1] = moments[into + 1]! + (area * gx) / 3;
  moments[into + 2] = moments[into + 2]! + (area * gy) / 3;
  moments[into + 3] = moments[into + 3]! + (area * gz) / 3;
  const share = area / 12;
  moments[into + 4] = moments[into + 4]! + share * (gx * gx + px * px + qx * qx + rx * rx);
  moments[into + 5] = moments[into + 5]! + share * (gy * gy + py * py + qy * qy + ry * ry);
  moments[into + 6] = moments[into + 6]! + share * (gz * gz + pz * pz + qz * qz + rz * rz);
  moments[into + 7] = moments[into + 7]! + share * (gx * gy + px * py + qx * qy + rx * ry);
  moments[into + 8] = moments[into + 8]! + share * (gx * gz + px * pz + qx * qz + rx * rz);
  moments[into + 9] = moments[into + 9]! + share * (gy * gz + py * pz + qy * qz + ry * rz);
}

function measure(
  triangles: Float64Array,
  first: number,
  count: number,
  boxes: Float64Array,
  box: number,
  axes: Float64Array,
  low: Float64Array,
  high: Float64Array,
): void {
  const cx = boxes[box]!;
  const cy = boxes[box + 1]!;
  const cz = boxes[box + 2]!;
  for (let axis = 0; axis < 3; axis++) {
    const x = axes[3 * axis]!;
    const y = axes[3 * axis + 1]!;
    const z = axes[3 * axis + 2]!;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    const end = 9 * (first + count);
    for (let k = 9 * first; k < end; k += 3) {
      const along = x * (triangles[k]! - cx) + y * (triangles[k + 1]! - cy) + z * (triangles[k + 2]! - cz);
      if (along < least) least = along;
      if (along > most) most = along;
    }
    // a few units in the last place outwards
    const slack = (Math.abs(cx) + Math.abs(cy) + Math.abs(cz) + most - least) * 2e-15;
    low[axis] = least - slack;
    high[axis] = most + slack;
  }
}

function write(axes: Float64Array, low: Float64Array, high: Float64Array, fitted: Float64Array, at: number): void {
  const width = (axis: number): number => high[axis]! - low[axis]!;
  let thin = 0;
  let wide = 0;
  for (let axis = 1; axis < 3; axis++) {
    if (width(axis) < width(thin)) thin = axis;
    if (width(axis) >= width(wide)) wide = axis;
  }
  const middle = 3 - thin - wide;
  for (let to = 0; to < 3; to++) {
    const from = to === 0 ? thin : to === 1 ? middle : wide;
    for (let k = 0; k < 3; k++) fitted[at + 3 * to + k] = axes[3 * from + k]!;
    fitted[at + 9 + 2 * to] = low[from]!;
    fitted[at + 10 + 2 * to] = high[from]!;
  }
}
