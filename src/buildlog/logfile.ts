import { InputError } from "../scene/error.ts";
import type { Card } from "./entry.ts";
import { readCard } from "./read.ts";

export const LOG_FORMAT = "elbowroom.log";
export const LOG_VERSION = 1;

/** All cards as one text (JSON), pictures as base64; `readLog` gives them back exactly. */
export function writeLog(cards: readonly Card[]): string {
  const plain = cards.map((card) => ({
    ...card,
    picture: card.picture && { ...card.picture, png: toBase64(card.picture.png) },
  }));
  return `${JSON.stringify({ format: LOG_FORMAT, version: LOG_VERSION, cards: plain }, null, 1)}\n`;
}

/** @throws InputError naming the file, the card and the field. */
export function readLog(text: string, file: string): Card[] {
  let log: unknown;
  try {
    log = JSON.parse(text);
  } catch {
    throw new InputError("not-json", { file }, "it is not JSON", "a build log as it was saved");
  }
  if (!isLog(log)) {
    throw new InputError("wrong-format", { file, path: "format" }, "it is not a build log", `"${LOG_FORMAT}"`);
  }
  if (log.version !== LOG_VERSION) {
    throw new InputError(
      "wrong-version",
      { file, path: "version" },
      `its version is ${JSON.stringify(log.version)}`,
      `version ${LOG_VERSION}`,
    );
  }
  return log.cards.map((card, index) => readCard(withPicture(card), file, `cards[${index}]`));
}

/** True for text that means to be a build log, whatever its version and faults. */
export function isLogText(text: string): boolean {
  return new RegExp(`^\\s*\\{\\s*"format"\\s*:\\s*"${LOG_FORMAT}"`).test(text);
}

function isLog(value: unknown): value is { version: unknown; cards: unknown[] } {
  return (
    typeof value === "object" &&
    value !== null &&
    Reflect.get(value, "format") === LOG_FORMAT &&
    Array.isArray(Reflect.get(value, "cards"))
  );
}

function withPicture(card: unknown): unknown {
  if (typeof card !== "object" || card === null) return card;
  const picture: unknown = Reflect.get(card, "picture");
  if (typeof picture !== "object" || picture === null) return card;
  const png: unknown = Reflect.get(picture, "png");
  return typeof png === "string" ? { ...card, picture: { ...picture, png: fromBase64(png) } } : card;
}

/** In pieces: one call cannot take the millions of arguments that a picture has. */
function toBase64(bytes: Uint8Array): string {
  let text = "";
  for (let start = 0; start < bytes.length; start += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(start, start + 0x8000));
  }
  return btoa(text);
}

/** Text that is not base64 stays text: the card's own check then names the field. */
function fromBase64(text: string): Uint8Array | string {
  try {
    return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
  } catch {
    return text;
  }
}
