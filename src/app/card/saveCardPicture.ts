import type { Card } from "../../buildlog/entry.ts";
import { fileNameOf, PICTURE_FILE, saveFile } from "../files/saveFile.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { drawCard } from "./drawCard.ts";

/** Saves the whole card as one picture. Null when the builder thought better of it; rejects with the browser's error. */
export async function saveCardPicture(card: Card, unit: Unit): Promise<string | null> {
  const name = fileNameOf(t("card.fileName", { number: card.number, title: card.title }), ".png");
  return saveFile(await drawCard(card, unit), name, PICTURE_FILE);
}
