import { EdgeMap } from "./edgeMap.ts";
import type { ClearanceField } from "./patchField.ts";
import { PlaceMap } from "./placeMap.ts";

/** Vertices of a patch, each with its clearance, found again by where they are or by the edge that they lie on. */
export class PatchVertices {
  /** Three numbers a vertex, mm. */
  readonly positions: number[] = [];
  /** One number a vertex, mm: exact below the cap, else no less than that. */
  readonly clearance: number[] = [];
  private readonly caps: number[] = [];
  private readonly corners = new PlaceMap(this.positions);
  /** Vertex halfway, and vertex on the rim, of edges that have one; edges that are halved have the first as −2 less the vertex. */
  private readonly middles = new EdgeMap();
  private readonly passings = new EdgeMap();
  private readonly field: ClearanceField;
  private readonly required: number;
  private readonly capFor: (longest_mm: number) => number;

  /** `capFor` tells how much clearance is worth knowing at the ends and in the middle of an edge. */
  constructor(field: ClearanceField, required_mm: number, capFor: (longest_mm: number) => number) {
    this.field = field;
    this.required = required_mm;
    this.capFor = capFor;
  }

  /** The corner of a triangle with this longest edge. */
  cornerAt(x: number, y: number, z: number, longest_mm: number): number {
    const cap = this.capFor(longest_mm);
    const known = this.corners.get(x, y, z);
    if (known < 0) {
      const vertex = this.add(x, y, z, this.field.at(x, y, z, cap), cap);
      this.corners.add(vertex);
      return vertex;
    }
    // a value that was capped too low for this triangle is asked for again
    const last = this.caps[known]!;
    if (cap > last && this.clearance[known]! >= last) {
      this.clearance[known] = this.field.at(x, y, z, cap, last);
      this.caps[known] = cap;
    }
    return known;
  }

  /** The vertex halfway along an edge. */
  middleOf(a: number, b: number): number {
    const known = this.middles.get(a, b);
    if (known !== -1) return known < 0 ? -2 - known : known;
    const { positions, clearance } = this;
    const x = (positions[3 * a]! + positions[3 * b]!) / 2;
    const y = (positions[3 * a + 1]! + positions[3 * b + 1]!) / 2;
    const z = (positions[3 * a + 2]! + positions[3 * b + 2]!) / 2;
    // the ends bound the clearance in the middle from above and from below
    const length = Math.sqrt(this.squared(a, b));
    const most = Math.min(clearance[a]!, clearance[b]!) + length;
    const least = Math.max(clearance[a]!, clearance[b]!) - length / 2;
    const cap = Math.min(Math.max(most, this.required) + 1e-6, this.capFor(length));
    const vertex = this.add(x, y, z, this.field.at(x, y, z, cap, least), cap);
    this.middles.set(a, b, vertex);
    return vertex;
  }

  /** From now on the edge is halved at its middle. */
  halve(a: number, b: number): number {
    const middle = this.middleOf(a, b);
    this.middles.set(a, b, -2 - middle);
    return middle;
  }

  /** The middle of a halved edge, −1 of a whole one. */
  halvedAt(a: number, b: number): number {
    const known = this.middles.get(a, b);
    return known < -1 ? -2 - known : -1;
  }

  /** Where the clearance, taken as linear, is the required one between two vertices on either side of it. */
  passingOf(a: number, b: number): number {
    const known = this.passings.get(a, b);
    if (known >= 0) return known;
    const { positions, clearance, required } = this;
    const s = (required - clearance[a]!) / (clearance[b]! - clearance[a]!);
    const at = (k: number): number => positions[3 * a + k]! + s * (positions[3 * b + k]! - positions[3 * a + k]!);
    const vertex = this.add(at(0), at(1), at(2), required, required);
    this.passings.set(a, b, vertex);
    return vertex;
  }

  /** The square of an edge's length, mm². */
  squared(a: number, b: number): number {
    const { positions: p } = this;
    const x = p[3 * a]! - p[3 * b]!;
    const y = p[3 * a + 1]! - p[3 * b + 1]!;
    const z = p[3 * a + 2]! - p[3 * b + 2]!;
    return x * x + y * y + z * z;
  }

  areaOf(a: number, b: number, c: number): number {
    const { positions: p } = this;
    const ux = p[3 * b]! - p[3 * a]!;
    const uy = p[3 * b + 1]! - p[3 * a + 1]!;
    const uz = p[3 * b + 2]! - p[3 * a + 2]!;
    const vx = p[3 * c]! - p[3 * a]!;
    const vy = p[3 * c + 1]! - p[3 * a + 1]!;
    const vz = p[3 * c + 2]! - p[3 * a + 2]!;
    const x = uy * vz - uz * vy;
    const y = uz * vx - ux * vz;
    const z = ux * vy - uy * vx;
    return Math.sqrt(x * x + y * y + z * z) / 2;
  }

  private add(x: number, y: number, z: number, clearance: number, cap: number): number {
    this.positions.push(x, y, z);
    this.caps.push(cap);
    return this.clearance.push(clearance) - 1;
  }
}
