export const SIX = 6;

/** Below this share of the largest entry a pivot is nothing: rounding of real corners leaves 1e-3 and more. */
const NOTHING = 1e-9;

/** LU factors of a 6×6 matrix with row pivoting (Golub & Van Loan, Matrix Computations, algorithm 3.4.1). */
export class SixEquations {
  readonly #lu = new Float64Array(SIX * SIX);
  readonly #order = new Uint8Array(SIX);

  /** Takes the matrix row by row; false when it is singular. */
  factor(matrix: Float64Array): boolean {
    const lu = this.#lu;
    const order = this.#order;
    lu.set(matrix);
    let largest = 0;
    for (const value of matrix) largest = Math.max(largest, Math.abs(value));
    for (let row = 0; row < SIX; row++) order[row] = row;
    for (let k = 0; k < SIX; k++) {
      let best = k;
      for (let row = k + 1; row < SIX; row++) {
        if (Math.abs(lu[row * SIX + k]!) > Math.abs(lu[best * SIX + k]!)) best = row;
      }
      const pivot = lu[best * SIX + k]!;
      if (!(Math.abs(pivot) > NOTHING * largest)) return false;
      if (best !== k) {
        for (let column = 0; column < SIX; column++) {
          const kept = lu[k * SIX + column]!;
          lu[k * SIX + column] = lu[best * SIX + column]!;
          lu[best * SIX + column] = kept;
        }
        const kept = order[k]!;
        order[k] = order[best]!;
        order[best] = kept;
      }
      for (let row = k + 1; row < SIX; row++) {
        const factor = lu[row * SIX + k]! / pivot;
        lu[row * SIX + k] = factor;
        for (let column = k + 1; column < SIX; column++) lu[row * SIX + column]! -= factor * lu[k * SIX + column]!;
      }
    }
    return true;
  }

  solve(right: Float64Array, out: Float64Array): void {
    const lu = this.#lu;
    for (let row = 0; row < SIX; row++) {
      let sum = right[this.#order[row]!]!;
      for (let column = 0; column < row; column++) sum -= lu[row * SIX + column]! * out[column]!;
      out[row] = sum;
    }
    for (let row = SIX - 1; row >= 0; row--) {
      let sum = out[row]!;
      for (let column = row + 1; column < SIX; column++) sum -= lu[row * SIX + column]! * out[column]!;
      out[row] = sum / lu[row * SIX + row]!;
    }
  }
}
