/**
 * Numbers in a result of `triangleDistance`: squared distance, nearest point of the first triangle (x, y, z), nearest
 * point of the second.
 */
export const TRIANGLE_RESULT_SIZE = 7;

/** Anything nearer counts as touching: far below the spacing of float32 coordinates, above what rounding leaves of 0. */
const TOUCHING_SQUARED_mm2 = 1e-20;

/**
 * Smallest distance between two triangles (corners at `a[ia]…`, `b[ib]…`, 9 numbers each, same axes), squared, into
 * `out[0]`, and points of both between which it runs into `out[1…6]`; 0 where they cross, touch or overlap in one plane.
 * Triangles may be slivers, needles or points.
 *
 * The distance of two triangles is taken on between two edges, or a corner and a face, or is 0 because an edge pierces a
 * face (Ericson, Real-Time Collision Detection, 2005, §5.1.10). Every candidate is measured between points that do lie on
 * the triangles, so an ill-conditioned case can never read nearer than it is; it ends early only when a slab between
 * the two triangles proves the distance.
 */
export function triangleDistance(a: Float64Array, ia: number, b: Float64Array, ib: number, out: Float64Array): void {
  out[0] = Number.POSITIVE_INFINITY;
  if (nearestEdges(a, ia, b, ib, out)) return;
  if (nearestOnFace(a, ia, b, ib, out, 1)) return;
  nearestOnFace(b, ib, a, ia, out, 4);
}

/** All nine pairs of edges. True when the result is proven final. */
function nearestEdges(a: Float64Array, ia: number, b: Float64Array, ib: number, out: Float64Array): boolean {
  let best = out[0]!;
  for (let i = 0; i < 9; i += 3) {
    const p = ia + i;
    const q = i === 6 ? ia : p + 3;
    const px = a[p]!;
    const py = a[p + 1]!;
    const pz = a[p + 2]!;
    const ux = a[q]! - px;
    const uy = a[q + 1]! - py;
    const uz = a[q + 2]! - pz;
    const uu = ux * ux + uy * uy + uz * uz;
    for (let j = 0; j < 9; j += 3) {
      const r = ib + j;
      const s = j === 6 ? ib : r + 3;
      const rx = b[r]!;
      const ry = b[r + 1]!;
      const rz = b[r + 2]!;
      const vx = b[s]! - rx;
      const vy = b[s + 1]! - ry;
      const vz = b[s + 2]! - rz;
      const wx = px - rx;
      const wy = py - ry;
      const wz = pz - rz;
      const vv = vx * vx + vy * vy + vz * vz;
      const uv = ux * vx + uy * vy + uz * vz;
      const uw = ux * wx + uy * wy + uz * wz;
      const vw = vx * wx + vy * wy + vz * wz;
      // Parameters of the nearest points, each kept to its edge (Ericson, §5.1.9).
      let onA = 0;
      if (uu > 0) {
        if (vv > 0) {
          const squares = uu * vv;
          let denominator = squares - uv * uv;
          let numerator = uv * vw - uw * vv;
          if (denominator < 1e-6 * squares) {
            // Nearly parallel: the difference above has lost its digits, the cross product has not.
            const nx = uy * vz - uz * vy;
            const ny = uz * vx - ux * vz;
            const nz = ux * vy - uy * vx;
            denominator = nx * nx + ny * ny + nz * nz;
            numerator = nx * (vy * wz - vz * wy) + ny * (vz * wx - vx * wz) + nz * (vx * wy - vy * wx);
          }
          if (denominator > 0) onA = numerator <= 0 ? 0 : numerator >= denominator ? 1 : numerator / denominator;
        } else {
          onA = -uw <= 0 ? 0 : -uw >= uu ? 1 : -uw / uu;
        }
      }
      let onB = 0;
      if (vv > 0) {
        const along = uv * onA + vw;
        if (along <= 0) {
          if (uu > 0) onA = -uw <= 0 ? 0 : -uw >= uu ? 1 : -uw / uu;
        } else if (along >= vv) {
          onB = 1;
          if (uu > 0) onA = uv - uw <= 0 ? 0 : uv - uw >= uu ? 1 : (uv - uw) / uu;
        } else {
          onB = along / vv;
        }
      }
      const dx = wx + ux * onA - vx * onB;
      const dy = wy + uy * onA - vy * onB;
      const dz = wz + uz * onA - vz * onB;
      const squared = dx * dx + dy * dy + dz * dz;
      if (squared >= best) continue;
      best = squared;
      out[0] = squared;
      out[1] = px + ux * onA;
      out[2] = py + uy * onA;
      out[3] = pz + uz * onA;
      out[4] = rx + vx * onB;
      out[5] = ry + vy * onB;
      out[6] = rz + vz * onB;
      if (isFinal(a, ia, b, ib, out)) return true;
    }
  }
  return false;
}

/**
 * The corners of triangle b over the face of triangle a, and the edges of b that pierce it. `pointA` is where in `out` the
 * point on a goes (1 or 4), so that the two triangles may change places. True when the result is proven final.
 */
function nearestOnFace(
  a: Float64Array,
  ia: number,
  b: Float64Array,
  ib: number,
  out: Float64Array,
  pointA: number,
): boolean {
  const ax = a[ia]!;
  const ay = a[ia + 1]!;
  const az = a[ia + 2]!;
  const ux = a[ia + 3]! - ax;
  const uy = a[ia + 4]! - ay;
  const uz = a[ia + 5]! - az;
  const vx = a[ia + 6]! - ax;
  const vy = a[ia + 7]! - ay;
  const vz = a[ia + 8]! - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  // A triangle without area is all edge.
  if (!(nn > 0)) return false;
  const pointB = 5 - pointA;
  for (let j = 0; j < 3; j++) {
    const r = ib + 3 * j;
    const s = j === 2 ? ib : r + 3;
    const heightR = nx * (b[r]! - ax) + ny * (b[r + 1]! - ay) + nz * (b[r + 2]! - az);
    const heightS = nx * (b[s]! - ax) + ny * (b[s + 1]! - ay) + nz * (b[s + 2]! - az);
    const pierces = (heightR < 0 && heightS > 0) || (heightR > 0 && heightS < 0);
    // An end nearer than the best so far, then the point where the edge passes through the plane.
    for (let test = 0; test < 2; test++) {
      if (test === 0 ? heightR * heightR >= out[0]! * nn : !pierces) continue;
      const along = test === 0 ? 0 : heightR / (heightR - heightS);
      const qx = b[r]! + (b[s]! - b[r]!) * along;
      const qy = b[r + 1]! + (b[s + 1]! - b[r + 1]!) * along;
      const qz = b[r + 2]! + (b[s + 2]! - b[r + 2]!) * along;
      const wx = qx - ax;
      const wy = qy - ay;
      const wz = qz - az;
      const onU = nx * (wy * vz - wz * vy) + ny * (wz * vx - wx * vz) + nz * (wx * vy - wy * vx);
      const onV = nx * (uy * wz - uz * wy) + ny * (uz * wx - ux * wz) + nz * (ux * wy - uy * wx);
      if (!(onU >= 0 && onV >= 0 && onU + onV <= nn)) continue;
      const px = ax + (ux * onU + vx * onV) / nn;
      const py = ay + (uy * onU + vy * onV) / nn;
      const pz = az + (uz * onU + vz * onV) / nn;
      const dx = px - qx;
      const dy = py - qy;
      const dz = pz - qz;
      const squared = dx * dx + dy * dy + dz * dz;
      if (squared >= out[0]!) continue;
      out[0] = squared;
      out[pointA] = px;
      out[pointA + 1] = py;
      out[pointA + 2] = pz;
      out[pointB] = qx;
      out[pointB + 1] = qy;
      out[pointB + 2] = qz;
      if (isFinal(pointA === 1 ? a : b, pointA === 1 ? ia : ib, pointA === 1 ? b : a, pointA === 1 ? ib : ia, out)) {
        return true;
      }
    }
  }
  return false;
}

/** Whether the two triangles lie on either side of the slab that the found points span: then nothing is nearer. */
function isFinal(a: Float64Array, ia: number, b: Float64Array, ib: number, out: Float64Array): boolean {
  const squared = out[0]!;
  if (squared < TOUCHING_SQUARED_mm2) {
    out[0] = 0;
    return true;
  }
  const px = out[1]!;
  const py = out[2]!;
  const pz = out[3]!;
  const dx = out[4]! - px;
  const dy = out[5]! - py;
  const dz = out[6]! - pz;
  const slack = 1e-13 * squared;
  for (let k = 0; k < 9; k += 3) {
    if ((a[ia + k]! - px) * dx + (a[ia + k + 1]! - py) * dy + (a[ia + k + 2]! - pz) * dz > slack) return false;
    const beyond = (b[ib + k]! - px) * dx + (b[ib + k + 1]! - py) * dy + (b[ib + k + 2]! - pz) * dz;
    if (beyond < squared - slack) return false;
  }
  return true;
}
