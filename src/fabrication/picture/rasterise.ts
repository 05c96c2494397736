import { initWasm, Resvg } from "@resvg/resvg-wasm";
import { FAMILY } from "./lettering.ts";

/** What lettering and lines are drawn with: a compiled program and the files of the family, plain and bold. */
export interface DrawingTools {
  readonly program: BufferSource | WebAssembly.Module;
  readonly fonts: readonly Uint8Array[];
}

let begun: Promise<void> | null = null;

/** Once in a process, before the first picture. */
export function readyTools({ program }: DrawingTools): Promise<void> {
  begun ??= initWasm(program as BufferSource);
  return begun;
}

export interface Overlay {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, alpha, the colours already times alpha. */
  readonly pixels: Uint8Array;
}

/** An SVG as pixels on nothing; the tools must be ready. */
export function rasterise(svg: string, width_px: number, { fonts }: DrawingTools): Overlay {
  const drawing = new Resvg(svg, {
    fitTo: { mode: "width", value: width_px },
    font: { fontBuffers: [...fonts], defaultFontFamily: FAMILY, loadSystemFonts: false } as never,
  });
  const image = drawing.render();
  const overlay = { width: image.width, height: image.height, pixels: image.pixels.slice() };
  image.free();
  drawing.free();
  return overlay;
}

/** Lays pixels over an opaque picture, from its upper left corner. */
export function layOver(rgb: Uint8Array, overlay: Overlay, width: number, height: number): void {
  const { pixels } = overlay;
  for (let row = 0; row < Math.min(height, overlay.height); row++) {
    let [at, from] = [3 * row * width, 4 * row * overlay.width];
    for (let column = 0; column < Math.min(width, overlay.width); column++, at += 3, from += 4) {
      const through = 1 - pixels[from + 3]! / 255;
      if (through === 1) continue;
      for (let k = 0; k < 3; k++) rgb[at + k] = Math.min(255, pixels[from + k]! + rgb[at + k]! * through + 0.5);
    }
  }
}
