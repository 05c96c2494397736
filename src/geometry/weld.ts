import type { Solid } from "./solid.ts";

/**
 * An indexed mesh from loose triangles (9 coordinates each): corners with equal coordinates become one vertex; triangles
 * without area and second copies of a triangle (either way round) go.
 */
export function weld(corners: Float32Array): Pick<Solid, "positions" | "indices"> {
  const { positions, vertexOf } = mergeCorners(corners);
  const indices = new Uint32Array(vertexOf.length);
  const seen = new TripleSet(vertexOf.length / 3);
  let kept = 0;
  for (let i = 0; i < vertexOf.length; i += 3) {
    const [a, b, c] = [vertexOf[i]!, vertexOf[i + 1]!, vertexOf[i + 2]!];
    if (a === b || b === c || c === a || isFlat(positions, a, b, c) || !seen.add(a, b, c)) continue;
    indices[kept++] = a;
    indices[kept++] = b;
    indices[kept++] = c;
  }
  return withoutUnused(positions, indices.slice(0, kept));
}

function mergeCorners(corners: Float32Array): { positions: Float32Array; vertexOf: Uint32Array } {
  const values = corners.map((value) => value + 0); // −0 becomes 0
  const bits = new Uint32Array(values.buffer);
  const count = corners.length / 3;
  const slots = 2 ** Math.ceil(Math.log2(Math.max(16, 2 * count)));
  const vertexAt = new Int32Array(slots).fill(-1);
  const vertexOf = new Uint32Array(count);
  const firstCorner = new Uint32Array(count);
  let vertices = 0;
  for (let corner = 0; corner < count; corner++) {
    const at = 3 * corner;
    let slot = hash(bits[at]!, bits[at + 1]!, bits[at + 2]!);
    for (slot &= slots - 1; ; slot = (slot + 1) & (slots - 1)) {
      const vertex = vertexAt[slot]!;
      if (vertex < 0) {
        vertexAt[slot] = vertices;
        firstCorner[vertices] = corner;
        vertexOf[corner] = vertices++;
        break;
      }
      const known = 3 * firstCorner[vertex]!;
      if (bits[known] === bits[at] && bits[known + 1] === bits[at + 1] && bits[known + 2] === bits[at + 2]) {
        vertexOf[corner] = vertex;
        break;
      }
    }
  }
  const positions = new Float32Array(3 * vertices);
  for (let vertex = 0; vertex < vertices; vertex++) {
    const at = 3 * firstCorner[vertex]!;
    for (let k = 0; k < 3; k++) positions[3 * vertex + k] = values[at + k]!;
  }
  return { positions, vertexOf };
}

/** Whether the corners lie on one line as exactly as float64 can tell. */
export function isFlat(p: Float32Array, a: number, b: number, c: number): boolean {
  const [i, j, k] = [3 * a, 3 * b, 3 * c];
  const [ux, uy, uz] = [p[j]! - p[i]!, p[j + 1]! - p[i + 1]!, p[j + 2]! - p[i + 2]!];
  const [vx, vy, vz] = [p[k]! - p[i]!, p[k + 1]! - p[i + 1]!, p[k + 2]! - p[i + 2]!];
  const twiceArea = Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
  return twiceArea <= 1e-12 * Math.hypot(ux, uy, uz) * Math.hypot(vx, vy, vz);
}

/** Only the vertices that are used, in the order of their first use; `indices` is rewritten and kept. */
export function withoutUnused(positions: Float32Array, indices: Uint32Array): Pick<Solid, "positions" | "indices"> {
  const renamed = new Int32Array(positions.length / 3).fill(-1);
  const kept = new Float32Array(positions.length);
  let count = 0;
  for (const [i, vertex] of indices.entries()) {
    if (renamed[vertex]! < 0) {
      for (let k = 0; k < 3; k++) kept[3 * count + k] = positions[3 * vertex + k]!;
      renamed[vertex] = count++;
    }
    indices[i] = renamed[vertex]!;
  }
  return { positions: kept.slice(0, 3 * count), indices };
}

/** Sets of three vertices, whatever their order. */
class TripleSet {
  readonly #slots: number;
  readonly #triples: Uint32Array;

  constructor(capacity: number) {
    this.#slots = 2 ** Math.ceil(Math.log2(Math.max(16, 2 * capacity)));
    this.#triples = new Uint32Array(3 * this.#slots);
  }

  /** false when it was there already. */
  add(a: number, b: number, c: number): boolean {
    const low = Math.min(a, b, c);
    const high = Math.max(a, b, c);
    const middle = a + b + c - low - high;
    const triples = this.#triples;
    let slot = hash(low, middle, high) & (this.#slots - 1);
    // three different vertices never end in 0, which marks a free slot
    for (; triples[3 * slot + 2] !== 0; slot = (slot + 1) & (this.#slots - 1)) {
      const at = 3 * slot;
      if (triples[at] === low && triples[at + 1] === middle && triples[at + 2] === high) return false;
    }
    triples[3 * slot] = low;
    triples[3 * slot + 1] = middle;
    triples[3 * slot + 2] = high;
    return true;
  }
}

function hash(a: number, b: number, c: number): number {
  const mixed = Math.imul(Math.imul(Math.imul(a, 0x9e3779b1) ^ b, 0x85ebca6b) ^ c, 0xc2b2ae35);
  return (mixed ^ (mixed >>> 15)) >>> 0;
}
