/** x of A·x = b for a symmetric matrix above nothing, row by row, by Cholesky's factors after scaling by the diagonal; null where there is no one answer. */
export function solveSymmetric(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const n = right.length;
  const scales = matrix.map((row, i) => 1 / Math.sqrt(row[i]!));
  if (!scales.every(Number.isFinite)) return null;
  const lower = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]! * scales[i]! * scales[j]!;
      for (let k = 0; k < j; k++) sum -= lower[i]![k]! * lower[j]![k]!;
      if (i !== j) lower[i]![j] = sum / lower[j]![j]!;
      else if (sum > 1e-13) lower[i]![i] = Math.sqrt(sum);
      else return null;
    }
  }
  const x = right.map((value, i) => value * scales[i]!);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= lower[i]![k]! * x[k]!;
    x[i]! /= lower[i]![i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= lower[k]![i]! * x[k]!;
    x[i]! /= lower[i]![i]!;
  }
  return x.map((value, i) => value * scales[i]!);
}
