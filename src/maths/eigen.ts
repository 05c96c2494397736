/** Eigenvalues of a symmetric n×n matrix, the largest first, with unit eigenvectors square to each other. */
export interface Eigen {
  readonly values: readonly number[];
  /** `vectors[i]` belongs to `values[i]`. */
  readonly vectors: readonly (readonly number[])[];
}

/** By cyclic Jacobi rotations (Jacobi 1846; Golub and Van Loan, Matrix Computations, 8.5: from memory). `matrix` is row by row. */
export function eigenOfSymmetric(matrix: readonly (readonly number[])[]): Eigen {
  const n = matrix.length;
  const m = matrix.map((row) => [...row]);
  const v = m.map((_, i) => m.map((_, j) => (i === j ? 1 : 0)));
  const size = m.reduce((sum, row) => sum + row.reduce((inner, value) => inner + value * value, 0), 0);
  for (let round = 0; round < 60 && offDiagonal(m) > 1e-32 * size; round++) {
    for (let p = 0; p < n; p++) for (let q = p + 1; q < n; q++) rotate(m, v, p, q);
  }
  const order = m.map((_, i) => i).sort((i, j) => m[j]![j]! - m[i]![i]!);
  return { values: order.map((i) => m[i]![i]!), vectors: order.map((i) => v.map((row) => row[i]!)) };
}

function offDiagonal(m: readonly (readonly number[])[]): number {
  return m.reduce((sum, row, i) => sum + row.reduce((inner, value, j) => inner + (i === j ? 0 : value * value), 0), 0);
}

function rotate(m: number[][], v: number[][], p: number, q: number): void {
  const off = m[p]![q]!;
  if (off === 0) return;
  const theta = (m[q]![q]! - m[p]![p]!) / (2 * off);
  const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const c = 1 / Math.hypot(t, 1);
  const s = t * c;
  for (const row of m) turnColumns(row, p, q, c, s);
  for (let k = 0; k < m.length; k++) {
    const [pk, qk] = [m[p]![k]!, m[q]![k]!];
    m[p]![k] = c * pk - s * qk;
    m[q]![k] = s * pk + c * qk;
  }
  for (const row of v) turnColumns(row, p, q, c, s);
}

function turnColumns(row: number[], p: number, q: number, c: number, s: number): void {
  const [atP, atQ] = [row[p]!, row[q]!];
  row[p] = c * atP - s * atQ;
  row[q] = s * atP + c * atQ;
}
