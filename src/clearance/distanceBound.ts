import type { Pose } from "../maths/pose.ts";
import type { CollisionTree } from "./tree.ts";

/**
 * What a query knows about how B lies to A: 0…11 the relative pose; 12…20 its turn's absolute values; 21…23 a unit
 * direction in A's axes along which the two are apart, zero while none is known; 24…26 its absolute values; 27…29 its
 * absolute values in B's axes.
 */
export type Frame = Float64Array;

export function createFrame(): Frame {
  return new Float64Array(30);
}

/** Takes the pose and forgets the direction. */
export function placeFrame(frame: Frame, relative: Pose): void {
  for (let k = 0; k < 12; k++) frame[k] = relative[k]!;
  for (let k = 0; k < 9; k++) frame[12 + k] = Math.abs(relative[k + Math.floor(k / 3)]!);
  frame.fill(0, 21);
}

export function turnFrame(frame: Frame, x: number, y: number, z: number): void {
  frame[21] = x;
  frame[22] = y;
  frame[23] = z;
  for (let k = 0; k < 3; k++) {
    frame[24 + k] = Math.abs(frame[21 + k]!);
    frame[27 + k] = Math.abs(frame[k]! * x + frame[4 + k]! * y + frame[8 + k]! * z);
  }
}

/**
 * Lower bound on the squared distance between what two nodes hold, mm², into `bound[slot]`; Infinity once it reaches
 * `limit[0]`. The largest of four: between B's turned box and A's box (in an upright box of A's axes), and the gaps along
 * the frame's direction and along the slab directions of either node. `spread[slot]` is the squared distance of the box
 * centres, which tells nodes with equal bounds apart.
 */
export function boundNodes(
  a: CollisionTree,
  nodeA: number,
  b: CollisionTree,
  nodeB: number,
  frame: Frame,
  limit: Float64Array,
  bound: Float64Array,
  spread: Float64Array,
  slot: number,
): void {
  bound[slot] = Number.POSITIVE_INFINITY;
  const best = limit[0]!;
  const boxesA = a.boxes;
  const boxesB = b.boxes;
  const slabsA = a.slabs;
  const slabsB = b.slabs;
  const boxA = 6 * nodeA;
  const boxB = 6 * nodeB;
  const bx = boxesB[boxB]!;
  const by = boxesB[boxB + 1]!;
  const bz = boxesB[boxB + 2]!;
  const hx = boxesB[boxB + 3]!;
  const hy = boxesB[boxB + 4]!;
  const hz = boxesB[boxB + 5]!;
  const ax = boxesA[boxA]!;
  const ay = boxesA[boxA + 1]!;
  const az = boxesA[boxA + 2]!;
  const gx = boxesA[boxA + 3]!;
  const gy = boxesA[boxA + 4]!;
  const gz = boxesA[boxA + 5]!;
  // From A's centre to B's, in A's axes.
  const cx = frame[0]! * bx + frame[1]! * by + frame[2]! * bz + frame[3]! - ax;
  const cy = frame[4]! * bx + frame[5]! * by + frame[6]! * bz + frame[7]! - ay;
  const cz = frame[8]! * bx + frame[9]! * by + frame[10]! * bz + frame[11]! - az;
  const dx = Math.abs(cx) - gx - (frame[12]! * hx + frame[13]! * hy + frame[14]! * hz);
  const dy = Math.abs(cy) - gy - (frame[15]! * hx + frame[16]! * hy + frame[17]! * hz);
  const dz = Math.abs(cz) - gz - (frame[18]! * hx + frame[19]! * hy + frame[20]! * hz);
  let squared = (dx > 0 ? dx * dx : 0) + (dy > 0 ? dy * dy : 0) + (dz > 0 ? dz * dz : 0);
  if (squared >= best) return;
  let gap =
    cx * frame[21]! +
    cy * frame[22]! +
    cz * frame[23]! -
    (gx * frame[24]! + gy * frame[25]! + gz * frame[26]!) -
    (hx * frame[27]! + hy * frame[28]! + hz * frame[29]!);
  if (gap > 0 && gap * gap > squared) {
    squared = gap * gap;
    if (squared >= best) return;
  }
  // A's slab against B's box.
  const slabA = 5 * nodeA;
  let nx = slabsA[slabA]!;
  let ny = slabsA[slabA + 1]!;
  let nz = slabsA[slabA + 2]!;
  let reach =
    hx * Math.abs(nx * frame[0]! + ny * frame[4]! + nz * frame[8]!) +
    hy * Math.abs(nx * frame[1]! + ny * frame[5]! + nz * frame[9]!) +
    hz * Math.abs(nx * frame[2]! + ny * frame[6]! + nz * frame[10]!);
  let along = nx * (cx + ax) + ny * (cy + ay) + nz * (cz + az);
  gap = Math.max(along - slabsA[slabA + 4]!, slabsA[slabA + 3]! - along) - reach;
  if (gap > 0 && gap * gap > squared) {
    squared = gap * gap;
    if (squared >= best) return;
  }
  // B's slab, turned into A's axes, against A's box.
  const slabB = 5 * nodeB;
  const mx = slabsB[slabB]!;
  const my = slabsB[slabB + 1]!;
  const mz = slabsB[slabB + 2]!;
  nx = frame[0]! * mx + frame[1]! * my + frame[2]! * mz;
  ny = frame[4]! * mx + frame[5]! * my + frame[6]! * mz;
  nz = frame[8]! * mx + frame[9]! * my + frame[10]! * mz;
  reach = gx * Math.abs(nx) + gy * Math.abs(ny) + gz * Math.abs(nz);
  along = mx * bx + my * by + mz * bz - (nx * cx + ny * cy + nz * cz);
  gap = Math.max(along - slabsB[slabB + 4]!, slabsB[slabB + 3]! - along) - reach;
  if (gap > 0 && gap * gap > squared) {
    squared = gap * gap;
    if (squared >= best) return;
  }
  bound[slot] = squared;
  spread[slot] = cx * cx + cy * cy + cz * cz;
}
