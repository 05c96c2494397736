import type { CollisionTree } from "./kernel.ts";
import type { ClearanceField } from "./patchField.ts";
import { PatchVertices } from "./patchVertices.ts";
import type { Surface } from "./surface.ts";
import type { PatchMesh } from "./types.ts";

/** Edges within a patch are at most this long, mm: colours change smoothly. */
const COARSE_mm = 16;
/** Edges that the rim cuts are at most this long, mm. */
const CUT_mm = 4;
/** Where the rim is still in doubt, edges get this short, mm. */
const FINE_mm = 1;
/** How far the rim may be off, mm, by what a triangle's clearance differs from a linear one. */
const RIM_mm = 0.25;
/** How far the clearance may differ from a linear one within the patch: so many mm, or so much of it if that is more. */
const COLOUR = { least_mm: 0.5, share: 0.1 };
/** Edges this short will do for colours anyhow, mm. */
const COLOUR_EDGE_mm = 4;
/** A triangle is a needle if its longest edge is so many times its shortest. */
const NEEDLE = 3;
/** A strip sliced off a needle is cut across until it is so many times as long as wide. */
const STRIP = 2;

/**
 * The part of a surface at which a field of clearance is below `required_mm`, cut along the line where it is just that.
 *
 * The clearance changes no faster than the point moves. So parts of the tree, and triangles, whose clearance at one point
 * exceeds the required one by more than their size are left out for certain; the rest is halved along longest edges,
 * until the clearance is linear enough within a triangle to cut it straight. The rim is right to 0.5 mm but for features
 * of the other body smaller than about 2 mm. Where the field hardly changes along the surface the place of its rim is
 * as unsure as the clearance itself divided by that slope.
 */
export function patchMesh(surface: Surface, field: ClearanceField, required_mm: number): PatchMesh {
  const builder = new PatchBuilder(field, required_mm);
  for (const tree of surface) addNearTriangles(builder, tree, field, required_mm);
  return builder.finish();
}

function addNearTriangles(
  builder: PatchBuilder,
  { nodeCount, boxes, radius, right, first, count, triangles }: CollisionTree,
  field: ClearanceField,
  required_mm: number,
): void {
  const stack = nodeCount > 0 ? [0] : [];
  for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
    // below nothing where the node is hidden
    const limit = required_mm + radius[node]!;
    if (limit <= 0 || field.at(boxes[6 * node]!, boxes[6 * node + 1]!, boxes[6 * node + 2]!, limit) >= limit) continue;
    if (right[node] !== 0) stack.push(right[node]!, node + 1);
    else for (let i = 0; i < count[node]!; i++) builder.addTriangle(triangles, 9 * (first[node]! + i));
  }
}

class PatchBuilder {
  private readonly required: number;
  private readonly vertices: PatchVertices;
  private readonly indices: number[] = [];
  /** Triangles that need no more refining, three vertices each. */
  private readonly leaves: number[] = [];
  private area = 0;

  constructor(field: ClearanceField, required_mm: number) {
    this.required = required_mm;
    // more tells nothing of a triangle with such an edge: it is left out, or not cut before it is smaller
    this.vertices = new PatchVertices(
      field,
      required_mm,
      (longest) => required_mm + Math.max(longest / Math.sqrt(3), CUT_mm),
    );
  }

  addTriangle(triangles: Float64Array, at: number): void {
    const [p, q, r] = [at, at + 3, at + 6];
    const longest = Math.max(gap(triangles, p, q), gap(triangles, q, r), gap(triangles, r, p));
    const cornerAt = (i: number) =>
      this.vertices.cornerAt(triangles[i]!, triangles[i + 1]!, triangles[i + 2]!, longest);
    this.refine(cornerAt(p), cornerAt(q), cornerAt(r));
  }

  /** Vertices that no triangle uses are left out. */
  finish(): PatchMesh {
    for (let i = 0; i < this.leaves.length; i += 3) {
      this.fit(this.leaves[i]!, this.leaves[i + 1]!, this.leaves[i + 2]!);
    }
    const { vertices } = this;
    /** New number of a vertex plus one. */
    const places = new Int32Array(vertices.clearance.length);
    const indices = new Uint32Array(this.indices.length);
    let used = 0;
    for (let i = 0; i < indices.length; i++) {
      const vertex = this.indices[i]!;
      if (places[vertex] === 0) places[vertex] = ++used;
      indices[i] = places[vertex]! - 1;
    }
    const positions = new Float32Array(3 * used);
    const clearance = new Float32Array(used);
    for (let vertex = 0; vertex < places.length; vertex++) {
      const place = places[vertex]! - 1;
      if (place < 0) continue;
      clearance[place] = vertices.clearance[vertex]!;
      for (let k = 0; k < 3; k++) positions[3 * place + k] = vertices.positions[3 * vertex + k]!;
    }
    return { positions, indices, clearance_mm: clearance, area_mm2: this.area };
  }

  private refine(a: number, b: number, c: number): void {
    const ab = this.vertices.squared(a, b);
    const bc = this.vertices.squared(b, c);
    const ca = this.vertices.squared(c, a);
    // the longest edge becomes a-b
    if (bc > ab && bc >= ca) this.halve(b, c, a, bc, bc >= ca + ab);
    else if (ca > ab) this.halve(c, a, b, ca, ca >= ab + bc);
    else this.halve(a, b, c, ab, ab >= bc + ca);
  }

  /** Of a triangle whose first edge is the longest; `isBlunt`: the angle opposite to it is no less than a right one. */
  private halve(a: number, b: number, c: number, squared: number, isBlunt: boolean): void {
    const { required } = this;
    const { clearance } = this.vertices;
    const lowest = Math.min(clearance[a]!, clearance[b]!, clearance[c]!);
    if (isAtLeast(required, lowest, isBlunt ? squared / 4 : squared / 3)) return;
    const ab = Math.sqrt(squared);
    const highest = Math.max(clearance[a]!, clearance[b]!, clearance[c]!);
    if (this.isShort(highest, ab) || (ab <= COARSE_mm && this.isLinear(lowest, highest, a, b, ab))) {
      this.leaves.push(a, b, c);
      return;
    }
    const bc = this.vertices.squared(b, c);
    const ca = this.vertices.squared(c, a);
    if (NEEDLE * NEEDLE * Math.min(bc, ca) <= squared) {
      if (bc < ca) this.slice(a, a, b, c);
      else this.slice(b, b, c, a);
      return;
    }
    const middle = this.vertices.halve(a, b);
    this.refine(a, middle, c);
    this.refine(middle, b, c);
  }

  /**
   * Halves the strip between the edges p0-p1 and q0-q1 across. Needles halved along one edge would stay needles of the same
   * proportions, four times as many for each half of their length.
   */
  private slice(p0: number, q0: number, p1: number, q1: number): void {
    const p = this.vertices.halve(p0, p1);
    const q = this.vertices.halve(q0, q1);
    this.refineStrip(p0, q0, p, q);
    this.refineStrip(p, q, p1, q1);
  }

  /** The strip's ends are edges, or at p0 = q0 a single vertex. */
  private refineStrip(p0: number, q0: number, p1: number, q1: number): void {
    const { required } = this;
    const { clearance } = this.vertices;
    const lowest = Math.min(clearance[p0]!, clearance[q0]!, clearance[p1]!, clearance[q1]!);
    const squared = Math.max(
      this.vertices.squared(p0, p1),
      this.vertices.squared(q0, q1),
      this.vertices.squared(p0, q1),
    );
    if (isAtLeast(required, lowest, squared / 3)) return;
    if (squared <= STRIP * STRIP * Math.max(this.vertices.squared(p0, q0), this.vertices.squared(p1, q1))) {
      this.refine(p0, p1, q1);
      if (p0 !== q0) this.refine(p0, q1, q0);
      return;
    }
    const longest = Math.sqrt(squared);
    const highest = Math.max(clearance[p0]!, clearance[q0]!, clearance[p1]!, clearance[q1]!);
    // what happens across a strip is told by its edges
    if (
      this.isShort(highest, longest) ||
      (longest <= COARSE_mm &&
        this.isLinear(lowest, highest, p0, p1, longest) &&
        this.isLinear(lowest, highest, q0, q1, longest))
    ) {
      this.leaves.push(p0, p1, q1);
      if (p0 !== q0) this.leaves.push(p0, q1, q0);
      return;
    }
    this.slice(p0, q0, p1, q1);
  }

  private isShort(highest: number, longest: number): boolean {
    return longest <= FINE_mm || (longest <= COLOUR_EDGE_mm && highest < this.required);
  }

  /** Whether a triangle may be taken, cut or left out as if the clearance were linear in it, by one of its edges. */
  private isLinear(lowest: number, highest: number, a: number, b: number, longest: number): boolean {
    const { required } = this;
    const { clearance } = this.vertices;
    const middle = clearance[this.vertices.middleOf(a, b)]!;
    const off = Math.abs(middle - (clearance[a]! + clearance[b]!) / 2);
    // it must not rise to the required clearance between corners either
    const room = required - highest;
    if (room > 0) return off <= Math.min(room, Math.max(COLOUR.least_mm, COLOUR.share * Math.abs(middle)));
    if (longest > CUT_mm) return false;
    if (lowest >= required) return longest <= 2 * FINE_mm && off <= (lowest - required) / 2;
    return off * longest <= RIM_mm * (highest - lowest);
  }

  /** Halves a triangle where its neighbours have halved an edge of it, so that no gap opens between them. */
  private fit(a: number, b: number, c: number): void {
    if (this.fitHalves(a, b, c) || this.fitHalves(b, c, a) || this.fitHalves(c, a, b)) return;
    this.emit(a, b, c);
  }

  /** Both halves of a triangle whose first edge is halved; false if that is whole. */
  private fitHalves(a: number, b: number, c: number): boolean {
    const middle = this.vertices.halvedAt(a, b);
    if (middle < 0) return false;
    this.fit(a, middle, c);
    this.fit(middle, b, c);
    return true;
  }

  private emit(a: number, b: number, c: number): void {
    const { required } = this;
    const { clearance } = this.vertices;
    const highest = Math.max(clearance[a]!, clearance[b]!, clearance[c]!);
    if (highest < required) {
      this.indices.push(a, b, c);
      this.area += this.vertices.areaOf(a, b, c);
      return;
    }
    if (Math.min(clearance[a]!, clearance[b]!, clearance[c]!) >= required) return;
    const outline: number[] = [];
    let last = c;
    for (const vertex of [a, b, c]) {
      const within = clearance[vertex]! < required;
      if (within !== clearance[last]! < required) outline.push(this.vertices.passingOf(last, vertex));
      if (within) outline.push(vertex);
      last = vertex;
    }
    for (let i = 2; i < outline.length; i++) {
      this.indices.push(outline[0]!, outline[i - 1]!, outline[i]!);
      this.area += this.vertices.areaOf(outline[0]!, outline[i - 1]!, outline[i]!);
    }
  }
}

/**
 * Whether no point of a triangle has less clearance than `required_mm`, by the lowest of its corners'. `spread_mm2` bounds the mean
 * square of a point's ways to the corners, weighted with its barycentric coordinates w: circumradius² at most, which is edge²/3 at most,
 * and a quarter of the longest edge² where the centre lies outside.
 *
 * Some corner is within the spread's root s, and the clearance changes no faster than the point moves: its minimum is μ ≥ lowest − s.
 * Where μ > 0 more is true. Let y be the other surface's point nearest to x: |x + h − y| + |x − h − y| − 2|x − y| ≤ |h|²/|x − y|,
 * so along any line the distance is a concave function plus a parabola of curvature 1/μ, and so is the least of several: at x it is no
 * less than the corners' mean with weights w, less spread/2μ. So μ ≥ lowest − spread/2μ, which no μ between lowest − s and the
 * required clearance fulfils if neither of these does.
 */
function isAtLeast(required_mm: number, lowest_mm: number, spread_mm2: number): boolean {
  const room = lowest_mm - required_mm;
  if (room < 0) return false;
  if (room * room >= spread_mm2) return true;
  return lowest_mm * lowest_mm > 2.25 * spread_mm2 && 2 * required_mm * room >= spread_mm2;
}

function gap(values: ArrayLike<number>, p: number, q: number): number {
  const x = values[p]! - values[q]!;
  const y = values[p + 1]! - values[q + 1]!;
  const z = values[p + 2]! - values[q + 2]!;
  return Math.sqrt(x * x + y * y + z * z);
}
