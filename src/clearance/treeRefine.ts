import type { Solid } from "../geometry/solid.ts";
import type { Pacer } from "../maths/poll.ts";

/** Longer edges are halved: halves the triangle tests of distance queries; finer cuts cost more than they save. */
const LONGEST_EDGE_mm = 150;
/** How long edges may become when vertices move, before they are worth halving anew. */
const STRETCHED_EDGE_mm = 180;

/** Loose triangles over shared vertices. */
export interface TriangleSoup {
  /** The two vertices between which each middle of an edge lies; middles are numbered on from the solid's vertices. */
  readonly halved: Uint32Array;
  /** 3 vertices a triangle. */
  readonly corners: Uint32Array;
  /** The solid's triangle of which each is (part of). */
  readonly original: Uint32Array;
}

/**
 * The solid's triangles with every edge over 150 mm halved (longest first) until none is left. Whether and where an edge
 * is halved depends on that edge alone, so neighbours still share whole edges.
 */
export function refineLongEdges({ positions, indices }: Solid, pacer: Pacer): TriangleSoup {
  const source = indices.length / 3;
  const limit = LONGEST_EDGE_mm ** 2;
  if (longestSquare(positions, indices, pacer) <= limit) {
    return { halved: new Uint32Array(), corners: indices, original: indices.slice(0, source).map((_, i) => i) };
  }
  const vertices = Array.from(positions);
  const halved: number[] = [];
  const corners = new NumberList(4 * indices.length);
  const original = new NumberList(4 * source);
  const pending: number[] = [];
  for (let triangle = 0; triangle < source; triangle++) {
    for (let k = 0; k < 3; k++) pending.push(indices[3 * triangle + k]!);
    while (pending.length > 0) {
      pacer.spend(1);
      const c = pending.pop()!;
      const b = pending.pop()!;
      const a = pending.pop()!;
      const ab = squareBetween(vertices, a, b);
      const bc = squareBetween(vertices, b, c);
      const ca = squareBetween(vertices, c, a);
      const longest = Math.max(ab, bc, ca);
      if (!(longest > limit)) {
        corners.push(a);
        corners.push(b);
        corners.push(c);
        original.push(triangle);
        continue;
      }
      // the long edge from p to q, and the corner across from it
      const [p, q, r] = longest === ab ? [a, b, c] : longest === bc ? [b, c, a] : [c, a, b];
      const middle = vertices.length / 3;
      for (let k = 0; k < 3; k++) vertices.push((vertices[3 * p + k]! + vertices[3 * q + k]!) / 2);
      halved.push(p, q);
      pending.push(p, middle, r, middle, q, r);
    }
  }
  return { halved: Uint32Array.from(halved), corners: corners.values(), original: original.values() };
}

/** 3 coordinates a vertex: the solid's, then the middles of halved edges. */
export function verticesOf(positions: Float32Array, halved: Uint32Array): Float64Array {
  const vertices = new Float64Array(positions.length + 1.5 * halved.length);
  vertices.set(positions);
  let to = positions.length;
  for (let i = 0; i < halved.length; i += 2) {
    const p = 3 * halved[i]!;
    const q = 3 * halved[i + 1]!;
    for (let k = 0; k < 3; k++) vertices[to++] = (vertices[p + k]! + vertices[q + k]!) / 2;
  }
  return vertices;
}

/** Whether an edge has become so long that it should be halved anew. Halved or not, neighbours share whole edges all the same. */
export function isStretched(vertices: Float64Array, corners: Uint32Array, pacer: Pacer): boolean {
  return longestSquare(vertices, corners, pacer) > STRETCHED_EDGE_mm ** 2;
}

/** The square of the longest edge. */
function longestSquare(vertices: ArrayLike<number>, corners: Uint32Array, pacer: Pacer): number {
  let longest = 0;
  for (let i = 0; i < corners.length; i += 3) {
    pacer.spend(1);
    const a = corners[i]!;
    const b = corners[i + 1]!;
    const c = corners[i + 2]!;
    const square = Math.max(
      squareBetween(vertices, a, b),
      squareBetween(vertices, b, c),
      squareBetween(vertices, c, a),
    );
    if (square > longest) longest = square;
  }
  return longest;
}

function squareBetween(vertices: ArrayLike<number>, p: number, q: number): number {
  const x = vertices[3 * p]! - vertices[3 * q]!;
  const y = vertices[3 * p + 1]! - vertices[3 * q + 1]!;
  const z = vertices[3 * p + 2]! - vertices[3 * q + 2]!;
  return x * x + y * y + z * z;
}

/** Words in a row, as many as come. */
class NumberList {
  private words: Uint32Array;
  private length = 0;

  constructor(room: number) {
    this.words = new Uint32Array(room);
  }

  push(value: number): void {
    if (this.length === this.words.length) {
      const wider = new Uint32Array(2 * this.length + 16);
      wider.set(this.words);
      this.words = wider;
    }
    this.words[this.length++] = value;
  }

  values(): Uint32Array {
    return this.words.slice(0, this.length);
  }
}
