import type { Pacer } from "../maths/poll.ts";
import { principalAxes } from "./treeAxes.ts";
import type { TreePlan } from "./treePlan.ts";

/** Larger nodes wrap around the part and gain little; measuring them all would take n·log n. */
const LARGEST_NODE = 4096;

/** Numbers of a fitted box: three unit axes, thinnest first, then lo and hi along each from the centre of the upright box. */
export const FITTED_SIZE = 15;

/**
 * A box for each node that is turned to fit what the node holds: along the principal axes of its surface, so a sloping bar or
 * plate, or a patch of a curved surface, is held closely however it lies to the car's axes. `spots` are the places of the
 * plan's vertices.
 */
export function fitBoxes(
  plan: TreePlan,
  triangles: Float64Array,
  spots: Float64Array,
  boxes: Float64Array,
  pacer: Pacer,
): Float64Array {
  const { nodeCount, count, firstSpot, endSpot } = plan;
  const fitted = new Float64Array(FITTED_SIZE * nodeCount);
  const moments = surfaceMoments(plan, triangles, boxes, pacer);
  const axes = new Float64Array(9);
  const limits = new Float64Array(6);
  for (let node = 0; node < nodeCount; node++) {
    const box = 6 * node;
    if (count[node]! > LARGEST_NODE) {
      axes.fill(0);
      for (let k = 0; k < 3; k++) {
        axes[4 * k] = 1;
        limits[k] = -boxes[box + 3 + k]!;
        limits[3 + k] = boxes[box + 3 + k]!;
      }
    } else {
      principalAxes(moments, MOMENTS * node, axes);
      pacer.spend(count[node]!);
      measure(spots, firstSpot[node]!, endSpot[node]!, boxes, box, axes, limits);
    }
    write(axes, limits, fitted, FITTED_SIZE * node);
  }
  return fitted;
}

/** Area, first moments x, y, z, second moments xx, yy, zz, xy, xz, yz. */
const MOMENTS = 10;

/** Moments of each node's surface about the centre of the root's box. */
function surfaceMoments(plan: TreePlan, triangles: Float64Array, boxes: Float64Array, pacer: Pacer): Float64Array {
  const { right, first, count } = plan;
  const moments = new Float64Array(MOMENTS * right.length);
  // Children have higher numbers than their parents.
  for (let node = right.length - 1; node >= 0; node--) {
    const at = MOMENTS * node;
    const second = right[node]!;
    if (second === 0) {
      pacer.spend(count[node]!);
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

/** How far the places reach along each axis from the centre of the upright box: three lowest, three highest. */
function measure(
  spots: Float64Array,
  first: number,
  end: number,
  boxes: Float64Array,
  box: number,
  axes: Float64Array,
  limits: Float64Array,
): void {
  const cx = boxes[box]!;
  const cy = boxes[box + 1]!;
  const cz = boxes[box + 2]!;
  const ux = axes[0]!;
  const uy = axes[1]!;
  const uz = axes[2]!;
  const vx = axes[3]!;
  const vy = axes[4]!;
  const vz = axes[5]!;
  const wx = axes[6]!;
  const wy = axes[7]!;
  const wz = axes[8]!;
  let lowU = Number.POSITIVE_INFINITY;
  let lowV = Number.POSITIVE_INFINITY;
  let lowW = Number.POSITIVE_INFINITY;
  let highU = Number.NEGATIVE_INFINITY;
  let highV = Number.NEGATIVE_INFINITY;
  let highW = Number.NEGATIVE_INFINITY;
  for (let k = 3 * first; k < 3 * end; k += 3) {
    const x = spots[k]! - cx;
    const y = spots[k + 1]! - cy;
    const z = spots[k + 2]! - cz;
    const u = ux * x + uy * y + uz * z;
    const v = vx * x + vy * y + vz * z;
    const w = wx * x + wy * y + wz * z;
    if (u < lowU) lowU = u;
    if (u > highU) highU = u;
    if (v < lowV) lowV = v;
    if (v > highV) highV = v;
    if (w < lowW) lowW = w;
    if (w > highW) highW = w;
  }
  limits[0] = lowU;
  limits[1] = lowV;
  limits[2] = lowW;
  limits[3] = highU;
  limits[4] = highV;
  limits[5] = highW;
  const place = Math.abs(cx) + Math.abs(cy) + Math.abs(cz);
  for (let k = 0; k < 3; k++) {
    // a few units in the last place outwards
    const slack = (place + limits[3 + k]! - limits[k]!) * 2e-15;
    limits[k] = limits[k]! - slack;
    limits[3 + k] = limits[3 + k]! + slack;
  }
}

function write(axes: Float64Array, limits: Float64Array, fitted: Float64Array, at: number): void {
  const x = limits[3]! - limits[0]!;
  const y = limits[4]! - limits[1]!;
  const z = limits[5]! - limits[2]!;
  const thin = x <= y && x <= z ? 0 : y <= z ? 1 : 2;
  const wide = z >= x && z >= y ? 2 : y >= x ? 1 : 0;
  const middle = 3 - thin - wide;
  writeAxis(axes, limits, thin, fitted, at, 0);
  writeAxis(axes, limits, middle, fitted, at, 1);
  writeAxis(axes, limits, wide, fitted, at, 2);
}

function writeAxis(
  axes: Float64Array,
  limits: Float64Array,
  from: number,
  fitted: Float64Array,
  at: number,
  to: number,
): void {
  fitted[at + 3 * to] = axes[3 * from]!;
  fitted[at + 3 * to + 1] = axes[3 * from + 1]!;
  fitted[at + 3 * to + 2] = axes[3 * from + 2]!;
  fitted[at + 9 + 2 * to] = limits[from]!;
  fitted[at + 10 + 2 * to] = limits[3 + from]!;
}
