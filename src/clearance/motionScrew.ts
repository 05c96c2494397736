import type { Pose } from "../maths/pose.ts";

/**
 * A screw is six numbers [wx, wy, wz, vx, vy, vz] in the moving body's own axes: while it runs from s = 0 to 1 a point p
 * of the body moves at w × p + v as the body itself sees it, so that its speed is the same all the way:
 *
 *   pose(s) = pose(0) · exp(s·[w, v]),   R = I + A[w] + B[w]²,   t = (I + B[w] + C[w]²)·v,
 *   A = sin θ / θ,  B = (1 − cos θ) / θ²,  C = (θ − sin θ) / θ³,  θ = |w| ≤ π.
 *
 * R. M. Murray, Z. Li, S. S. Sastry, A Mathematical Introduction to Robotic Manipulation, 1994, section 2.3 (2.36), from memory.
 */
export const SCREW_SIZE = 6;

/** Below this angle, rad, the series is closer than the closed form. */
const SMALL_ANGLE = 1e-3;

/** The screw that takes `from` to `to`, written to `out` at `offset`. Of the two half turns at θ = π either may come. */
export function screwBetween(from: Pose, to: Pose, out: Float64Array, offset: number): void {
  // step = from⁻¹ · to
  const dx = to[3]! - from[3]!;
  const dy = to[7]! - from[7]!;
  const dz = to[11]! - from[11]!;
  const tx = from[0]! * dx + from[4]! * dy + from[8]! * dz;
  const ty = from[1]! * dx + from[5]! * dy + from[9]! * dz;
  const tz = from[2]! * dx + from[6]! * dy + from[10]! * dz;
  const r00 = from[0]! * to[0]! + from[4]! * to[4]! + from[8]! * to[8]!;
  const r01 = from[0]! * to[1]! + from[4]! * to[5]! + from[8]! * to[9]!;
  const r02 = from[0]! * to[2]! + from[4]! * to[6]! + from[8]! * to[10]!;
  const r10 = from[1]! * to[0]! + from[5]! * to[4]! + from[9]! * to[8]!;
  const r11 = from[1]! * to[1]! + from[5]! * to[5]! + from[9]! * to[9]!;
  const r12 = from[1]! * to[2]! + from[5]! * to[6]! + from[9]! * to[10]!;
  const r20 = from[2]! * to[0]! + from[6]! * to[4]! + from[10]! * to[8]!;
  const r21 = from[2]! * to[1]! + from[6]! * to[5]! + from[10]! * to[9]!;
  const r22 = from[2]! * to[2]! + from[6]! * to[6]! + from[10]! * to[10]!;

  let wx = (r21 - r12) / 2;
  let wy = (r02 - r20) / 2;
  let wz = (r10 - r01) / 2;
  const sine = Math.sqrt(wx * wx + wy * wy + wz * wz);
  const cosine = (r00 + r11 + r22 - 1) / 2;
  const angle = Math.atan2(sine, cosine);
  if (cosine < -0.99) {
    // close to half a turn the sine vanishes: the axis is the longest column of the symmetric part
    const xx = (r00 - cosine) / (1 - cosine);
    const yy = (r11 - cosine) / (1 - cosine);
    const zz = (r22 - cosine) / (1 - cosine);
    const xy = (r01 + r10) / 2 / (1 - cosine);
    const xz = (r02 + r20) / 2 / (1 - cosine);
    const yz = (r12 + r21) / 2 / (1 - cosine);
    let ax = xx;
    let ay = xy;
    let az = xz;
    if (yy >= xx && yy >= zz) [ax, ay, az] = [xy, yy, yz];
    else if (zz >= xx) [ax, ay, az] = [xz, yz, zz];
    const sense = (ax * wx + ay * wy + az * wz < 0 ? -angle : angle) / Math.hypot(ax, ay, az);
    wx = ax * sense;
    wy = ay * sense;
    wz = az * sense;
  } else if (sine > 0) {
    const stretch = angle / sine;
    wx *= stretch;
    wy *= stretch;
    wz *= stretch;
  }
  // v = (I − [w]/2 + E[w]²)·t with E = (1 − A/(2B)) / θ² = (1 − (θ/2)·cot(θ/2)) / θ²
  const square = angle * angle;
  const e = angle < SMALL_ANGLE ? 1 / 12 + square / 720 : (1 - angle / 2 / Math.tan(angle / 2)) / square;
  const cx = wy * tz - wz * ty;
  const cy = wz * tx - wx * tz;
  const cz = wx * ty - wy * tx;
  out[offset] = wx;
  out[offset + 1] = wy;
  out[offset + 2] = wz;
  out[offset + 3] = tx - cx / 2 + e * (wy * cz - wz * cy);
  out[offset + 4] = ty - cy / 2 + e * (wz * cx - wx * cz);
  out[offset + 5] = tz - cz / 2 + e * (wx * cy - wy * cx);
}

/** The pose a share `s` along the screw at `offset` of `screws`, which starts in the pose at `start` of `poses`. */
export function poseAlongScrew(
  poses: Float64Array,
  start: number,
  screws: Float64Array,
  offset: number,
  s: number,
  out: Pose,
): Pose {
  const wx = screws[offset]! * s;
  const wy = screws[offset + 1]! * s;
  const wz = screws[offset + 2]! * s;
  const vx = screws[offset + 3]! * s;
  const vy = screws[offset + 4]! * s;
  const vz = screws[offset + 5]! * s;
  const square = wx * wx + wy * wy + wz * wz;
  const angle = Math.sqrt(square);
  const half = Math.sin(angle / 2);
  const small = angle < SMALL_ANGLE;
  const a = small ? 1 - square / 6 : Math.sin(angle) / angle;
  const b = small ? 0.5 - square / 24 : (2 * half * half) / square;
  const c = small ? 1 / 6 - square / 120 : (1 - a) / square;

  const r00 = 1 - b * (wy * wy + wz * wz);
  const r11 = 1 - b * (wx * wx + wz * wz);
  const r22 = 1 - b * (wx * wx + wy * wy);
  const r01 = b * wx * wy - a * wz;
  const r10 = b * wx * wy + a * wz;
  const r02 = b * wx * wz + a * wy;
  const r20 = b * wx * wz - a * wy;
  const r12 = b * wy * wz - a * wx;
  const r21 = b * wy * wz + a * wx;
  const kx = wy * vz - wz * vy;
  const ky = wz * vx - wx * vz;
  const kz = wx * vy - wy * vx;
  const tx = vx + b * kx + c * (wy * kz - wz * ky);
  const ty = vy + b * ky + c * (wz * kx - wx * kz);
  const tz = vz + b * kz + c * (wx * ky - wy * kx);

  for (let row = 0; row < 3; row++) {
    const i = start + row * 4;
    const p = poses[i]!;
    const q = poses[i + 1]!;
    const r = poses[i + 2]!;
    out[row * 4] = p * r00 + q * r10 + r * r20;
    out[row * 4 + 1] = p * r01 + q * r11 + r * r21;
    out[row * 4 + 2] = p * r02 + q * r12 + r * r22;
    out[row * 4 + 3] = p * tx + q * ty + r * tz + poses[i + 3]!;
  }
  return out;
}
