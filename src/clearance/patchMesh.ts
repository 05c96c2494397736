import { EdgeMap } from "./edgeMap.ts";
import type { CollisionTree } from "./kernel.ts";
import type { ClearanceField } from "./patchField.ts";
import { PlaceMap } from "./placeMap.ts";
import type { Surface } from "./surface.ts";
import type { PatchMesh } from "./types.ts";

/** Edges within a patch are at most this long, mm: colours change smoothly. */
const COARSE_mm = 16;
/** Where the rim is still in doubt, edges get this short, mm. */
const FINE_mm = 1;
/** How far the rim may be off, mm, by what a triangle's clearance differs from a linear one. */
const RIM_mm = 0.25;
/** How far the clearance may differ from a linear one within the patch: so many mm, or so much of it if that is more. */
const COLOUR = { least_mm: 0.25, share: 0.05 };
/** Edges this short will do for colours anyhow, mm. */
const COLOUR_EDGE_mm = 4;

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
  private readonly field: ClearanceField;
  private readonly required: number;
  private readonly positions: number[] = [];
  private readonly clearance: number[] = [];
  private readonly indices: number[] = [];
  /** Triangles that need no more refining, three vertices each. */
  private readonly leaves: number[] = [];
  private readonly corners = new PlaceMap(this.positions);
  /** Vertex halfway, and vertex on the rim, of edges that have one. */
  private readonly middles = new EdgeMap();
  private readonly halved = new EdgeMap();
  private readonly passings = new EdgeMap();
  private area = 0;

  constructor(field: ClearanceField, required_mm: number) {
    this.field = field;
    this.required = required_mm;
  }

  addTriangle(triangles: Float64Array, at: number): void {
    const [p, q, r] = [at, at + 3, at + 6];
    const longest = Math.max(gap(triangles, p, q), gap(triangles, q, r), gap(triangles, r, p));
    const cap = this.required + longest;
    this.refine(this.cornerAt(triangles, p, cap), this.cornerAt(triangles, q, cap), this.cornerAt(triangles, r, cap));
  }

  /** Vertices that no triangle uses are left out. */
  finish(): PatchMesh {
    for (let i = 0; i < this.leaves.length; i += 3) {
      this.fit(this.leaves[i]!, this.leaves[i + 1]!, this.leaves[i + 2]!);
    }
    /** New number of a vertex plus one. */
    const places = new Int32Array(this.clearance.length);
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
      clearance[place] = this.clearance[vertex]!;
      for (let k = 0; k < 3; k++) positions[3 * place + k] = this.positions[3 * vertex + k]!;
    }
    return { positions, indices, clearance_mm: clearance, area_mm2: this.area };
  }

  private refine(a: number, b: number, c: number): void {
    const ab = this.length(a, b);
    const bc = this.length(b, c);
    const ca = this.length(c, a);
    // the longest edge becomes a-b
    if (bc > ab && bc >= ca) {
      this.refine(b, c, a);
      return;
    }
    if (ca > ab) {
      this.refine(c, a, b);
      return;
    }
    const { required, clearance } = this;
    const lowest = Math.min(clearance[a]!, clearance[b]!, clearance[c]!);
    if (leastWithin(lowest, ab) >= required) return;
    const highest = Math.max(clearance[a]!, clearance[b]!, clearance[c]!);
    if (ab <= FINE_mm || (ab <= COLOUR_EDGE_mm && highest < required)) {
      this.leaves.push(a, b, c);
      return;
    }
    const middle = this.middleOf(a, b);
    if (ab <= COARSE_mm && this.isLinear(a, b, c, middle, ab)) {
      this.leaves.push(a, b, c);
      return;
    }
    this.halved.set(a, b, middle);
    this.refine(a, middle, c);
    this.refine(middle, b, c);
  }

  /** Whether a triangle may be taken, cut or left out as if the clearance were linear in it. */
  private isLinear(a: number, b: number, c: number, middle: number, longest: number): boolean {
    const { required, clearance } = this;
    const lowest = Math.min(clearance[a]!, clearance[b]!, clearance[c]!);
    const highest = Math.max(clearance[a]!, clearance[b]!, clearance[c]!);
    const off = Math.abs(clearance[middle]! - (clearance[a]! + clearance[b]!) / 2);
    if (highest < required) {
      return off <= Math.max(COLOUR.least_mm, COLOUR.share * Math.abs(clearance[middle]!));
    }
    if (longest > COARSE_mm / 4) return false;
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
    const middle = this.halved.get(a, b);
    if (middle < 0) return false;
    this.fit(a, middle, c);
    this.fit(middle, b, c);
    return true;
  }

  private emit(a: number, b: number, c: number): void {
    const { required, clearance } = this;
    const highest = Math.max(clearance[a]!, clearance[b]!, clearance[c]!);
    if (highest < required) {
      this.indices.push(a, b, c);
      this.area += this.areaOf(a, b, c);
      return;
    }
    if (Math.min(clearance[a]!, clearance[b]!, clearance[c]!) >= required) return;
    const outline: number[] = [];
    let last = c;
    for (const vertex of [a, b, c]) {
      const within = clearance[vertex]! < required;
      if (within !== clearance[last]! < required) outline.push(this.passingOf(last, vertex));
      if (within) outline.push(vertex);
      last = vertex;
    }
    for (let i = 2; i < outline.length; i++) {
      this.indices.push(outline[0]!, outline[i - 1]!, outline[i]!);
      this.area += this.areaOf(outline[0]!, outline[i - 1]!, outline[i]!);
    }
  }

  private cornerAt(triangles: Float64Array, at: number, cap: number): number {
    const x = triangles[at]!;
    const y = triangles[at + 1]!;
    const z = triangles[at + 2]!;
    const known = this.corners.get(x, y, z);
    // a value that was capped too low for this triangle is asked for again
    if (known < 0) {
      const vertex = this.add(x, y, z, this.field.at(x, y, z, cap));
      this.corners.add(vertex);
      return vertex;
    }
    if (this.clearance[known]! > this.required) this.clearance[known] = this.field.at(x, y, z, cap);
    return known;
  }

  private middleOf(a: number, b: number): number {
    const known = this.middles.get(a, b);
    if (known >= 0) return known;
    const { positions } = this;
    const x = (positions[3 * a]! + positions[3 * b]!) / 2;
    const y = (positions[3 * a + 1]! + positions[3 * b + 1]!) / 2;
    const z = (positions[3 * a + 2]! + positions[3 * b + 2]!) / 2;
    // the ends bound the clearance in the middle from above
    const reach = Math.min(this.clearance[a]!, this.clearance[b]!) + this.length(a, b);
    const vertex = this.add(x, y, z, this.field.at(x, y, z, Math.max(reach, this.required) + 1e-6));
    this.middles.set(a, b, vertex);
    return vertex;
  }

  private passingOf(a: number, b: number): number {
    const known = this.passings.get(a, b);
    if (known >= 0) return known;
    const { positions, clearance, required } = this;
    const s = (required - clearance[a]!) / (clearance[b]! - clearance[a]!);
    const at = (k: number): number => positions[3 * a + k]! + s * (positions[3 * b + k]! - positions[3 * a + k]!);
    const vertex = this.add(at(0), at(1), at(2), required);
    this.passings.set(a, b, vertex);
    return vertex;
  }

  private add(x: number, y: number, z: number, clearance: number): number {
    this.positions.push(x, y, z);
    this.clearance.push(clearance);
    return this.clearance.length - 1;
  }

  private length(a: number, b: number): number {
    return gap(this.positions, 3 * a, 3 * b);
  }

  private areaOf(a: number, b: number, c: number): number {
    const { positions: p } = this;
    const ux = p[3 * b]! - p[3 * a]!;
    const uy = p[3 * b + 1]! - p[3 * a + 1]!;
    const uz = p[3 * b + 2]! - p[3 * a + 2]!;
    const vx = p[3 * c]! - p[3 * a]!;
    const vy = p[3 * c + 1]! - p[3 * a + 1]!;
    const vz = p[3 * c + 2]! - p[3 * a + 2]!;
    return Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
  }
}

/**
 * No point of a triangle has less clearance, from the lowest of its corners' and its longest edge. No point is farther than
 * edge/√3 from the nearest corner, and the clearance changes no faster than the point moves.
 *
 * Where it is nowhere below d > 0 more is true. Let y be the other surface's point nearest to x: |x + h − y| + |x − h − y| −
 * 2|x − y| ≤ |h|²/|x − y|, so along any line the distance is a concave function plus a parabola of curvature 1/d, and so is the
 * least of several. At a point with barycentric coordinates w it is then no less than the corners' mean with these weights,
 * less the weighted mean square of the ways to the corners over 2d, which is edge²/3 at most.
 */
function leastWithin(lowest_mm: number, edge_mm: number): number {
  const coarse = lowest_mm - edge_mm / Math.sqrt(3);
  return coarse > 0 ? Math.max(coarse, lowest_mm - (edge_mm * edge_mm) / (6 * coarse)) : coarse;
}

function gap(values: ArrayLike<number>, p: number, q: number): number {
  const x = values[p]! - values[q]!;
  const y = values[p + 1]! - values[q + 1]!;
  const z = values[p + 2]! - values[q + 2]!;
  return Math.sqrt(x * x + y * y + z * z);
}
