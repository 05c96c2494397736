import type { Vec3 } from "../maths/vec3.ts";
import type { Solid } from "./solid.ts";

/** Gathers vertices and triangles of one closed surface, then freezes them as a solid of a single shell. */
export class MeshBuilder {
  readonly #positions: number[] = [];
  readonly #indices: number[] = [];

  /** Index of the new vertex. */
  vertex(p: Vec3): number {
    return this.#positions.push(p[0], p[1], p[2]) / 3 - 1;
  }

  /** Indices of the new vertices, in order. */
  ring(points: readonly Vec3[]): number[] {
    return points.map((p) => this.vertex(p));
  }

  /** Counter-clockwise seen from outside. Corners that coincide make no triangle: collapsed faces vanish. */
  triangle(a: number, b: number, c: number): void {
    if (a !== b && b !== c && c !== a) this.#indices.push(a, b, c);
  }

  quad(a: number, b: number, c: number, d: number): void {
    this.triangle(a, b, c);
    this.triangle(a, c, d);
  }

  /**
   * The band between two rings of equally many vertices that both run counter-clockwise about the direction from
   * `first` to `second`; its outside faces away from that axis.
   */
  band(first: readonly number[], second: readonly number[]): void {
    const n = first.length;
    for (let i = 0; i < n; i++) {
      const next = i + 1 < n ? i + 1 : 0;
      this.quad(first[i]!, first[next]!, second[next]!, second[i]!);
    }
  }

  /**
   * Closes a convex ring that runs counter-clockwise seen from outside with n − 2 triangles, halving the ring again
   * and again: no slivers as a fan from one corner would give.
   */
  cap(ring: readonly number[]): void {
    this.#capBetween(ring, 0, ring.length - 1);
  }

  #capBetween(ring: readonly number[], from: number, to: number): void {
    if (to - from < 2) return;
    const middle = (from + to) >> 1;
    this.triangle(ring[from]!, ring[middle]!, ring[to]!);
    this.#capBetween(ring, from, middle);
    this.#capBetween(ring, middle, to);
  }

  /** A solid whose one convex piece is the hull of all vertices. */
  convexSolid(): Solid {
    const positions = Float32Array.from(this.#positions);
    return this.#freeze(positions, [positions]);
  }

  solid(convexPieces: readonly Float32Array[] | null): Solid {
    return this.#freeze(Float32Array.from(this.#positions), convexPieces);
  }

  #freeze(positions: Float32Array, convexPieces: readonly Float32Array[] | null): Solid {
    return {
      positions,
      indices: Uint32Array.from(this.#indices),
      shells: [{ firstTriangle: 0, triangleCount: this.#indices.length / 3, closed: true }],
      convexPieces,
    };
  }
}

/** Coordinates of points as one cloud, the form of a convex piece. */
export function cloudOf(...rings: readonly (readonly Vec3[])[]): Float32Array {
  const cloud = new Float32Array(3 * rings.reduce((sum, ring) => sum + ring.length, 0));
  let at = 0;
  for (const ring of rings) {
    for (const [x, y, z] of ring) {
      cloud[at++] = x;
      cloud[at++] = y;
      cloud[at++] = z;
    }
  }
  return cloud;
}
