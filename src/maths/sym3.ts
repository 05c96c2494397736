import { eigenOfSymmetric } from "./eigen.ts";
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

export function principalAxes(a: Sym3): Principal {
  const { values, vectors } = eigenOfSymmetric([
    [a.xx, a.xy, a.xz],
    [a.xy, a.yy, a.yz],
    [a.xz, a.yz, a.zz],
  ]);
  return { values: values as unknown as Vec3, axes: vectors as unknown as Principal["axes"] };
}
