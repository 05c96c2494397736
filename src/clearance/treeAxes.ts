/** Mixed moments below this share of the plain ones turn the axes by less than a box could gain from. */
const NEGLIGIBLE = 1e-5;

/**
 * Principal axes of a surface from its moments at `moments[at]…` (area; x, y, z; xx, yy, zz, xy, xz, yz), as three unit
 * vectors, one after another, square to each other. By turns in one plane after another until next to nothing is left off
 * the diagonal (C. Jacobi, 1846).
 */
export function principalAxes(moments: Float64Array, at: number, axes: Float64Array): void {
  const area = moments[at]!;
  const x = moments[at + 1]! / area;
  const y = moments[at + 2]! / area;
  const z = moments[at + 3]! / area;
  // on the diagonal, and off it
  let xx = moments[at + 4]! / area - x * x;
  let yy = moments[at + 5]! / area - y * y;
  let zz = moments[at + 6]! / area - z * z;
  let xy = moments[at + 7]! / area - x * y;
  let xz = moments[at + 8]! / area - x * z;
  let yz = moments[at + 9]! / area - y * z;
  axes.fill(0);
  for (let k = 0; k < 3; k++) axes[4 * k] = 1;
  for (let sweep = 0; sweep < 6; sweep++) {
    let settled = true;
    if (Math.abs(xy) > NEGLIGIBLE * (Math.abs(xx) + Math.abs(yy))) {
      const tangent = tangentOf(xx, yy, xy);
      const cosine = 1 / Math.sqrt(tangent * tangent + 1);
      const sine = tangent * cosine;
      xx -= tangent * xy;
      yy += tangent * xy;
      xy = 0;
      const mixed = xz;
      xz = cosine * mixed - sine * yz;
      yz = sine * mixed + cosine * yz;
      turn(axes, 0, 3, cosine, sine);
      settled = false;
    }
    if (Math.abs(xz) > NEGLIGIBLE * (Math.abs(xx) + Math.abs(zz))) {
      const tangent = tangentOf(xx, zz, xz);
      const cosine = 1 / Math.sqrt(tangent * tangent + 1);
      const sine = tangent * cosine;
      xx -= tangent * xz;
      zz += tangent * xz;
      xz = 0;
      const mixed = xy;
      xy = cosine * mixed - sine * yz;
      yz = sine * mixed + cosine * yz;
      turn(axes, 0, 6, cosine, sine);
      settled = false;
    }
    if (Math.abs(yz) > NEGLIGIBLE * (Math.abs(yy) + Math.abs(zz))) {
      const tangent = tangentOf(yy, zz, yz);
      const cosine = 1 / Math.sqrt(tangent * tangent + 1);
      const sine = tangent * cosine;
      yy -= tangent * yz;
      zz += tangent * yz;
      yz = 0;
      const mixed = xy;
      xy = cosine * mixed - sine * xz;
      xz = sine * mixed + cosine * xz;
      turn(axes, 3, 6, cosine, sine);
      settled = false;
    }
    if (settled) return;
  }
}

/** Tangent of the smaller angle by which axes p and q are turned to rid them of what they have mixed. */
function tangentOf(pp: number, qq: number, mixed: number): number {
  const half = (qq - pp) / (2 * mixed);
  return (half < 0 ? -1 : 1) / (Math.abs(half) + Math.sqrt(half * half + 1));
}

function turn(axes: Float64Array, p: number, q: number, cosine: number, sine: number): void {
  for (let k = 0; k < 3; k++) {
    const ofP = axes[p + k]!;
    const ofQ = axes[q + k]!;
    axes[p + k] = cosine * ofP - sine * ofQ;
    axes[q + k] = sine * ofP + cosine * ofQ;
  }
}
