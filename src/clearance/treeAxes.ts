const PLANES = [
  [0, 1, 2],
  [0, 2, 1],
  [1, 2, 0],
] as const;

/**
 * Principal axes of a surface from its moments at `moments[at]…` (area; x, y, z; xx, yy, zz, xy, xz, yz), as three unit
 * vectors, one after another, square to each other. By turns in one plane after another until nothing is left off the
 * diagonal (C. Jacobi, 1846).
 */
export function principalAxes(moments: Float64Array, at: number, axes: Float64Array): void {
  const area = moments[at]!;
  const x = moments[at + 1]! / area;
  const y = moments[at + 2]! / area;
  const z = moments[at + 3]! / area;
  const spread = [moments[at + 4]! / area - x * x, moments[at + 5]! / area - y * y, moments[at + 6]! / area - z * z];
  /** Mixed moments, by the axis that has no part in them. */
  const mixed = [moments[at + 9]! / area - y * z, moments[at + 8]! / area - x * z, moments[at + 7]! / area - x * y];
  axes.fill(0);
  for (let k = 0; k < 3; k++) axes[4 * k] = 1;
  for (let sweep = 0; sweep < 6; sweep++) {
    for (const [p, q, r] of PLANES) {
      const off = mixed[r]!;
      if (!(Math.abs(off) > 1e-13 * (Math.abs(spread[p]!) + Math.abs(spread[q]!)))) continue;
      const half = (spread[q]! - spread[p]!) / (2 * off);
      const tangent = (half < 0 ? -1 : 1) / (Math.abs(half) + Math.sqrt(half * half + 1));
      const cosine = 1 / Math.sqrt(tangent * tangent + 1);
      const sine = tangent * cosine;
      spread[p] = spread[p]! - tangent * off;
      spread[q] = spread[q]! + tangent * off;
      mixed[r] = 0;
      const [mp, mq] = [mixed[q]!, mixed[p]!];
      mixed[q] = cosine * mp - sine * mq;
      mixed[p] = sine * mp + cosine * mq;
      for (let k = 0; k < 3; k++) {
        const [ap, aq] = [axes[3 * p + k]!, axes[3 * q + k]!];
        axes[3 * p + k] = cosine * ap - sine * aq;
        axes[3 * q + k] = sine * ap + cosine * aq;
      }
    }
  }
}
