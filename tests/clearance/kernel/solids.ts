import type { Solid } from "../../../src/geometry/solid.ts";
import type { Vec3 } from "../../../src/maths/vec3.ts";

/**
 * A ring of revolution about Y: the closed outline of [radius, y] points (counter-clockwise with radius to the right, y up)
 * turned in `segments` steps. One closed shell; its convex pieces are not known.
 */
export function ring(outline: readonly (readonly [number, number])[], segments: number): Solid {
  const points: Vec3[] = [];
  for (let s = 0; s < segments; s++) {
    const angle = (2 * Math.PI * s) / segments;
    for (const [radius, y] of outline) points.push([radius * Math.cos(angle), y, -radius * Math.sin(angle)]);
  }
  const n = outline.length;
  const triangles: number[][] = [];
  for (let s = 0; s < segments; s++) {
    const next = (s + 1) % segments;
    for (let k = 0; k < n; k++) {
      const after = (k + 1) % n;
      const [p, q, r, t] = [s * n + k, s * n + after, next * n + after, next * n + k];
      triangles.push([p, r, q], [p, t, r]);
    }
  }
  return oneShell(points, triangles);
}

function oneShell(points: readonly Vec3[], triangles: readonly (readonly number[])[]): Solid {
  return {
    positions: Float32Array.from(points.flat()),
    indices: Uint32Array.from(triangles.flat()),
    shells: [{ firstTriangle: 0, triangleCount: triangles.length, closed: true }],
    convexPieces: null,
  };
}

/** The same surface facing the other way: the wall of a hollow. */
export function insideOut(solid: Solid): Solid {
  const indices = Uint32Array.from(solid.indices);
  for (let k = 0; k < indices.length; k += 3) [indices[k + 1], indices[k + 2]] = [indices[k + 2]!, indices[k + 1]!];
  return { ...solid, indices };
}

/** Several solids as one, shell after shell. */
export function together(...solids: readonly Solid[]): Solid {
  let vertices = 0;
  let triangles = 0;
  const indices: number[] = [];
  const shells = solids.flatMap((solid) => {
    indices.push(...Array.from(solid.indices, (vertex) => vertex + vertices));
    const moved = solid.shells.map((shell) => ({ ...shell, firstTriangle: shell.firstTriangle + triangles }));
    vertices += solid.positions.length / 3;
    triangles += solid.indices.length / 3;
    return moved;
  });
  const pieces = solids.map((solid) => solid.convexPieces);
  return {
    positions: Float32Array.from(solids.flatMap((solid) => Array.from(solid.positions))),
    indices: Uint32Array.from(indices),
    shells,
    convexPieces: pieces.every((list) => list !== null) ? pieces.flat() : null,
  };
}

/** Volume by the divergence theorem: positive when the surface faces outwards. */
export function volumeOf({ positions: p, indices }: Solid): number {
  let sum = 0;
  for (let k = 0; k < indices.length; k += 3) {
    const [a, b, c] = [3 * indices[k]!, 3 * indices[k + 1]!, 3 * indices[k + 2]!];
    sum +=
      p[a]! * (p[b + 1]! * p[c + 2]! - p[b + 2]! * p[c + 1]!) +
      p[a + 1]! * (p[b + 2]! * p[c]! - p[b]! * p[c + 2]!) +
      p[a + 2]! * (p[b]! * p[c + 1]! - p[b + 1]! * p[c]!);
  }
  return sum / 6;
}
