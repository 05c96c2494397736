import type { Soup } from "./soup.ts";

/** In place of a triangle where there is none. */
export const NOTHING = 0xffffffff;

/**
 * The nearest triangle of a soup at every sample of one strip of the picture after another: a depth buffer (Catmull, "A Subdivision
 * Algorithm for Computer Display of Curved Surfaces", 1974). A sample belongs to a triangle if its middle lies in it.
 */
export class DepthLayer {
  readonly soup: Soup;
  readonly width: number;
  /** mm towards the eye. */
  readonly depth: Float32Array;
  readonly triangle: Uint32Array;
  /** Row of the picture that is the strip's first. */
  top = 0;
  rows = 0;
  /** Rows and columns of the picture in which there is anything: from the first to before the last. */
  readonly reach = { left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity };
  readonly #firstRow: Int32Array;
  readonly #lastRow: Int32Array;

  constructor(soup: Soup, width: number, mostRows: number) {
    this.soup = soup;
    this.width = width;
    this.depth = new Float32Array(width * mostRows);
    this.triangle = new Uint32Array(width * mostRows);
    const count = soup.surface.length;
    this.#firstRow = new Int32Array(count);
    this.#lastRow = new Int32Array(count);
    for (let t = 0; t < count; t++) {
      const [a, b, c] = this.#rowsOf(t);
      this.#firstRow[t] = Math.ceil(Math.min(a, b, c) - 0.5);
      this.#lastRow[t] = Math.floor(Math.max(a, b, c) - 0.5);
    }
    const { reach } = this;
    for (let i = 0; i < soup.places.length; i += 3) {
      reach.left = Math.min(reach.left, Math.floor(soup.places[i]!));
      reach.right = Math.max(reach.right, Math.ceil(soup.places[i]!));
      reach.top = Math.min(reach.top, Math.floor(soup.places[i + 1]!));
      reach.bottom = Math.max(reach.bottom, Math.ceil(soup.places[i + 1]!));
    }
  }

  draw(top: number, rows: number): void {
    this.top = top;
    this.rows = rows;
    this.depth.fill(Number.NEGATIVE_INFINITY, 0, rows * this.width);
    this.triangle.fill(NOTHING, 0, rows * this.width);
    for (let t = 0; t < this.#firstRow.length; t++) {
      if (this.#firstRow[t]! < top + rows && this.#lastRow[t]! >= top) this.#drawTriangle(t);
    }
  }

  #rowsOf(t: number): [number, number, number] {
    const { indices, places } = this.soup;
    return [
      places[3 * indices[3 * t]! + 1]!,
      places[3 * indices[3 * t + 1]! + 1]!,
      places[3 * indices[3 * t + 2]! + 1]!,
    ];
  }

  #drawTriangle(t: number): void {
    const { indices, places } = this.soup;
    const [i, j, k] = [3 * indices[3 * t]!, 3 * indices[3 * t + 1]!, 3 * indices[3 * t + 2]!];
    const [ax, ay, az] = [places[i]!, places[i + 1]!, places[i + 2]!];
    const [bx, by, bz] = [places[j]!, places[j + 1]!, places[j + 2]!];
    const [cx, cy, cz] = [places[k]!, places[k + 1]!, places[k + 2]!];
    const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    if (area === 0) return;
    const left = Math.max(0, Math.ceil(Math.min(ax, bx, cx) - 0.5));
    const right = Math.min(this.width - 1, Math.floor(Math.max(ax, bx, cx) - 0.5));
    const first = Math.max(this.top, this.#firstRow[t]!);
    const last = Math.min(this.top + this.rows - 1, this.#lastRow[t]!);
    // shares of b and c grow by the same from sample to sample
    const shareB = (cy - ay) / area;
    const shareC = (ay - by) / area;
    for (let row = first; row <= last; row++) {
      const y = row + 0.5 - ay;
      const x = left + 0.5 - ax;
      let ofB = (x * (cy - ay) - y * (cx - ax)) / area;
      let ofC = ((bx - ax) * y - (by - ay) * x) / area;
      let at = (row - this.top) * this.width + left;
      for (let column = left; column <= right; column++, at++, ofB += shareB, ofC += shareC) {
        // a sample on the seam of two triangles belongs to one at least
        if (ofB < -1e-7 || ofC < -1e-7 || ofB + ofC > 1 + 1e-7) continue;
        const z = az + ofB * (bz - az) + ofC * (cz - az);
        if (z <= this.depth[at]!) continue;
        this.depth[at] = z;
        this.triangle[at] = t;
      }
    }
  }
}

/** Normal and clearance of a triangle at the middle of a sample, linear between its corners. */
export class SampleReader {
  readonly normal = new Float64Array(3);
  clearance_mm = 0;
  readonly #soup: Soup;

  constructor(soup: Soup) {
    this.#soup = soup;
  }

  read(t: number, column: number, row: number): void {
    const { indices, places, normals, clearance_mm } = this.#soup;
    const [i, j, k] = [3 * indices[3 * t]!, 3 * indices[3 * t + 1]!, 3 * indices[3 * t + 2]!];
    const [ax, ay] = [places[i]!, places[i + 1]!];
    const [bx, by] = [places[j]! - ax, places[j + 1]! - ay];
    const [cx, cy] = [places[k]! - ax, places[k + 1]! - ay];
    const [x, y] = [column + 0.5 - ax, row + 0.5 - ay];
    const area = bx * cy - by * cx;
    const ofB = (x * cy - y * cx) / area;
    const ofC = (bx * y - by * x) / area;
    const ofA = 1 - ofB - ofC;
    let square = 0;
    for (let axis = 0; axis < 3; axis++) {
      const value = ofA * normals[i + axis]! + ofB * normals[j + axis]! + ofC * normals[k + axis]!;
      this.normal[axis] = value;
      square += value * value;
    }
    // a surface seen from within is lit as from without
    const scale = (this.normal[2]! < 0 ? -1 : 1) / Math.sqrt(square || 1);
    for (let axis = 0; axis < 3; axis++) this.normal[axis]! *= scale;
    this.clearance_mm = ofA * clearance_mm[i / 3]! + ofB * clearance_mm[j / 3]! + ofC * clearance_mm[k / 3]!;
  }
}
