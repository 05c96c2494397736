/** Squared distance, nearest point of the first triangle, nearest point of the second. */
export const RESULT: usize = memory.data(56, 16);

/** Anything nearer counts as touching, as in triangleDistance.ts. */
const TOUCHING_SQUARED: f64 = 1e-20;

/** Distance of two triangles (9 float64 each, same axes) into RESULT. The method is that of triangleDistance.ts, step by step. */
export function triangleDistance(a: usize, b: usize): void {
  store<f64>(RESULT, Infinity);
  if (nearestEdges(a, b)) return;
  if (nearestOnFace(a, b, 8)) return;
  nearestOnFace(b, a, 32);
}

@inline
function clampedShare(numerator: f64, denominator: f64): f64 {
  return numerator <= 0 ? 0 : numerator >= denominator ? 1 : numerator / denominator;
}

function nearestEdges(a: usize, b: usize): bool {
  let best: f64 = Infinity;
  for (let i: usize = 0; i < 72; i += 24) {
    const p = a + i;
    const q = i === 48 ? a : p + 24;
    const px = load<f64>(p);
    const py = load<f64>(p, 8);
    const pz = load<f64>(p, 16);
    const ux = load<f64>(q) - px;
    const uy = load<f64>(q, 8) - py;
    const uz = load<f64>(q, 16) - pz;
    const uu = ux * ux + uy * uy + uz * uz;
    for (let j: usize = 0; j < 72; j += 24) {
      const r = b + j;
      const s = j === 48 ? b : r + 24;
      const rx = load<f64>(r);
      const ry = load<f64>(r, 8);
      const rz = load<f64>(r, 16);
      const vx = load<f64>(s) - rx;
      const vy = load<f64>(s, 8) - ry;
      const vz = load<f64>(s, 16) - rz;
      const wx = px - rx;
      const wy = py - ry;
      const wz = pz - rz;
      const vv = vx * vx + vy * vy + vz * vz;
      const uv = ux * vx + uy * vy + uz * vz;
      const uw = ux * wx + uy * wy + uz * wz;
      const vw = vx * wx + vy * wy + vz * wz;
      let onA: f64 = 0;
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
          if (denominator > 0) onA = clampedShare(numerator, denominator);
        } else {
          onA = clampedShare(-uw, uu);
        }
      }
      let onB: f64 = 0;
      if (vv > 0) {
        const along = uv * onA + vw;
        if (along <= 0) {
          if (uu > 0) onA = clampedShare(-uw, uu);
        } else if (along >= vv) {
          onB = 1;
          if (uu > 0) onA = clampedShare(uv - uw, uu);
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
      store<f64>(RESULT, squared);
      store<f64>(RESULT + 8, px + ux * onA);
      store<f64>(RESULT + 16, py + uy * onA);
      store<f64>(RESULT + 24, pz + uz * onA);
      store<f64>(RESULT + 32, rx + vx * onB);
      store<f64>(RESULT + 40, ry + vy * onB);
      store<f64>(RESULT + 48, rz + vz * onB);
      if (isFinal(a, b)) return true;
    }
  }
  return false;
}

/** Corners of b over the face of a, and edges of b that pierce it; the point on a goes to RESULT + pointA (8 or 32). */
function nearestOnFace(a: usize, b: usize, pointA: usize): bool {
  const ax = load<f64>(a);
  const ay = load<f64>(a, 8);
  const az = load<f64>(a, 16);
  const ux = load<f64>(a, 24) - ax;
  const uy = load<f64>(a, 32) - ay;
  const uz = load<f64>(a, 40) - az;
  const vx = load<f64>(a, 48) - ax;
  const vy = load<f64>(a, 56) - ay;
  const vz = load<f64>(a, 64) - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  // A triangle without area is all edge.
  if (!(nn > 0)) return false;
  const onA = RESULT + pointA;
  const onB = RESULT + 40 - pointA;
  for (let j: usize = 0; j < 72; j += 24) {
    const r = b + j;
    const s = j === 48 ? b : r + 24;
    const rx = load<f64>(r);
    const ry = load<f64>(r, 8);
    const rz = load<f64>(r, 16);
    const sx = load<f64>(s);
    const sy = load<f64>(s, 8);
    const sz = load<f64>(s, 16);
    const heightR = nx * (rx - ax) + ny * (ry - ay) + nz * (rz - az);
    const heightS = nx * (sx - ax) + ny * (sy - ay) + nz * (sz - az);
    const pierces = (heightR < 0 && heightS > 0) || (heightR > 0 && heightS < 0);
    // An end nearer than the best so far, then the point where the edge passes through the plane.
    for (let test = 0; test < 2; test++) {
      if (test === 0 ? heightR * heightR >= load<f64>(RESULT) * nn : !pierces) continue;
      const along = test === 0 ? 0 : heightR / (heightR - heightS);
      const qx = rx + (sx - rx) * along;
      const qy = ry + (sy - ry) * along;
      const qz = rz + (sz - rz) * along;
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
      if (squared >= load<f64>(RESULT)) continue;
      store<f64>(RESULT, squared);
      store<f64>(onA, px);
      store<f64>(onA, py, 8);
      store<f64>(onA, pz, 16);
      store<f64>(onB, qx);
      store<f64>(onB, qy, 8);
      store<f64>(onB, qz, 16);
      if (pointA === 8 ? isFinal(a, b) : isFinal(b, a)) return true;
    }
  }
  return false;
}

/** Whether the two triangles lie on either side of the slab that the found points span: then nothing is nearer. */
function isFinal(a: usize, b: usize): bool {
  const squared = load<f64>(RESULT);
  if (squared < TOUCHING_SQUARED) {
    store<f64>(RESULT, 0);
    return true;
  }
  const px = load<f64>(RESULT, 8);
  const py = load<f64>(RESULT, 16);
  const pz = load<f64>(RESULT, 24);
  const dx = load<f64>(RESULT, 32) - px;
  const dy = load<f64>(RESULT, 40) - py;
  const dz = load<f64>(RESULT, 48) - pz;
  const slack = 1e-13 * squared;
  for (let k: usize = 0; k < 72; k += 24) {
    const p = a + k;
    if ((load<f64>(p) - px) * dx + (load<f64>(p, 8) - py) * dy + (load<f64>(p, 16) - pz) * dz > slack) return false;
    const q = b + k;
    const beyond = (load<f64>(q) - px) * dx + (load<f64>(q, 8) - py) * dy + (load<f64>(q, 16) - pz) * dz;
    if (beyond < squared - slack) return false;
  }
  return true;
}
