import type { ConvexDifference } from "./convexDifference.ts";

const TRIANGLES = [
  [0, 1, 2],
  [0, 1, 3],
  [0, 2, 3],
  [1, 2, 3],
] as const;

/** Up to four points of a convex difference, each with the points of A and B it comes from. */
export class Simplex {
  count = 0;
  readonly points = new Float64Array(12);
  readonly indexA = new Int32Array(4);
  readonly indexB = new Int32Array(4);
  /** Answer of `reduce`: the simplex' point nearest to the origin, and its weights in the points that are left. */
  readonly nearest = new Float64Array(3);
  readonly weights = new Float64Array(4);
  nearestSquared = 0;
  private readonly kept = new Int32Array(3);
  private readonly keptWeights = new Float64Array(3);
  private keptCount = 0;

  add(from: ConvexDifference): void {
    const at = this.count++;
    for (let k = 0; k < 3; k++) this.points[3 * at + k] = from.farthest[k]!;
    this.indexA[at] = from.indexA;
    this.indexB[at] = from.indexB;
  }

  holds(indexA: number, indexB: number): boolean {
    for (let k = 0; k < this.count; k++) {
      if (this.indexA[k] === indexA && this.indexB[k] === indexB) return true;
    }
    return false;
  }

  /**
   * Finds the point nearest to the origin and drops the points it does not need. True, and nothing is dropped, when the
   * origin lies within a tetrahedron. Every corner, edge and face is tried: that is still quick, and no degenerate
   * simplex can mislead it, since each candidate does lie on the simplex.
   */
  reduce(): boolean {
    const { count } = this;
    if (count === 4 && this.holdsOrigin()) return true;
    this.nearestSquared = Number.POSITIVE_INFINITY;
    for (let i = 0; i < count; i++) this.tryPoint(i);
    for (let i = 0; i < count; i++) for (let j = i + 1; j < count; j++) this.tryEdge(i, j);
    if (count === 3) this.tryFace(0, 1, 2);
    if (count === 4) for (const [i, j, k] of TRIANGLES) this.tryFace(i, j, k);
    this.keep();
    return false;
  }

  private holdsOrigin(): boolean {
    const p = this.points;
    const whole = volume(p, 0, 3, 6, 9);
    const scale = Math.abs(p[0]!) + Math.abs(p[1]!) + Math.abs(p[2]!);
    if (Math.abs(whole) <= 1e-15 * scale ** 3) return false;
    const sign = whole > 0 ? 1 : -1;
    return (
      sign * triple(p, 3, 6, 9) >= 0 &&
      sign * triple(p, 0, 9, 6) >= 0 &&
      sign * triple(p, 0, 3, 9) >= 0 &&
      sign * triple(p, 0, 6, 3) >= 0
    );
  }

  private tryPoint(i: number): void {
    const p = this.points;
    this.offer(p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!, i, -1, -1, 1, 0, 0);
  }

  private tryEdge(i: number, j: number): void {
    const p = this.points;
    const ux = p[3 * j]! - p[3 * i]!;
    const uy = p[3 * j + 1]! - p[3 * i + 1]!;
    const uz = p[3 * j + 2]! - p[3 * i + 2]!;
    const uu = ux * ux + uy * uy + uz * uz;
    const along = -(ux * p[3 * i]! + uy * p[3 * i + 1]! + uz * p[3 * i + 2]!);
    if (!(along > 0 && along < uu)) return;
    const t = along / uu;
    this.offer(p[3 * i]! + ux * t, p[3 * i + 1]! + uy * t, p[3 * i + 2]! + uz * t, i, j, -1, 1 - t, t, 0);
  }

  private tryFace(i: number, j: number, k: number): void {
    const p = this.points;
    const ax = p[3 * i]!;
    const ay = p[3 * i + 1]!;
    const az = p[3 * i + 2]!;
    const ux = p[3 * j]! - ax;
    const uy = p[3 * j + 1]! - ay;
    const uz = p[3 * j + 2]! - az;
    const vx = p[3 * k]! - ax;
    const vy = p[3 * k + 1]! - ay;
    const vz = p[3 * k + 2]! - az;
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const nn = nx * nx + ny * ny + nz * nz;
    // Weights of the second and third corner of the origin's projection, times nn.
    const onU = nx * (az * vy - ay * vz) + ny * (ax * vz - az * vx) + nz * (ay * vx - ax * vy);
    const onV = nx * (uz * ay - uy * az) + ny * (ux * az - uz * ax) + nz * (uy * ax - ux * ay);
    if (!(onU > 0 && onV > 0 && onU + onV < nn)) return;
    const s = onU / nn;
    const t = onV / nn;
    this.offer(ax + ux * s + vx * t, ay + uy * s + vy * t, az + uz * s + vz * t, i, j, k, 1 - s - t, s, t);
  }

  private offer(
    x: number,
    y: number,
    z: number,
    i: number,
    j: number,
    k: number,
    weightI: number,
    weightJ: number,
    weightK: number,
  ): void {
    const squared = x * x + y * y + z * z;
    if (squared >= this.nearestSquared) return;
    this.nearestSquared = squared;
    this.nearest[0] = x;
    this.nearest[1] = y;
    this.nearest[2] = z;
    this.kept[0] = i;
    this.kept[1] = j;
    this.kept[2] = k;
    this.keptCount = j < 0 ? 1 : k < 0 ? 2 : 3;
    this.keptWeights[0] = weightI;
    this.keptWeights[1] = weightJ;
    this.keptWeights[2] = weightK;
  }

  private keep(): void {
    const { points, indexA, indexB, kept, keptWeights, keptCount, weights } = this;
    // kept numbers ascend, so nothing is overwritten before it is moved
    for (let to = 0; to < keptCount; to++) {
      const from = kept[to]!;
      for (let k = 0; k < 3; k++) points[3 * to + k] = points[3 * from + k]!;
      indexA[to] = indexA[from]!;
      indexB[to] = indexB[from]!;
      weights[to] = keptWeights[to]!;
    }
    this.count = keptCount;
  }
}

/** Six times the signed volume of the tetrahedron of the origin and three points. */
function triple(p: Float64Array, a: number, b: number, c: number): number {
  return (
    p[a]! * (p[b + 1]! * p[c + 2]! - p[b + 2]! * p[c + 1]!) +
    p[a + 1]! * (p[b + 2]! * p[c]! - p[b]! * p[c + 2]!) +
    p[a + 2]! * (p[b]! * p[c + 1]! - p[b + 1]! * p[c]!)
  );
}

/** Six times the signed volume of a tetrahedron: the sum of those of its faces with the origin. */
function volume(p: Float64Array, a: number, b: number, c: number, d: number): number {
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const [wx, wy, wz] = [p[d]! - p[a]!, p[d + 1]! - p[a + 1]!, p[d + 2]! - p[a + 2]!];
  return ux * (vy * wz - vz * wy) + uy * (vz * wx - vx * wz) + uz * (vx * wy - vy * wx);
}
