import type { CardPhoto } from "../../buildlog/entry.ts";
import { photoTypeOf } from "../../buildlog/photo.ts";

/** Long side that a photo is kept at: fills a sheet of paper at 200 dots an inch. */
const MOST_px = 2560;
const QUALITY = 0.86;
/** A picture of more than this is no photo that a phone takes. */
const MOST_BYTES = 60_000_000;

export interface ReadPhotos {
  readonly photos: readonly CardPhoto[];
  /** Names of files that are no photo, or that the browser cannot read. */
  readonly refused: readonly string[];
}

/**
 * Photos as the log keeps them: upright, no larger than is of use, and drawn anew as JPEG, so that nothing else that a phone puts
 * into its files (where it was taken, say) goes into the log.
 */
export async function readPhotos(files: readonly File[]): Promise<ReadPhotos> {
  const photos: CardPhoto[] = [];
  const refused: string[] = [];
  for (const file of files) {
    const photo = await readPhoto(file).catch(() => null);
    if (photo) photos.push(photo);
    else refused.push(file.name);
  }
  return { photos, refused };
}

/** Rejects with the browser's error; null: no photo. */
async function readPhoto(file: File): Promise<CardPhoto | null> {
  if (file.size > MOST_BYTES || photoTypeOf(new Uint8Array(await file.slice(0, 16).arrayBuffer())) === null)
    return null;
  const bitmap = await createImageBitmap(file);
  const share = Math.min(1, MOST_px / Math.max(bitmap.width, bitmap.height));
  const [width, height] = [Math.round(bitmap.width * share), Math.round(bitmap.height * share)];
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext("2d");
  if (!context) return null;
  // JPEG has no clear pixels: they would turn black
  context.fillStyle = "#ffffff";
  context.fillRect(0, 0, width, height);
  context.drawImage(bitmap, 0, 0, width, height);
  bitmap.close();
  const drawn = await canvas.convertToBlob({ type: "image/jpeg", quality: QUALITY });
  const bytes = new Uint8Array(await drawn.arrayBuffer());
  return { name: file.name, caption: "", type: "image/jpeg", bytes, width, height };
}
