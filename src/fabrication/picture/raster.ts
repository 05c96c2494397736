import { dot, type Vec3 } from "../../maths/vec3.ts";
import { FAINT, INK, mixed, PAPER, type Rgb } from "./colours.ts";
import { DepthLayer, NOTHING, SampleReader } from "./depthLayer.ts";
import { InkLayer, LINE_mm } from "./ink.ts";
import { lightOn, lit, patchColour } from "./shade.ts";
import { type DrawnSurface, soupOf } from "./soup.ts";
import type { Projection } from "./view.ts";

/** What is drawn of the car, before any text or line is laid over it. */
export interface RasterInput {
  readonly width_px: number;
  readonly height_px: number;
  /** In pixels. */
  readonly projection: Projection;
  readonly pxPerPaperMm: number;
  /** Colour of each surface by its number. */
  readonly parts: readonly DrawnSurface[];
  readonly colours: ReadonlyMap<number, Rgb>;
  /** Parts of which only the outline is drawn, over all others. */
  readonly outlined: readonly DrawnSurface[];
  /** Surface that is too near, with its clearance; `required_mm` by the surfaces' numbers. */
  readonly patches: readonly DrawnSurface[];
  readonly required_mm: ReadonlyMap<number, number>;
  /** Called between strips: may throw to end the drawing. */
  readonly poll?: (shareDone: number) => void;
}

/** So many rows of pixels are drawn at once: more would want more memory. */
const STRIP_px = 96;
/** Patches are drawn so far before the surface that they lie on, mm. */
const LIFT_mm = 0.6;
/** A clash that lies behind other parts shows through them so much. */
const THROUGH = 0.5;
const OUTLINED_FILL = 0.06;

/** Samples along one side of a pixel. */
export function samplesFor(width_px: number): number {
  return width_px <= 1700 ? 3 : 2;
}

/** The picture of the car on white, red, green, blue a pixel, row by row from the top. */
export function drawRaster(input: RasterInput): Uint8Array {
  const { width_px, height_px, projection, pxPerPaperMm } = input;
  const samples = samplesFor(width_px);
  const width = width_px * samples;
  const inSamples: Projection = {
    ...projection,
    originX: projection.originX * samples,
    originY: projection.originY * samples,
    perMm: projection.perMm * samples,
  };
  const perPaperMm = pxPerPaperMm * samples;
  // lines reach over from the neighbouring strips
  const halo = samples * Math.ceil((LINE_mm.outline * perPaperMm) / 2 / samples + 1);
  const mostRows = STRIP_px * samples + 2 * halo;
  const layer = (surfaces: readonly DrawnSurface[]) =>
    new DepthLayer(soupOf(surfaces, inSamples), width, surfaces.length > 0 ? mostRows : 0);
  const strip = new Strip(
    input,
    { parts: layer(input.parts), outlined: layer(input.outlined), patches: layer(input.patches) },
    width,
    mostRows,
    perPaperMm,
    1 / inSamples.perMm,
  );
  const out = new Uint8Array(width_px * height_px * 3).fill(255);
  for (let first = 0; first < height_px; first += STRIP_px) {
    input.poll?.(first / height_px);
    const rows_px = Math.min(STRIP_px, height_px - first);
    if (strip.draw(first * samples - halo, rows_px * samples + 2 * halo))
      strip.shrink(out, first, rows_px, width_px, samples, halo);
  }
  return out;
}

interface Layers {
  readonly parts: DepthLayer;
  readonly outlined: DepthLayer;
  readonly patches: DepthLayer;
}

/** One strip of the picture in samples. */
class Strip {
  readonly #input: RasterInput;
  readonly #layers: Layers;
  readonly #width: number;
  readonly #perPaperMm: number;
  readonly #sample_mm: number;
  readonly #colour: Uint8Array;
  readonly #numbers: Uint16Array;
  readonly #normals: Int8Array;
  readonly #ink: InkLayer;
  readonly #faintInk: InkLayer;
  readonly #readers: Readonly<Record<keyof Layers, SampleReader>>;
  /** The car's up in the picture: across, up, towards the eye. */
  readonly #up: Vec3;
  /** Columns in which anything is drawn: from the first to before the last. */
  readonly #columns: readonly [from: number, to: number];

  constructor(
    input: RasterInput,
    layers: Layers,
    width: number,
    mostRows: number,
    perPaperMm: number,
    sample_mm: number,
  ) {
    this.#input = input;
    this.#layers = layers;
    this.#width = width;
    this.#perPaperMm = perPaperMm;
    this.#sample_mm = sample_mm;
    this.#colour = new Uint8Array(3 * width * mostRows);
    this.#numbers = new Uint16Array(width * mostRows);
    this.#normals = new Int8Array(3 * width * mostRows);
    this.#ink = new InkLayer(width, mostRows, perPaperMm);
    this.#faintInk = new InkLayer(width, mostRows, perPaperMm * 0.7);
    this.#readers = {
      parts: new SampleReader(layers.parts.soup),
      outlined: new SampleReader(layers.outlined.soup),
      patches: new SampleReader(layers.patches.soup),
    };
    const reaches = Object.values(layers).map(({ reach }) => reach);
    this.#columns = [
      Math.max(0, Math.min(...reaches.map(({ left }) => left))),
      Math.min(width, Math.max(...reaches.map(({ right }) => right))),
    ];
    const { axes } = input.projection;
    const UP: Vec3 = [0, 0, 1];
    this.#up = [dot(axes.right, UP), dot(axes.up, UP), dot(axes.towards, UP)];
  }

  /** False where there is nothing to draw. */
  draw(top: number, rows: number): boolean {
    const { parts, outlined, patches } = this.#layers;
    if (![parts, outlined, patches].some(({ reach }) => reach.top < top + rows && reach.bottom >= top)) return false;
    parts.draw(top, rows);
    if (patches.depth.length > 0) patches.draw(top, rows);
    this.#paint(rows);
    this.#ink.draw(parts, this.#numbers, this.#normals, this.#sample_mm, this.#columns);
    this.#layInk(this.#ink.ink, INK, rows);
    if (outlined.depth.length > 0) this.#layOutlined(top, rows);
    return true;
  }

  #paint(rows: number): void {
    const { parts } = this.#layers;
    const [from, to] = this.#columns;
    this.#colour.fill(255, 0, 3 * rows * this.#width);
    this.#numbers.fill(0, 0, rows * this.#width);
    for (let down = 0; down < rows; down++) {
      for (let column = from; column < to; column++)
        this.#paintSample(down * this.#width + column, column, parts.top + down);
    }
  }

  #paintSample(at: number, column: number, row: number): void {
    const { parts, patches } = this.#layers;
    const t = parts.depth.length > 0 ? parts.triangle[at]! : NOTHING;
    let colour: Rgb = PAPER;
    let number = 0;
    if (t !== NOTHING) {
      const reader = this.#readers.parts;
      reader.read(t, column, row);
      number = parts.soup.surface[t]!;
      colour = lit(this.#input.colours.get(number) ?? PAPER, this.#light(reader));
      for (let k = 0; k < 3; k++) this.#normals[3 * at + k] = Math.round(127 * reader.normal[k]!);
    }
    const patch = patches.depth.length > 0 ? patches.triangle[at]! : NOTHING;
    if (t === NOTHING && patch === NOTHING) return;
    if (patch !== NOTHING) {
      const isInSight = t === NOTHING || patches.depth[at]! + LIFT_mm >= parts.depth[at]!;
      const reader = this.#readers.patches;
      reader.read(patch, column, row);
      if (isInSight || reader.clearance_mm < 0) {
        const patchNumber = patches.soup.surface[patch]!;
        const [x, y] = [column / this.#perPaperMm, row / this.#perPaperMm];
        const required_mm = this.#input.required_mm.get(patchNumber) ?? 1;
        const shown = patchColour(reader.clearance_mm, required_mm, this.#light(reader), x, y);
        colour = isInSight ? shown : mixed(colour, shown, THROUGH);
        if (isInSight) number = patchNumber;
      }
    }
    this.#numbers[at] = number;
    for (let k = 0; k < 3; k++) this.#colour[3 * at + k] = colour[k]!;
  }

  #light({ normal }: SampleReader): number {
    return lightOn(normal, normal[0]! * this.#up[0] + normal[1]! * this.#up[1] + normal[2]! * this.#up[2]);
  }

  #layInk(ink: Uint8Array, colour: Rgb, rows: number): void {
    for (let at = 0; at < rows * this.#width; at++) {
      if (ink[at] === 0) continue;
      const share = ink[at]! / 255;
      for (let k = 0; k < 3; k++) {
        const below = this.#colour[3 * at + k]!;
        this.#colour[3 * at + k] = below + (colour[k]! - below) * share;
      }
    }
  }

  #layOutlined(top: number, rows: number): void {
    const { outlined } = this.#layers;
    outlined.draw(top, rows);
    const reader = this.#readers.outlined;
    for (let at = 0; at < rows * this.#width; at++) {
      const t = outlined.triangle[at]!;
      this.#numbers[at] = 0;
      if (t === NOTHING) continue;
      const column = at % this.#width;
      reader.read(t, column, top + (at - column) / this.#width);
      this.#numbers[at] = outlined.soup.surface[t]!;
      for (let k = 0; k < 3; k++) {
        this.#normals[3 * at + k] = Math.round(127 * reader.normal[k]!);
        const below = this.#colour[3 * at + k]!;
        this.#colour[3 * at + k] = below + (FAINT[k]! - below) * OUTLINED_FILL;
      }
    }
    this.#faintInk.draw(outlined, this.#numbers, this.#normals, this.#sample_mm, this.#columns);
    this.#layInk(this.#faintInk.ink, FAINT, rows);
  }

  /** The strip's pixels, each the mean of its samples. */
  shrink(out: Uint8Array, first: number, rows_px: number, width_px: number, samples: number, halo: number): void {
    const count = samples * samples;
    for (let y = 0; y < rows_px; y++) {
      for (let x = 0; x < width_px; x++) {
        let [red, green, blue] = [0, 0, 0];
        for (let j = 0; j < samples; j++) {
          let at = 3 * ((halo + y * samples + j) * this.#width + x * samples);
          for (let i = 0; i < samples; i++) {
            red += this.#colour[at++]!;
            green += this.#colour[at++]!;
            blue += this.#colour[at++]!;
          }
        }
        const to = 3 * ((first + y) * width_px + x);
        out[to] = red / count + 0.5;
        out[to + 1] = green / count + 0.5;
        out[to + 2] = blue / count + 0.5;
      }
    }
  }
}
