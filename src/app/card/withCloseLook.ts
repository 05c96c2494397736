import { t } from "../text/text.ts";
import { drawText, INK } from "./drawing.ts";

/** Width of the close look, in units of the main picture (which is 960 wide). */
export const INSET_WIDTH = 236;
const MAIN_WIDTH = 960;
const MARGIN = 18;
/** The same ring as round the close look on the screen. */
const RING = "#f0e442";

/** Both pictures in one PNG: the close look round, in its ring, in the lower right corner, with a word beside it. */
export async function withCloseLook(main: Blob, closeLook: Blob, words: string): Promise<Blob> {
  const [picture, inset] = await Promise.all([createImageBitmap(main), createImageBitmap(closeLook)]);
  const canvas = document.createElement("canvas");
  canvas.width = picture.width;
  canvas.height = picture.height;
  const context = canvas.getContext("2d");
  if (!context) throw new Error(t("card.trouble.noPicture"));
  context.drawImage(picture, 0, 0);
  const scale = picture.width / MAIN_WIDTH;
  context.scale(scale, scale);
  const radius = INSET_WIDTH / 2;
  const x = MAIN_WIDTH - MARGIN - radius;
  const y = picture.height / scale - MARGIN - radius;
  drawRound(context, inset, x, y, radius);
  drawTag(context, words, x - radius - 10, y + radius - 30);
  picture.close();
  inset.close();
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error(t("card.trouble.noPicture")))), "image/png");
  });
}

function drawRound(context: CanvasRenderingContext2D, inset: ImageBitmap, x: number, y: number, radius: number): void {
  const ring = (size: number, colour: string) => {
    context.beginPath();
    context.arc(x, y, size, 0, 2 * Math.PI);
    context.fillStyle = colour;
    context.fill();
  };
  ring(radius + 7.5, INK);
  ring(radius + 6, RING);
  ring(radius + 2, INK);
  ring(radius, "#ffffff");
  context.save();
  context.clip();
  context.drawImage(inset, x - radius, y - radius, 2 * radius, 2 * radius);
  context.restore();
}

function drawTag(context: CanvasRenderingContext2D, words: string, right: number, top: number): void {
  drawText(context, words, right, top, { size: 20, align: "right" });
}
