import type { Solid } from "../geometry/solid.ts";
import { Pacer, type Poll } from "../maths/poll.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { BallCutter, isWithin } from "./excuseCut.ts";
import { farthestOfPieces } from "./excusePieces.ts";
import { VertexWeld } from "./excuseWeld.ts";

/** A ball in a body's design position within which its surface does not count. */
export interface Ball {
  readonly centre: Vec3;
  readonly radius_mm: number;
}

/** What is left of a body's surface outside the balls. */
export interface Clipped {
  /** One open shell; may have no triangles. */
  readonly solid: Solid;
  /** 3·k coordinates: of each connected piece of what is left the corner farthest from the balls. */
  readonly farthest: Float64Array;
}

/** Cuts the balls out of a body's surface, as BallCutter cuts them. Null if the balls touch no triangle. */
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
  const cutter = new BallCutter();
  const triangle = new Float64Array(9);
  const kept: number[] = [];
  let touched = false;
  for (let i = 0; i < indices.length; i += 3) {
    if (isBeyond(positions, indices, i, active, triangle)) {
      kept.push(indices[i]!, indices[i + 1]!, indices[i + 2]!);
      continue;
    }
    touched = true;
    for (let k = 0; k < 3; k++) weld.know(indices[i + k]!);
    cutter.cut(triangle, active);
    const { coordinates, count } = cutter.left;
    pacer.spend(1 + count);
    for (let at = 0; at < 9 * count; at += 9) {
      const p = weld.at(coordinates[at]!, coordinates[at + 1]!, coordinates[at + 2]!);
      const q = weld.at(coordinates[at + 3]!, coordinates[at + 4]!, coordinates[at + 5]!);
      const r = weld.at(coordinates[at + 6]!, coordinates[at + 7]!, coordinates[at + 8]!);
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

/** Whether no ball touches the triangle whose indices begin at `at`; where its box does not tell, its corners are in `triangle` then. */
function isBeyond(
  positions: Float32Array,
  indices: Uint32Array,
  at: number,
  balls: readonly Ball[],
  triangle: Float64Array,
): boolean {
  if (balls.every((ball) => isBoxBeyond(positions, indices, at, ball))) return true;
  for (let k = 0; k < 9; k++) triangle[k] = positions[3 * indices[at + Math.floor(k / 3)]! + (k % 3)]!;
  return balls.every(({ centre, radius_mm }) => !isWithin(triangle, 0, centre, radius_mm));
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
