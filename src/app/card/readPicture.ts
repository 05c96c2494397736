import type { CardPicture } from "../../buildlog/entry.ts";
import { pngSize } from "./pngSize.ts";

/** A picture as a card holds it. Rejects with the taker's own error. */
export async function readPicture(takePicture: () => Promise<Blob>): Promise<CardPicture> {
  const png = new Uint8Array(await (await takePicture()).arrayBuffer());
  return { png, ...pngSize(png) };
}
