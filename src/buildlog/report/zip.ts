import { strFromU8, strToU8, type Zippable, zipSync } from "fflate";
import { InputError } from "../../scene/error.ts";
import { shortQuote } from "../../scene/path.ts";
import type { BytesPlace } from "../bytesOf.ts";
import type { Card } from "../entry.ts";
import { asSaved, type BuildLog, packLog, parsedLog, unpackLog } from "../logfile.ts";
import { endingOf, photoTypeOf } from "../photo.ts";
import { sha256Of } from "../seal.ts";
import { logReport, type ReportOptions } from "./logReport.ts";
import { writeMarkdown } from "./markdown.ts";
import { unpackedZip } from "./unpackedZip.ts";

const LOG_NAME = "log.json";
const REPORT_NAME = "log.md";

/** Of the text of one card or of the list: pictures and photos lie beside it. */
const LONGEST_TEXT = 60_000_000;

/** The earliest date that a zip can tell, so that one log gives one file. */
const NO_DATE = new Date(1980, 0, 1);
/** Packed harder, a log is hardly smaller and takes three times as long. */
const PACKED = { mtime: NO_DATE, level: 1 } as const;

/** The log as a zip: `log.json`, `log.md` to read, and every picture and photo as a file. `unzipLog` gives it back exactly. */
export function zipLog(given: BuildLog, options: ReportOptions): Uint8Array {
  const log = asSaved(given);
  const files: Zippable = {};
  const names = new Map<string, string>();
  const packed = packLog(log, (bytes, card, place) => {
    const sha256 = sha256Of(bytes);
    const file = names.get(sha256) ?? freeName(files, card, place, bytes);
    names.set(sha256, file);
    // pictures are packed already
    files[file] = [bytes, { level: 0, mtime: NO_DATE }];
    return { file, sha256 };
  });
  // a file a card: all of them as one text could be longer than a text may be
  const cards = packed.cards.map((card, i) => {
    const file = `cards/${String(i + 1).padStart(4, "0")}.json`;
    files[file] = [strToU8(`${JSON.stringify(card)}\n`), PACKED];
    return { file };
  });
  files[LOG_NAME] = [strToU8(`${JSON.stringify({ ...packed, cards }, null, 1)}\n`), PACKED];
  const report = writeMarkdown(logReport(log, options), ({ bytes }) => names.get(sha256Of(bytes)) ?? null);
  files[REPORT_NAME] = [strToU8(report), PACKED];
  return zipSync(files);
}

/** True for the first bytes of a zip: local file header signature (APPNOTE 6.3.10, section 4.3.7). */
export function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 0x03 && bytes[3] === 0x04;
}

/** @throws InputError naming the file, the card and the field. */
export function unzipLog(bytes: Uint8Array, file: string): BuildLog {
  const files = unpackedZip(bytes, file);
  const log = files.get(LOG_NAME);
  if (log === undefined) {
    throw new InputError("wrong-format", { file }, `there is no ${LOG_NAME} in it`, "a build log as it was saved");
  }
  const contentOf = (packed: unknown, path: string): Uint8Array | null => {
    const name: unknown = typeof packed === "object" && packed !== null ? Reflect.get(packed, "file") : undefined;
    if (typeof name !== "string") return null;
    const content = files.get(name);
    if (content) return content;
    throw new InputError(
      "missing-id",
      { file, path },
      `there is no ${shortQuote(name)} in it`,
      "the zip as it was saved",
    );
  };
  const head = parsedText(log, LOG_NAME);
  const listed: unknown = typeof head === "object" && head !== null ? Reflect.get(head, "cards") : undefined;
  const cards = Array.isArray(listed)
    ? listed.map((entry: unknown, i) => {
        const content = contentOf(entry, `cards[${i}]`);
        return content ? parsedText(content, String(Reflect.get(entry as object, "file"))) : entry;
      })
    : listed;
  return unpackLog({ ...(head as object), cards }, file, (packed, path) => contentOf(packed, path) ?? packed);

  function parsedText(content: Uint8Array, name: string): unknown {
    if (content.length > LONGEST_TEXT) {
      const wrong = `${shortQuote(name)} in it is larger than 60 MB`;
      throw new InputError("too-large", { file }, wrong, "a build log as it was saved");
    }
    return parsedLog(strFromU8(content), `${file}/${name}`);
  }
}

/** "pictures/card-012-bump.png", "photos/card-012-2-bracket-tacked.jpg": letters and digits that every system can write. */
function freeName(taken: Zippable, card: Card, place: BytesPlace, bytes: Uint8Array): string {
  const isPhoto = place.path.startsWith("photos");
  const type = photoTypeOf(bytes) ?? "image/png";
  const words = place.name
    .replace(/\.[a-z]{3,4}$/i, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40);
  const stem = `${isPhoto ? "photos" : "pictures"}/card-${String(card.number).padStart(3, "0")}${words ? `-${words}` : ""}`;
  for (let n = 1; ; n++) {
    const name = `${stem}${n === 1 ? "" : `-${n}`}.${endingOf(type)}`;
    if (!(name in taken)) return name;
  }
}
