import type { Ball } from "./excuse.ts";
import { nearestOnTriangle } from "./pointTriangle.ts";

/** How far inside the ball's rim surface may still be kept, mm: what is in doubt counts. */
export const RIM_mm = 0.25;

/** Nine coordinates a triangle, as many triangles as come; emptied, not made anew. */
export class TriangleList {
  coordinates = new Float64Array(9 * 64);
  count = 0;

  push(from: ArrayLike<number>, at: number): void {
    const { coordinates } = this.withRoom();
    for (let k = 0; k < 9; k++) coordinates[9 * this.count + k] = from[at + k]!;
    this.count++;
  }

  private withRoom(): this {
    if (9 * (this.count + 1) > this.coordinates.length) {
      const wider = new Float64Array(2 * this.coordinates.length);
      wider.set(this.coordinates);
      this.coordinates = wider;
    }
    return this;
  }
}

/**
 * Cuts balls out of one triangle after another. Everything at or beyond the radius stays, and nothing that lies more than
 * 0.25 mm nearer to the centre: a triangle that straddles the rim is halved along its longest edge until that is at most
 * e = √(3·r·0.25 mm), then cut straight between the points where its edges pass the sphere. Each remaining triangle has all
 * corners at r or beyond, and a point Σλᵢvᵢ of it has |p − c|² = Σλᵢ|vᵢ − c|² − Σλᵢλⱼ|vᵢ − vⱼ|² ≥ r² − e²/3, that is, lies
 * at r − e²/(3r) or beyond.
 */
export class BallCutter {
  /** What is left of the triangle that was cut last. */
  left = new TriangleList();
  private spare = new TriangleList();
  private readonly pending = new TriangleList();
  private readonly outline = new Float64Array(12);
  private readonly piece = new Float64Array(9);

  /** Leaves in `left` what the balls leave of the triangle at `triangle` (9 coordinates). */
  cut(triangle: ArrayLike<number>, balls: readonly Ball[]): void {
    this.left.count = 0;
    this.left.push(triangle, 0);
    for (const ball of balls) {
      const before = this.left;
      this.left = this.spare;
      this.spare = before;
      this.left.count = 0;
      for (let i = 0; i < before.count; i++) this.cutBall(before.coordinates, 9 * i, ball);
    }
  }

  private cutBall(from: Float64Array, at: number, { centre, radius_mm }: Ball): void {
    const { pending, left, piece } = this;
    const [x, y, z] = centre;
    const square = radius_mm * radius_mm;
    const shortSquare = 3 * radius_mm * RIM_mm;
    pending.count = 0;
    pending.push(from, at);
    while (pending.count > 0) {
      pending.count--;
      for (let k = 0; k < 9; k++) piece[k] = pending.coordinates[9 * pending.count + k]!;
      const a = squareFrom(piece, 0, x, y, z);
      const b = squareFrom(piece, 3, x, y, z);
      const c = squareFrom(piece, 6, x, y, z);
      if (a < square && b < square && c < square) continue;
      if (!isWithin(piece, 0, centre, radius_mm)) {
        left.push(piece, 0);
        continue;
      }
      const ab = squareFrom(piece, 0, piece[3]!, piece[4]!, piece[5]!);
      const bc = squareFrom(piece, 3, piece[6]!, piece[7]!, piece[8]!);
      const ca = squareFrom(piece, 6, piece[0]!, piece[1]!, piece[2]!);
      const side = ab >= bc && ab >= ca ? 0 : bc >= ca ? 1 : 2;
      if ((side === 0 ? ab : side === 1 ? bc : ca) <= shortSquare) this.leaveOutside(a, b, c, centre, radius_mm);
      else this.halve(3 * side);
    }
  }

  /** Puts both halves of `piece` on the pile, the first on top: cut along the edge that begins at `from`. */
  private halve(from: number): void {
    const { pending, piece } = this;
    const to = (from + 3) % 9;
    const first = pending.count + 1;
    pending.push(piece, 0);
    pending.push(piece, 0);
    const { coordinates } = pending;
    for (let k = 0; k < 3; k++) {
      const middle = piece[from + k]! + (piece[to + k]! - piece[from + k]!) * 0.5;
      coordinates[9 * first + to + k] = middle;
      coordinates[9 * (first - 1) + from + k] = middle;
    }
  }

  /**
   * `piece` without its corners inside the sphere, cut straight where the edges pass it, in the same sense of turning; a, b, c:
   * squares of its corners' distances from the centre.
   */
  private leaveOutside(a: number, b: number, c: number, centre: Ball["centre"], radius_mm: number): void {
    const { piece, outline, left } = this;
    const square = radius_mm * radius_mm;
    let corners = 0;
    for (let i = 0; i < 3; i++) {
      const from = 3 * i;
      const to = (from + 3) % 9;
      const fromOut = (i === 0 ? a : i === 1 ? b : c) >= square;
      const toOut = (i === 0 ? b : i === 1 ? c : a) >= square;
      if (fromOut) for (let k = 0; k < 3; k++) outline[3 * corners + k] = piece[from + k]!;
      if (fromOut) corners++;
      if (fromOut === toOut) continue;
      const s = passing(piece, from, to, fromOut, centre, radius_mm);
      for (let k = 0; k < 3; k++) {
        outline[3 * corners + k] = piece[from + k]! + (piece[to + k]! - piece[from + k]!) * s;
      }
      corners++;
    }
    for (let i = 1; i + 1 < corners; i++) {
      for (let k = 0; k < 3; k++) {
        piece[k] = outline[k]!;
        piece[3 + k] = outline[3 * i + k]!;
        piece[6 + k] = outline[3 * i + 3 + k]!;
      }
      left.push(piece, 0);
    }
  }
}

/** Where the edge passes the sphere, of whose ends one is inside: the root of |from + s·(to − from) − centre|² = r² between. */
function passing(
  piece: Float64Array,
  from: number,
  to: number,
  fromOut: boolean,
  centre: Ball["centre"],
  radius_mm: number,
): number {
  let a = 0;
  let b = 0;
  let c = -radius_mm * radius_mm;
  for (let k = 0; k < 3; k++) {
    const d = piece[to + k]! - piece[from + k]!;
    const e = piece[from + k]! - centre[k]!;
    a += d * d;
    b += d * e;
    c += e * e;
  }
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  // leaving the sphere is the larger root, entering it the smaller
  const s = (fromOut ? -b - root : -b + root) / a;
  return Math.min(1, Math.max(0, s));
}

function squareFrom(points: ArrayLike<number>, at: number, px: number, py: number, pz: number): number {
  const x = points[at]! - px;
  const y = points[at + 1]! - py;
  const z = points[at + 2]! - pz;
  return x * x + y * y + z * z;
}

const nearest = new Float64Array(4);

/** Whether the triangle at `at` (9 corner coordinates) comes nearer to a ball's centre than its radius. */
export function isWithin(triangles: Float64Array, at: number, centre: Ball["centre"], radius_mm: number): boolean {
  nearestOnTriangle(triangles, at, centre[0], centre[1], centre[2], nearest);
  return nearest[0]! < radius_mm * radius_mm;
}
