import type { Picture } from "./picture.ts";
import { pngOf } from "./png.ts";
import { type DrawingTools, layOver, rasterise, readyTools } from "./rasterise.ts";

/** The whole picture as PNG that prints at its own size. */
export async function pngOfPicture(picture: Picture, tools: DrawingTools): Promise<Uint8Array<ArrayBuffer>> {
  const { width_px, height_px, pxPerPaperMm, rgb, overlay } = picture;
  await readyTools(tools);
  const whole = rgb.slice();
  layOver(whole, rasterise(fitted(overlay, width_px, height_px), width_px, tools), width_px, height_px);
  return pngOf(whole, width_px, height_px, pxPerPaperMm);
}

/** The picture as SVG: the parts as one PNG in it, lines and lettering as such. Letters are the viewer's own where it lacks the family. */
export function svgOfPicture({ width_px, height_px, pxPerPaperMm, rgb, overlay }: Picture): string {
  const png = pngOf(rgb, width_px, height_px, pxPerPaperMm);
  let bytes = "";
  for (let i = 0; i < png.length; i += 0x8000) bytes += String.fromCharCode(...png.subarray(i, i + 0x8000));
  const [width, height] = [width_px / pxPerPaperMm, height_px / pxPerPaperMm];
  const image = `<image x="0" y="0" width="${width}" height="${height}" href="data:image/png;base64,${btoa(bytes)}"/>`;
  return overlay.replace(">", `>${image}`);
}

/** The drawing's millimetres on just so many pixels. */
function fitted(overlay: string, width_px: number, height_px: number): string {
  return overlay.replace(/ width="[^"]*" height="[^"]*"/, ` width="${width_px}" height="${height_px}"`);
}
