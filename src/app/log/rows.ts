import { type CardDigest, digestOf } from "../../buildlog/digest.ts";
import type { Card, CardPicture } from "../../buildlog/entry.ts";
import { cardTallies } from "../card/facts.ts";
import type { RowKind } from "../corner/ledgerRows.ts";

/** What the timeline shows of a card: small, so that a log of hundreds opens at once. */
export interface CardRow {
  readonly digest: CardDigest;
  readonly tally: Readonly<Record<RowKind, number>>;
  /** A small PNG; null where the card has no picture, or the browser could not make one smaller. */
  readonly thumb: Uint8Array | null;
}

export async function rowOf(card: Card): Promise<CardRow> {
  const picture = card.picture ?? card.views[0]?.picture ?? null;
  return { digest: digestOf(card), tally: cardTallies(card), thumb: picture && (await smaller(picture)) };
}

/** Two dots for each CSS px of the timeline's picture. */
const THUMB_WIDTH = 148;

async function smaller({ png, width, height }: CardPicture): Promise<Uint8Array | null> {
  if (typeof OffscreenCanvas === "undefined") return null;
  const share = Math.min(1, THUMB_WIDTH / width);
  const size = { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) };
  try {
    const bitmap = await createImageBitmap(new Blob([png as BlobPart], { type: "image/png" }), {
      resizeWidth: size.width,
      resizeHeight: size.height,
      resizeQuality: "high",
    });
    const canvas = new OffscreenCanvas(size.width, size.height);
    canvas.getContext("2d")?.drawImage(bitmap, 0, 0);
    bitmap.close();
    return new Uint8Array(await (await canvas.convertToBlob({ type: "image/png" })).arrayBuffer());
  } catch {
    // a picture that the browser cannot draw is still the card's; the timeline goes without it
    return null;
  }
}
