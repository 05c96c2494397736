import { EQUATION_COUNT, FREEDOM_COUNT } from "./equations.ts";

const N = EQUATION_COUNT;
/** Unknowns while the travel is given: three small turns, then the wheel centre forward and out. */
export const UNKNOWN_COUNT = N;
const RISE = 5;

/**
 * The equations linearised at one state: residuals, Jacobian, and the LU factors (row pivoting) of its five columns that
 * stay unknown while the wheel's height is given. One workspace, reused: nothing is allocated after construction.
 */
export class Linearisation {
  readonly residuals = new Float64Array(EQUATION_COUNT);
  readonly jacobian = new Float64Array(EQUATION_COUNT * FREEDOM_COUNT);
  readonly #lu = new Float64Array(N * N);
  readonly #order = new Uint8Array(N);
  readonly #work = new Float64Array(N);
  /** Sign of the determinant, 0 when singular. It changes where the corner passes a point at which it locks. */
  determinantSign = 0;

  get residual_mm(): number {
    let worst = 0;
    for (let i = 0; i < N; i++) worst = Math.max(worst, Math.abs(this.residuals[i]!));
    return worst;
  }

  /** Factors the 5×5 part of the Jacobian; false when a pivot is exactly zero. */
  factor(): boolean {
    const lu = this.#lu;
    const order = this.#order;
    for (let row = 0; row < N; row++) {
      order[row] = row;
      for (let column = 0; column < N; column++) lu[row * N + column] = this.jacobian[row * FREEDOM_COUNT + column]!;
    }
    let sign = 1;
    for (let k = 0; k < N; k++) {
      let best = k;
      let size = Math.abs(lu[k * N + k]!);
      for (let row = k + 1; row < N; row++) {
        const candidate = Math.abs(lu[row * N + k]!);
        if (candidate > size) {
          size = candidate;
          best = row;
        }
      }
      if (!(size > 0)) {
        this.determinantSign = 0;
        return false;
      }
      if (best !== k) {
        sign = -sign;
        for (let column = 0; column < N; column++) {
          const kept = lu[k * N + column]!;
          lu[k * N + column] = lu[best * N + column]!;
          lu[best * N + column] = kept;
        }
        const kept = order[k]!;
        order[k] = order[best]!;
        order[best] = kept;
      }
      const pivot = lu[k * N + k]!;
      if (pivot < 0) sign = -sign;
      for (let row = k + 1; row < N; row++) {
        const factor = lu[row * N + k]! / pivot;
        lu[row * N + k] = factor;
        for (let column = k + 1; column < N; column++) lu[row * N + column]! -= factor * lu[k * N + column]!;
      }
    }
    this.determinantSign = sign;
    return true;
  }

  /** The Newton step: unknowns that cancel the residuals. */
  newtonStep(out: Float64Array): void {
    for (let i = 0; i < N; i++) this.#work[i] = -this.residuals[i]!;
    this.#solve(out);
  }

  /** The unknowns' rates per mm of wheel travel (rad/mm, mm/mm). */
  travelRates(out: Float64Array): void {
    for (let i = 0; i < N; i++) this.#work[i] = -this.jacobian[i * FREEDOM_COUNT + RISE]!;
    this.#solve(out);
  }

  /** The unknowns' rates that keep the equations while their residuals would go at these rates, the wheel's height held. */
  response(residualRates: Float64Array, out: Float64Array): void {
    for (let i = 0; i < N; i++) this.#work[i] = -residualRates[i]!;
    this.#solve(out);
  }

  #solve(out: Float64Array): void {
    const lu = this.#lu;
    for (let row = 0; row < N; row++) {
      let sum = this.#work[this.#order[row]!]!;
      for (let column = 0; column < row; column++) sum -= lu[row * N + column]! * out[column]!;
      out[row] = sum;
    }
    for (let row = N - 1; row >= 0; row--) {
      let sum = out[row]!;
      for (let column = row + 1; column < N; column++) sum -= lu[row * N + column]! * out[column]!;
      out[row] = sum / lu[row * N + row]!;
    }
  }
}
