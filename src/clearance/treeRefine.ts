import type { Solid } from "../geometry/solid.ts";
import type { Pacer } from "../maths/poll.ts";

/** Longer edges are halved: halves the triangle tests of distance queries; finer cuts cost more than they save. */
const LONGEST_EDGE_mm = 150;
const LIMIT = LONGEST_EDGE_mm ** 2;
/** A triangle is a needle if its longest edge is so many times its shortest. */
const NEEDLE = 4;

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
 * The solid's triangles with every edge over 150 mm halved until none is left: of most the longest edge first, of needles both
 * long edges at once. Whether and where an edge is halved depends on that edge alone, so neighbours still share whole edges.
 */
export function refineLongEdges(solid: Solid, pacer: Pacer): TriangleSoup {
  const { indices } = solid;
  const source = indices.length / 3;
  if (isShort(solid, pacer)) {
    return { halved: new Uint32Array(), corners: indices, original: indices.slice(0, source).map((_, i) => i) };
  }
  return new Cutter(solid).cut(pacer);
}

/** Whether no edge is too long. */
function isShort({ positions, indices }: Solid, pacer: Pacer): boolean {
  return longestSquare(positions, indices, pacer) <= LIMIT;
}

class Cutter {
  private readonly indices: Uint32Array;
  private readonly vertices: number[];
  private readonly halved: number[] = [];
  private readonly corners: NumberList;
  private readonly original: NumberList;
  /** Triangles still to be looked at, three vertices each. */
  private readonly pending: number[] = [];

  constructor({ positions, indices }: Solid) {
    this.indices = indices;
    this.vertices = Array.from(positions);
    this.corners = new NumberList(4 * indices.length);
    this.original = new NumberList((4 * indices.length) / 3);
  }

  cut(pacer: Pacer): TriangleSoup {
    const { indices, pending, halved, corners, original } = this;
    for (let triangle = 0; triangle < indices.length / 3; triangle++) {
      for (let k = 0; k < 3; k++) pending.push(indices[3 * triangle + k]!);
      while (pending.length > 0) {
        pacer.spend(1);
        const c = pending.pop()!;
        const b = pending.pop()!;
        const a = pending.pop()!;
        if (this.divide(a, b, c)) continue;
        corners.push(a);
        corners.push(b);
        corners.push(c);
        original.push(triangle);
      }
    }
    return { halved: Uint32Array.from(halved), corners: corners.values(), original: original.values() };
  }

  /** Parts of the triangle are pending then; false if none of its edges is too long. */
  private divide(a: number, b: number, c: number): boolean {
    const ab = squareBetween(this.vertices, a, b);
    const bc = squareBetween(this.vertices, b, c);
    const ca = squareBetween(this.vertices, c, a);
    const longest = Math.max(ab, bc, ca);
    if (!(longest > LIMIT)) return false;
    // the long edge from p to q, and the corner across from it
    const [p, q, r] = longest === ab ? [a, b, c] : longest === bc ? [b, c, a] : [c, a, b];
    const pr = squareBetween(this.vertices, p, r);
    const qr = squareBetween(this.vertices, q, r);
    if (NEEDLE * NEEDLE * Math.min(pr, qr) > longest) {
      const middle = this.halve(p, q);
      this.pending.push(p, middle, r, middle, q, r);
    } else if (qr < pr) this.divideStrip(p, p, q, r);
    else this.divideStrip(q, q, r, p);
    return true;
  }

  /**
   * Halves the strip between the edges p0-p1 and q0-q1 across as long as both are too long; its ends are short edges, or at p0 =
   * q0 a single vertex. Halved along one edge at a time a needle would become four of the same proportions.
   */
  private divideStrip(p0: number, q0: number, p1: number, q1: number): void {
    const longP = squareBetween(this.vertices, p0, p1) > LIMIT;
    const longQ = squareBetween(this.vertices, q0, q1) > LIMIT;
    if (longP && longQ) {
      const p = this.halve(p0, p1);
      const q = this.halve(q0, q1);
      this.divideStrip(p0, q0, p, q);
      this.divideStrip(p, q, p1, q1);
    } else if (p0 === q0 && (longP || longQ)) {
      const [from, to, across] = longP ? [p0, p1, q1] : [q1, q0, p1];
      const middle = this.halve(from, to);
      this.pending.push(from, middle, across, middle, to, across);
    } else {
      this.pending.push(p0, p1, q1);
      if (p0 !== q0) this.pending.push(p0, q1, q0);
    }
  }

  private halve(p: number, q: number): number {
    const { vertices } = this;
    const middle = vertices.length / 3;
    for (let k = 0; k < 3; k++) vertices.push((vertices[3 * p + k]! + vertices[3 * q + k]!) / 2);
    this.halved.push(p, q);
    return middle;
  }
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

/** Whether a solid with other places would be cut in just the same way. */
export function isCutAlike(solid: Solid, halved: Uint32Array, pacer: Pacer): boolean {
  if (halved.length === 0) return isShort(solid, pacer);
  const now = new Cutter(solid).cut(pacer).halved;
  return now.length === halved.length && now.every((vertex, i) => vertex === halved[i]);
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
