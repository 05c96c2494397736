import type { Lattice } from "./field.ts";

/** A closed surface; normals are unit vectors, one a vertex. */
export interface LevelSurface {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
}

/** Offsets of a cube's corners: bit 0 is x, bit 1 y, bit 2 z. */
const EDGES = [1, 2, 4, 3, 5, 6, 7] as const;
/** Number of each offset among EDGES. */
const EDGE_NUMBER = [-1, 0, 1, 3, 2, 4, 5, 6];

/** The six tetrahedra round a cube's diagonal (Kuhn): each goes from corner 0 to 7 along the axes in another order. */
const TETRAHEDRA: readonly (readonly [number, number, number, number])[] = [
  [0, 1, 3, 7],
  [0, 1, 5, 7],
  [0, 2, 3, 7],
  [0, 2, 6, 7],
  [0, 4, 5, 7],
  [0, 4, 6, 7],
];

/** Vertices keep this share of an edge from its ends, so that no triangle loses its area. */
const FROM_END = 1e-4;

/**
 * The surface on which the field, linear within each tetrahedron, has the value `level_mm`; what lies below it is inside.
 * Closed and manifold, as neighbouring cubes divide the face between them alike; the field must be above the level on the
 * border. Each edge of the lattice that crosses the level has one vertex. Yields the share done.
 */
export function* levelSurface(
  field: Float32Array,
  lattice: Lattice,
  level_mm: number,
): Generator<number, LevelSurface> {
  const { low, spacing_mm, counts } = lattice;
  const [nx, ny, nz] = counts;
  const rows = nx * ny;
  const offsets = Array.from({ length: 8 }, (_, c) => (c & 1) + nx * ((c >> 1) & 1) + rows * (c >> 2));
  const steepest_mm = level_mm + 2 * spacing_mm;
  const positions: number[] = [];
  const normals: number[] = [];
  const indices: number[] = [];
  // vertices of the layer being walked and the one above it: no edge reaches farther
  let known = new Map<number, number>();
  let above = new Map<number, number>();

  const value = (node: number): number => Math.min(field[node]!, steepest_mm);
  const slope = (node: number, step: number, at: number, count: number): number => {
    const back = at > 0 ? value(node - step) : value(node);
    const ahead = at < count - 1 ? value(node + step) : value(node);
    return ahead - back;
  };
  const vertexOf = (a: number, b: number): number => {
    const [from, to] = a < b ? [a, b] : [b, a];
    const span = to - from;
    const edge = EDGE_NUMBER[offsets.indexOf(span)]!;
    const key = from * 7 + edge;
    const shelf = from >= layerEnd ? above : known;
    let vertex = shelf.get(key);
    if (vertex !== undefined) return vertex;
    const [va, vb] = [field[from]!, field[to]!];
    const t = Math.min(1 - FROM_END, Math.max(FROM_END, (level_mm - va) / (vb - va)));
    const step = EDGES[edge]!;
    const [i, j, k] = [from % nx, Math.floor(from / nx) % ny, Math.floor(from / rows)];
    vertex = positions.length / 3;
    positions.push(
      low[0] + spacing_mm * (i + (step & 1) * t),
      low[1] + spacing_mm * (j + ((step >> 1) & 1) * t),
      low[2] + spacing_mm * (k + (step >> 2) * t),
    );
    const [ti, tj, tk] = [to % nx, Math.floor(to / nx) % ny, Math.floor(to / rows)];
    const x = slope(from, 1, i, nx) * (1 - t) + slope(to, 1, ti, nx) * t;
    const y = slope(from, nx, j, ny) * (1 - t) + slope(to, nx, tj, ny) * t;
    const z = slope(from, rows, k, nz) * (1 - t) + slope(to, rows, tk, nz) * t;
    const size = Math.hypot(x, y, z) || 1;
    normals.push(x / size, y / size, z / size);
    shelf.set(key, vertex);
    return vertex;
  };
  /** A triangle whose front looks along `way`, which leads out of the surface. */
  const triangle = (a: number, b: number, c: number, way: readonly [number, number, number]): void => {
    const p = (vertex: number, axis: number) => positions[3 * vertex + axis]!;
    const [ux, uy, uz] = [p(b, 0) - p(a, 0), p(b, 1) - p(a, 1), p(b, 2) - p(a, 2)];
    const [vx, vy, vz] = [p(c, 0) - p(a, 0), p(c, 1) - p(a, 1), p(c, 2) - p(a, 2)];
    const out = (uy * vz - uz * vy) * way[0] + (uz * vx - ux * vz) * way[1] + (ux * vy - uy * vx) * way[2];
    if (out >= 0) indices.push(a, b, c);
    else indices.push(a, c, b);
  };

  const inside: number[] = [];
  const outside: number[] = [];
  let layerEnd = 0;
  for (let k = 0; k < nz - 1; k++) {
    layerEnd = (k + 1) * rows;
    for (let j = 0; j < ny - 1; j++) {
      for (let i = 0; i < nx - 1; i++) {
        const node = i + nx * j + rows * k;
        let below = 0;
        for (let c = 0; c < 8; c++) if (field[node + offsets[c]!]! < level_mm) below++;
        if (below === 0 || below === 8) continue;
        for (const corners of TETRAHEDRA) {
          inside.length = 0;
          outside.length = 0;
          let [x, y, z] = [0, 0, 0];
          for (const corner of corners) {
            const isIn = field[node + offsets[corner]!]! < level_mm;
            (isIn ? inside : outside).push(corner);
          }
          if (inside.length === 0 || outside.length === 0) continue;
          for (const corner of corners) {
            const weight = inside.includes(corner) ? -1 / inside.length : 1 / outside.length;
            x += weight * (corner & 1);
            y += weight * ((corner >> 1) & 1);
            z += weight * (corner >> 2);
          }
          const cut = (a: number, b: number) => vertexOf(node + offsets[a]!, node + offsets[b]!);
          const way = [x, y, z] as const;
          if (inside.length === 2) {
            const [a, b] = inside as [number, number];
            const [c, d] = outside as [number, number];
            const [ac, ad, bd, bc] = [cut(a, c), cut(a, d), cut(b, d), cut(b, c)];
            triangle(ac, ad, bd, way);
            triangle(ac, bd, bc, way);
          } else {
            const [alone, others] = inside.length === 1 ? [inside[0]!, outside] : [outside[0]!, inside];
            triangle(cut(alone, others[0]!), cut(alone, others[1]!), cut(alone, others[2]!), way);
          }
        }
      }
      if (j % 16 === 15) yield k / nz;
    }
    known = above;
    above = new Map();
  }
  return {
    positions: Float32Array.from(positions),
    normals: Float32Array.from(normals),
    indices: Uint32Array.from(indices),
  };
}
