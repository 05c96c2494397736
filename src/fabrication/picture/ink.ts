import { type DepthLayer, NOTHING } from "./depthLayer.ts";

/** Lines of a drawing, mm on paper: round the whole, between parts, along the creases of one. */
export const LINE_mm = { outline: 0.4, part: 0.28, crease: 0.16 } as const;

/** Faces that meet at more than this have a line between them. */
const CREASE = Math.cos((30 * Math.PI) / 180);
/** Surface of one part that lies deeper than its slope tells by this has a line before it, mm. */
const STEP_mm = 1.5;

/** Samples of one strip on which ink lies, 0 to 255. */
export class InkLayer {
  readonly ink: Uint8Array;
  readonly #width: number;
  readonly #discs: Readonly<Record<keyof typeof LINE_mm, readonly (readonly [across: number, down: number])[]>>;

  constructor(width: number, mostRows: number, samplesPerPaperMm: number) {
    this.ink = new Uint8Array(width * mostRows);
    this.#width = width;
    this.#discs = {
      outline: discOf((LINE_mm.outline * samplesPerPaperMm) / 2),
      part: discOf((LINE_mm.part * samplesPerPaperMm) / 2),
      crease: discOf((LINE_mm.crease * samplesPerPaperMm) / 2),
    };
  }

  /**
   * Draws the lines of a strip. `numbers`: what each sample shows, 0 for nothing; `normals`: 3 a sample, unit times 127;
   * `sample_mm`: of the car, from one sample to the next; nothing is shown outside the columns `from` to before `to`.
   */
  draw(
    layer: DepthLayer,
    numbers: Uint16Array,
    normals: Int8Array,
    sample_mm: number,
    [from, to]: readonly [from: number, to: number],
  ): void {
    const { width, rows } = layer;
    this.ink.fill(0, 0, width * rows);
    for (let row = 0; row < rows; row++) {
      for (let column = Math.max(0, from - 1); column < Math.min(width, to + 1); column++) {
        const at = row * width + column;
        if (column + 1 < width) this.#compare(layer, numbers, normals, sample_mm, at, at + 1, column, row, 0);
        if (row + 1 < rows) this.#compare(layer, numbers, normals, sample_mm, at, at + width, column, row, 1);
      }
    }
  }

  #compare(
    layer: DepthLayer,
    numbers: Uint16Array,
    normals: Int8Array,
    sample_mm: number,
    a: number,
    b: number,
    column: number,
    row: number,
    axis: 0 | 1,
  ): void {
    const [one, other] = [numbers[a]!, numbers[b]!];
    if (one !== other) {
      this.#stamp(one === 0 || other === 0 ? "outline" : "part", column, row, layer.rows, 255);
      return;
    }
    if (one === 0 || layer.triangle[a] === NOTHING || layer.triangle[b] === NOTHING) return;
    const slopeA = slope(normals, a, axis);
    const slopeB = slope(normals, b, axis);
    const fall = layer.depth[b]! - layer.depth[a]!;
    const off = Math.min(Math.abs(fall), Math.abs(fall - slopeA * sample_mm), Math.abs(fall - slopeB * sample_mm));
    if (off > STEP_mm + 2 * sample_mm) {
      this.#stamp("part", column, row, layer.rows, 255);
      return;
    }
    const along =
      normals[3 * a]! * normals[3 * b]! +
      normals[3 * a + 1]! * normals[3 * b + 1]! +
      normals[3 * a + 2]! * normals[3 * b + 2]!;
    if (along < CREASE * 127 * 127) this.#stamp("crease", column, row, layer.rows, 190);
  }

  #stamp(kind: keyof typeof LINE_mm, column: number, row: number, rows: number, strength: number): void {
    for (const [across, down] of this.#discs[kind]) {
      const [x, y] = [column + across, row + down];
      if (x < 0 || y < 0 || x >= this.#width || y >= rows) continue;
      const at = y * this.#width + x;
      if (this.ink[at]! < strength) this.ink[at] = strength;
    }
  }
}

/** How far the surface comes towards the eye for 1 mm to the right, or down. */
function slope(normals: Int8Array, at: number, axis: 0 | 1): number {
  const towards = Math.max(6, normals[3 * at + 2]!);
  return ((axis === 0 ? -1 : 1) * normals[3 * at + axis]!) / towards;
}

function discOf(radius: number): [number, number][] {
  const reach = Math.ceil(radius);
  const disc: [number, number][] = [];
  for (let y = -reach; y <= reach; y++) {
    for (let x = -reach; x <= reach; x++) if (Math.hypot(x, y) <= Math.max(0.5, radius)) disc.push([x, y]);
  }
  return disc;
}
