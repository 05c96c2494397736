/** What a figure did over the second half of a run, when whatever is made once has been made. */
export interface Growth {
  /** Mean of the second half, in the figure's own unit. */
  readonly mean: number;
  /** What the fitted line gains from the first sample of that half to the last. */
  readonly gained: number;
  /** Two standard errors of that gain: how far the scatter alone may move it (95 in 100 times). */
  readonly scatter: number;
}

/** What the line may gain beyond its scatter, as a share of the mean. */
export const ALLOWED_SHARE = 0.02;

/** Samples that a fit needs to tell a slope from scatter. */
export const LEAST_SAMPLES = 6;

/**
 * The line of least squares through the second half of the samples, which were taken `at` (any unit). Ordinary linear regression:
 * gain = b (x_n - x_1), s_b² = Σ(y - ŷ)² / ((n - 2) Σ(x - x̄)²); NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1 (from memory).
 */
export function growthOf(at: readonly number[], values: readonly number[]): Growth {
  const from = Math.floor(values.length / 2);
  const [x, y] = [at.slice(from), values.slice(from)];
  const n = x.length;
  const mean = (all: readonly number[]) => all.reduce((sum, value) => sum + value, 0) / all.length;
  const [mx, my] = [mean(x), mean(y)];
  const sxx = x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  const slope = sxx === 0 ? 0 : x.reduce((sum, value, i) => sum + (value - mx) * (y[i]! - my), 0) / sxx;
  const rest = y.reduce((sum, value, i) => sum + (value - my - slope * (x[i]! - mx)) ** 2, 0);
  const span = x[n - 1]! - x[0]!;
  return {
    mean: my,
    gained: slope * span,
    scatter: n > 2 && sxx > 0 ? 2 * span * Math.sqrt(rest / ((n - 2) * sxx)) : 0,
  };
}

/** Grows: by more than the scatter and more than the share that is allowed. */
export function grows({ mean, gained, scatter }: Growth): boolean {
  return gained - scatter > ALLOWED_SHARE * mean;
}
