import { dot, type Vec3 } from "./vec3.ts";

/** A symmetric 3×3 matrix by its upper triangle. */
export interface Sym3 {
  readonly xx: number;
  readonly xy: number;
  readonly xz: number;
  readonly yy: number;
  readonly yz: number;
  readonly zz: number;
}

/** Σ v·vᵀ */
export function sumOfOuter(vectors: readonly Vec3[]): Sym3 {
  let [xx, xy, xz, yy, yz, zz] = [0, 0, 0, 0, 0, 0];
  for (const [x, y, z] of vectors) {
    xx += x * x;
    xy += x * y;
    xz += x * z;
    yy += y * y;
    yz += y * z;
    zz += z * z;
  }
  return { xx, xy, xz, yy, yz, zz };
}

/** A + factor·v·vᵀ */
export function addOuter(a: Sym3, [x, y, z]: Vec3, factor: number): Sym3 {
  return {
    xx: a.xx + factor * x * x,
    xy: a.xy + factor * x * y,
    xz: a.xz + factor * x * z,
    yy: a.yy + factor * y * y,
    yz: a.yz + factor * y * z,
    zz: a.zz + factor * z * z,
  };
}

export function scaleSym3(a: Sym3, factor: number): Sym3 {
  return {
    xx: a.xx * factor,
    xy: a.xy * factor,
    xz: a.xz * factor,
    yy: a.yy * factor,
    yz: a.yz * factor,
    zz: a.zz * factor,
  };
}

export function applySym3(a: Sym3, [x, y, z]: Vec3): Vec3 {
  return [a.xx * x + a.xy * y + a.xz * z, a.xy * x + a.yy * y + a.yz * z, a.xz * x + a.yz * y + a.zz * z];
}

/** vᵀ·A·v */
export function quadratic(a: Sym3, v: Vec3): number {
  return dot(v, applySym3(a, v));
}

/** The inverse by cofactors; null where the determinant is nothing beside the entries. */
export function invertSym3(a: Sym3): Sym3 | null {
  const xx = a.yy * a.zz - a.yz * a.yz;
  const xy = a.xz * a.yz - a.xy * a.zz;
  const xz = a.xy * a.yz - a.xz * a.yy;
  const determinant = a.xx * xx + a.xy * xy + a.xz * xz;
  const size = Math.max(a.xx, a.yy, a.zz);
  if (!(Math.abs(determinant) > 1e-14 * size ** 3)) return null;
  return scaleSym3(
    {
      xx,
      xy,
      xz,
      yy: a.xx * a.zz - a.xz * a.xz,
      yz: a.xy * a.xz - a.xx * a.yz,
      zz: a.xx * a.yy - a.xy * a.xy,
    },
    1 / determinant,
  );
}

/** Eigenvalues, the largest first, with unit eigenvectors square to each other. */
export interface Principal {
  readonly values: Vec3;
  readonly axes: readonly [Vec3, Vec3, Vec3];
}

/** By cyclic Jacobi rotations (Jacobi 1846; Golub and Van Loan, Matrix Computations, 8.5: from memory). */
export function principalAxes(a: Sym3): Principal {
  const m = [
    [a.xx, a.xy, a.xz],
    [a.xy, a.yy, a.yz],
    [a.xz, a.yz, a.zz],
  ];
  const v = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const least = 1e-30 * (a.xx + a.yy + a.zz) ** 2;
  for (let round = 0; round < 30 && m[0]![1]! ** 2 + m[0]![2]! ** 2 + m[1]![2]! ** 2 > least; round++) {
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      rotate(m, v, p, q);
    }
  }
  const order = [0, 1, 2].sort((i, j) => m[j]![j]! - m[i]![i]!);
  const axes = order.map((i): Vec3 => [v[0]![i]!, v[1]![i]!, v[2]![i]!]);
  return { values: order.map((i) => m[i]![i]!) as unknown as Vec3, axes: axes as [Vec3, Vec3, Vec3] };
}

function rotate(m: number[][], v: number[][], p: number, q: number): void {
  const off = m[p]![q]!;
  if (off === 0) return;
  const theta = (m[q]![q]! - m[p]![p]!) / (2 * off);
  const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const c = 1 / Math.hypot(t, 1);
  const s = t * c;
  for (let k = 0; k < 3; k++) {
    const [kp, kq] = [m[k]![p]!, m[k]![q]!];
    m[k]![p] = c * kp - s * kq;
    m[k]![q] = s * kp + c * kq;
  }
  for (let k = 0; k < 3; k++) {
    const [pk, qk] = [m[p]![k]!, m[q]![k]!];
    m[p]![k] = c * pk - s * qk;
    m[q]![k] = s * pk + c * qk;
  }
  for (let k = 0; k < 3; k++) {
    const [kp, kq] = [v[k]![p]!, v[k]![q]!];
    v[k]![p] = c * kp - s * kq;
    v[k]![q] = s * kp + c * kq;
  }
}
