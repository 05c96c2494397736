import type { Solid } from "../geometry/solid.ts";

/**
 * How far any point of a body is moved by being drawn anew with the same triangles, mm: a point of a triangle is moved by
 * a mean of what its corners are, so no farther than one of them; likewise a convex piece by its points. Null if the two have
 * not the same numbers of corners and of pieces' points.
 */
export function farthestRedrawn(before: Solid, after: Solid): number | null {
  const [piecesBefore, piecesAfter] = [before.convexPieces ?? [], after.convexPieces ?? []];
  if (piecesBefore.length !== piecesAfter.length) return null;
  let farthest = farthestPoint(before.positions, after.positions);
  piecesBefore.forEach((piece, i) => {
    // pieces are often the very arrays of the solid
    if (piece === before.positions && piecesAfter[i] === after.positions) return;
    farthest = Math.max(farthest, farthestPoint(piece, piecesAfter[i]!));
  });
  return farthest < Number.POSITIVE_INFINITY ? farthest : null;
}

function farthestPoint(p: Float32Array, q: Float32Array): number {
  if (p.length !== q.length) return Number.POSITIVE_INFINITY;
  let farthest = 0;
  for (let i = 0; i < p.length; i += 3) {
    const x = q[i]! - p[i]!;
    const y = q[i + 1]! - p[i + 1]!;
    const z = q[i + 2]! - p[i + 2]!;
    const squared = x * x + y * y + z * z;
    if (squared > farthest) farthest = squared;
  }
  return Math.sqrt(farthest);
}
