import type { Solid } from "../geometry/solid.ts";
import { Pacer, type Poll } from "../maths/poll.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { farthestOfPieces } from "./excusePieces.ts";
import { VertexWeld } from "./excuseWeld.ts";

/** A ball in a body's design position within which its surface does not count. */
export interface Ball {
  readonly centre: Vec3;
  readonly radius_mm: number;
}

/** How far inside the ball's rim surface may still be kept, mm: what is in doubt counts. */
const RIM_mm = 0.25;

/** What is left of a body's surface outside the balls. */
export interface Clipped {
  /** One open shell; may have no triangles. */
  readonly solid: Solid;
  /** 3·k coordinates: of each connected piece of what is left the corner farthest from the balls. */
  readonly farthest: Float64Array;
}

/**
 * Cuts the balls out of a body's surface. Everything at or beyond the radius stays, and nothing that lies more than
 * 0.25 mm nearer to the centre: a triangle that straddles the rim is halved along its longest edge until that is at most
 * e = √(3·r·0.25 mm), then cut straight between the points where its edges pass the sphere. Each remaining triangle has all
 * corners at r or beyond, and a point Σλᵢvᵢ of it has |p − c|² = Σλᵢ|vᵢ − c|² − Σλᵢλⱼ|vᵢ − vⱼ|² ≥ r² − e²/3, that is, lies
 * at r − e²/(3r) or beyond. Null if the balls touch no triangle.
 */
export function clipOutside(solid: Solid, balls: readonly Ball[], poll?: Poll): Clipped | null {
  const left = cutOut(solid, balls, poll);
  return left && { solid: left, farthest: farthestOfPieces(left.positions, [left.indices], balls, poll) };
}

/** Pieces to cut before polling: some milliseconds. */
const STRETCH = 2_000;

/** The surface that clipOutside leaves. Its first vertices are those of the solid. */
export function cutOut(solid: Pick<Solid, "positions" | "indices">, balls: readonly Ball[], poll?: Poll): Solid | null {
  const pacer = new Pacer(poll, STRETCH);
  const active = balls.filter((ball) => ball.radius_mm > 0);
  const { positions, indices } = solid;
  const weld = new VertexWeld(positions);
  const kept: number[] = [];
  let touched = false;
  for (let i = 0; i < indices.length; i += 3) {
    if (active.every((ball) => isBoxBeyond(positions, indices, i, ball))) {
      kept.push(indices[i]!, indices[i + 1]!, indices[i + 2]!);
      continue;
    }
    const triangle = [0, 1, 2].map((k) => vertexOf(positions, indices[i + k]!)) as unknown as Triangle;
    if (active.every((ball) => distanceToTriangle(ball.centre, triangle) >= ball.radius_mm)) {
      kept.push(indices[i]!, indices[i + 1]!, indices[i + 2]!);
      continue;
    }
    touched = true;
    for (let k = 0; k < 3; k++) weld.know(indices[i + k]!);
    let pieces: Triangle[] = [triangle];
    for (const ball of active) pieces = pieces.flatMap((piece) => cutBall(piece, ball));
    pacer.spend(1 + pieces.length);
    for (const piece of pieces) {
      const [p, q, r] = piece.map((corner) => weld.at(corner)) as [number, number, number];
      if (p !== q && q !== r && r !== p) kept.push(p, q, r);
    }
  }
  if (!touched) return null;
  return {
    positions: weld.positions(),
    indices: Uint32Array.from(kept),
    shells: [{ firstTriangle: 0, triangleCount: kept.length / 3, closed: false }],
    convexPieces: null,
  };
}

/** Whether the box of a triangle lies at the ball's radius or beyond: most triangles are told by that. */
function isBoxBeyond(positions: Float32Array, indices: Uint32Array, at: number, { centre, radius_mm }: Ball): boolean {
  const a = 3 * indices[at]!;
  const b = 3 * indices[at + 1]!;
  const c = 3 * indices[at + 2]!;
  let squared = 0;
  for (let axis = 0; axis < 3; axis++) {
    const p = positions[a + axis]!;
    const q = positions[b + axis]!;
    const r = positions[c + axis]!;
    const away = Math.max(Math.min(p, q, r) - centre[axis]!, centre[axis]! - Math.max(p, q, r), 0);
    squared += away * away;
  }
  return squared >= radius_mm * radius_mm;
}

function vertexOf(positions: Float32Array, vertex: number): Vec3 {
  return [positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!];
}

/** What is left of a triangle. */
function cutBall(triangle: Triangle, ball: Ball): Triangle[] {
  const { centre, radius_mm } = ball;
  const radii = triangle.map((corner) => distanceTo(corner, centre));
  if (radii.every((radius) => radius < radius_mm)) return [];
  if (distanceToTriangle(centre, triangle) >= radius_mm) return [triangle];
  const [p, q, r] = triangle;
  const sides = [distanceTo(p, q), distanceTo(q, r), distanceTo(r, p)] as const;
  const side = sides[0] >= sides[1] && sides[0] >= sides[2] ? 0 : sides[1] >= sides[2] ? 1 : 2;
  if (sides[side] <= Math.sqrt(3 * radius_mm * RIM_mm)) {
    const outline = outsideOf(triangle, radii, centre, radius_mm);
    return outline.slice(2).map((corner, i) => [outline[0]!, outline[i + 1]!, corner]);
  }
  const from = triangle[side]!;
  const to = triangle[(side + 1) % 3]!;
  const opposite = triangle[(side + 2) % 3]!;
  const middle = between(from, to, 0.5);
  return [...cutBall([from, middle, opposite], ball), ...cutBall([middle, to, opposite], ball)];
}

export type Triangle = readonly [Vec3, Vec3, Vec3];

/** The triangle without its corners inside the sphere, cut straight where the edges pass it; in the same sense of turning. */
function outsideOf(triangle: Triangle, radii: readonly number[], centre: Vec3, radius: number): Vec3[] {
  const outline: Vec3[] = [];
  for (let i = 0; i < 3; i++) {
    const j = (i + 1) % 3;
    const from = triangle[i]!;
    const to = triangle[j]!;
    const fromOut = radii[i]! >= radius;
    if (fromOut) outline.push(from);
    if (fromOut !== radii[j]! >= radius) outline.push(passing(from, to, fromOut, centre, radius));
  }
  return outline;
}

/** Where the edge passes the sphere, of whose ends one is inside: the root of |from + s·(to − from) − centre|² = r² between. */
function passing(from: Vec3, to: Vec3, fromOut: boolean, centre: Vec3, radius: number): Vec3 {
  let a = 0;
  let b = 0;
  let c = -radius * radius;
  for (let k = 0; k < 3; k++) {
    const d = to[k]! - from[k]!;
    const e = from[k]! - centre[k]!;
    a += d * d;
    b += d * e;
    c += e * e;
  }
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  // leaving the sphere is the larger root, entering it the smaller
  const s = (fromOut ? -b - root : -b + root) / a;
  return between(from, to, Math.min(1, Math.max(0, s)));
}

function between(from: Vec3, to: Vec3, s: number): Vec3 {
  return [from[0] + (to[0] - from[0]) * s, from[1] + (to[1] - from[1]) * s, from[2] + (to[2] - from[2]) * s];
}

function distanceTo(a: Vec3, b: Vec3): number {
  const x = a[0] - b[0];
  const y = a[1] - b[1];
  const z = a[2] - b[2];
  return Math.sqrt(x * x + y * y + z * z);
}

/** Distance from a point to a triangle: to its plane if the foot lies within, else to the nearest edge. */
export function distanceToTriangle(point: Vec3, [a, b, c]: Triangle): number {
  const n = normalOf(a, b, c);
  const size = Math.hypot(...n);
  if (size > 0) {
    const inside = [
      [a, b],
      [b, c],
      [c, a],
    ].every(([from, to]) => {
      const side = normalOf(from!, to!, point);
      return side[0] * n[0] + side[1] * n[1] + side[2] * n[2] >= 0;
    });
    if (inside) {
      const height = (point[0] - a[0]) * n[0] + (point[1] - a[1]) * n[1] + (point[2] - a[2]) * n[2];
      return Math.abs(height) / size;
    }
  }
  return Math.min(distanceToEdge(point, a, b), distanceToEdge(point, b, c), distanceToEdge(point, c, a));
}

function distanceToEdge(point: Vec3, a: Vec3, b: Vec3): number {
  let along = 0;
  let square = 0;
  for (let k = 0; k < 3; k++) {
    along += (point[k]! - a[k]!) * (b[k]! - a[k]!);
    square += (b[k]! - a[k]!) ** 2;
  }
  const s = square > 0 ? Math.min(1, Math.max(0, along / square)) : 0;
  return distanceTo(point, between(a, b, s));
}

/** (b − a) × (c − a) */
function normalOf(a: Vec3, b: Vec3, c: Vec3): [number, number, number] {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [vx, vy, vz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  return [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
}
