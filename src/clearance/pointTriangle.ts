/**
 * Nearest point of the triangle at `t[at]…` (9 corner coordinates) to (x, y, z): squared distance into `out[0]`, the point
 * into `out[1…3]`. By the region of the triangle in which the point's projection falls (Ericson, Real-Time Collision
 * Detection, 2005, §5.1.5); triangles without area fall back on their edges.
 */
export function nearestOnTriangle(
  t: Float64Array,
  at: number,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): void {
  const ax = t[at]!;
  const ay = t[at + 1]!;
  const az = t[at + 2]!;
  const ux = t[at + 3]! - ax;
  const uy = t[at + 4]! - ay;
  const uz = t[at + 5]! - az;
  const vx = t[at + 6]! - ax;
  const vy = t[at + 7]! - ay;
  const vz = t[at + 8]! - az;
  const wx = x - ax;
  const wy = y - ay;
  const wz = z - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  const onU = nx * (wy * vz - wz * vy) + ny * (wz * vx - wx * vz) + nz * (wx * vy - wy * vx);
  const onV = nx * (uy * wz - uz * wy) + ny * (uz * wx - ux * wz) + nz * (ux * wy - uy * wx);
  if (nn > 0 && onU >= 0 && onV >= 0 && onU + onV <= nn) {
    const px = ax + (ux * onU + vx * onV) / nn;
    const py = ay + (uy * onU + vy * onV) / nn;
    const pz = az + (uz * onU + vz * onV) / nn;
    out[0] = (px - x) ** 2 + (py - y) ** 2 + (pz - z) ** 2;
    out[1] = px;
    out[2] = py;
    out[3] = pz;
    return;
  }
  out[0] = Number.POSITIVE_INFINITY;
  for (let corner = 0; corner < 9; corner += 3) {
    // the nearest point is on an edge that the projection is beyond
    if (nn > 0 && (corner === 0 ? onV >= 0 : corner === 3 ? onU + onV <= nn : onU >= 0)) continue;
    const p = at + corner;
    const q = corner === 6 ? at : p + 3;
    const sx = t[p]!;
    const sy = t[p + 1]!;
    const sz = t[p + 2]!;
    const ex = t[q]! - sx;
    const ey = t[q + 1]! - sy;
    const ez = t[q + 2]! - sz;
    const along = ex * (x - sx) + ey * (y - sy) + ez * (z - sz);
    const ee = ex * ex + ey * ey + ez * ez;
    const share = along <= 0 ? 0 : along >= ee ? 1 : along / ee;
    const px = sx + ex * share;
    const py = sy + ey * share;
    const pz = sz + ez * share;
    const squared = (px - x) ** 2 + (py - y) ** 2 + (pz - z) ** 2;
    if (squared >= out[0]!) continue;
    out[0] = squared;
    out[1] = px;
    out[2] = py;
    out[3] = pz;
  }
}
