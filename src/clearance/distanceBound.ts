import type { Pose } from "../maths/pose.ts";
import type { CollisionTree } from "./tree.ts";
import { FITTED_SIZE } from "./treeFit.ts";

/**
 * What a query knows about how B lies to A: 0…11 the relative pose; 12…20 its turn's absolute values; 21…23 a unit
 * direction in A's axes along which the two are apart, zero while none is known; 24…26 the same in B's axes.
 */
export type Frame = Float64Array;

export function createFrame(): Frame {
  return new Float64Array(27);
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
    frame[24 + k] = frame[k]! * x + frame[4 + k]! * y + frame[8 + k]! * z;
  }
}

/**
 * Lower bound on the squared distance between what two nodes hold, mm², into `bound[slot]`; Infinity once it reaches
 * `limit[0]`. `spread[slot]` is the squared distance of the box centres, which tells nodes with equal bounds apart.
 *
 * The largest of three: the distance between A's upright box and B's (turned, in an upright one of A's axes), and the gaps
 * between the fitted boxes along two directions: the frame's, and that from the larger fitted box to the other's centre.
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
  const fittedA = a.fitted;
  const fittedB = b.fitted;
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
  const fitA = FITTED_SIZE * nodeA;
  const fitB = FITTED_SIZE * nodeB;
  for (let test = 0; test < 2; test++) {
    // A direction u in A's axes, the same as w in B's.
    let ux = frame[21]!;
    let uy = frame[22]!;
    let uz = frame[23]!;
    let wx = frame[24]!;
    let wy = frame[25]!;
    let wz = frame[26]!;
    if (test === 1) {
      const fromA = a.radius[nodeA]! >= b.radius[nodeB]!;
      const fitted = fromA ? fittedA : fittedB;
      const fit = fromA ? fitA : fitB;
      // The other's centre, and what is left of it when the part within the fitted box is taken off.
      const qx = fromA ? cx : -(cx * frame[0]! + cy * frame[4]! + cz * frame[8]!);
      const qy = fromA ? cy : -(cx * frame[1]! + cy * frame[5]! + cz * frame[9]!);
      const qz = fromA ? cz : -(cx * frame[2]! + cy * frame[6]! + cz * frame[10]!);
      let vx = qx;
      let vy = qy;
      let vz = qz;
      for (let axis = 0; axis < 3; axis++) {
        const x = fitted[fit + 3 * axis]!;
        const y = fitted[fit + 3 * axis + 1]!;
        const z = fitted[fit + 3 * axis + 2]!;
        const along = qx * x + qy * y + qz * z;
        const low = fitted[fit + 9 + 2 * axis]!;
        const high = fitted[fit + 10 + 2 * axis]!;
        const within = Math.max(low, Math.min(along, high));
        vx -= within * x;
        vy -= within * y;
        vz -= within * z;
      }
      const size = Math.sqrt(vx * vx + vy * vy + vz * vz);
      if (!(size > 0)) break;
      if (fromA) {
        ux = vx / size;
        uy = vy / size;
        uz = vz / size;
        wx = ux * frame[0]! + uy * frame[4]! + uz * frame[8]!;
        wy = ux * frame[1]! + uy * frame[5]! + uz * frame[9]!;
        wz = ux * frame[2]! + uy * frame[6]! + uz * frame[10]!;
      } else {
        wx = -vx / size;
        wy = -vy / size;
        wz = -vz / size;
        ux = frame[0]! * wx + frame[1]! * wy + frame[2]! * wz;
        uy = frame[4]! * wx + frame[5]! * wy + frame[6]! * wz;
        uz = frame[8]! * wx + frame[9]! * wy + frame[10]! * wz;
      }
    }
    // From centre to centre, less how far each box reaches towards the other.
    let gap = ux * cx + uy * cy + uz * cz;
    for (let axis = 0; axis < 3; axis++) {
      const ofA =
        ux * fittedA[fitA + 3 * axis]! + uy * fittedA[fitA + 3 * axis + 1]! + uz * fittedA[fitA + 3 * axis + 2]!;
      gap -= ofA * fittedA[fitA + 2 * axis + (ofA > 0 ? 10 : 9)]!;
      const ofB =
        wx * fittedB[fitB + 3 * axis]! + wy * fittedB[fitB + 3 * axis + 1]! + wz * fittedB[fitB + 3 * axis + 2]!;
      gap += ofB * fittedB[fitB + 2 * axis + (ofB > 0 ? 9 : 10)]!;
    }
    if (gap > 0 && gap * gap > squared) {
      squared = gap * gap;
      if (squared >= best) return;
    }
  }
  bound[slot] = squared;
  spread[slot] = cx * cx + cy * cy + cz * cz;
}
