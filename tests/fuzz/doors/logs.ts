import { readFileSync } from "node:fs";
import fc from "fast-check";
import { readAnyLog } from "../../../src/buildlog/anyLog.ts";
import { toBase64 } from "../../../src/buildlog/base64.ts";
import { clashList } from "../../../src/buildlog/clashes.ts";
import { digestOf } from "../../../src/buildlog/digest.ts";
import { type BuildLog, packLog, readLog, writeLog } from "../../../src/buildlog/logfile.ts";
import { writeHtml } from "../../../src/buildlog/report/html.ts";
import { logReport } from "../../../src/buildlog/report/logReport.ts";
import { writeMarkdown } from "../../../src/buildlog/report/markdown.ts";
import { logPdf } from "../../../src/buildlog/report/pdf.ts";
import { zipLog } from "../../../src/buildlog/report/zip.ts";
import { sheetFonts } from "../../../src/cli/sheetFonts.ts";
import { drawnPng } from "../../buildlog/drawnPng.ts";
import { fullLog } from "../../buildlog/logs.ts";
import { type Door, type Handed, holds } from "../door.ts";
import { spoilt, utf8 } from "../grammar/bytes.ts";
import { spoiltTree } from "../grammar/tree.ts";

const MM = { unit: "mm" } as const;
const VERSION_1 = readFileSync(new URL("../../fixtures/build-log-version-1.json", import.meta.url), "utf8");
const full = fullLog();
const LOG: BuildLog = {
  cards: full.cards.map((card, i) => ({
    ...card,
    picture: i === 0 ? { png: drawnPng(8, 6, [9, 90, 9]), width: 8, height: 6 } : card.picture,
  })),
  decisions: full.decisions,
};

const words = [
  '"cards":[',
  '"sha256":',
  '"__proto__":1,',
  '"version":3,',
  "[",
  "]",
  "{",
  "}",
  ",",
  "1e999",
  '"',
  "\\u0000",
  "null,",
  "</script>",
  '<img id="f-',
  "PK\x03\x04",
  "PK\x01\x02",
];

/** A log whose cards were changed and sealed anew: what a seal cannot tell. */
function sealed(log: BuildLog): Uint8Array {
  return utf8(JSON.stringify(packLog(log, (bytes) => (bytes instanceof Uint8Array ? toBase64(bytes) : bytes))));
}

const resealed = spoiltTree([LOG]).map((log) => {
  try {
    return sealed(log);
  } catch {
    // not to be sealed any more
    return utf8(JSON.stringify(log));
  }
});
const jsonLogs = fc.oneof(
  { weight: 2, arbitrary: spoilt([utf8(VERSION_1), utf8(writeLog(LOG))], words) },
  { weight: 4, arbitrary: spoiltTree([JSON.parse(VERSION_1)]).map((log) => utf8(JSON.stringify(log) ?? "")) },
  { weight: 4, arbitrary: resealed },
);
const zipLogs = spoilt([zipLog(LOG, MM), zipLog({ cards: LOG.cards.slice(2), decisions: [] }, MM)], words);
const pageLogs = spoilt([utf8(writeHtml(LOG, MM))], words);

async function openLog({ file, content }: Handed): Promise<void> {
  const bytes = content as Uint8Array;
  const log = readAnyLog(bytes, file);
  const text = writeLog(log);
  holds(writeLog(readLog(text, "again")) === text, "the same when read again");
  clashList(log.cards.map(digestOf), log.decisions);
  writeMarkdown(logReport(log, MM), () => null);
  writeHtml(log, MM);
  zipLog(log, MM);
  // letters are set at leisure: some of the logs tell as much
  if (bytes.length % 16 === 0) await logPdf(log, { ...MM, paper: "a4", fonts: await sheetFonts() });
}

function door(name: string, ending: string, share: number, files: fc.Arbitrary<Uint8Array>): Door {
  return { name, share, ending, cases: files.map((content) => ({ file: `log.${ending}`, content })), open: openLog };
}

export const LOG_DOORS: readonly Door[] = [
  door("log", "json", 70, jsonLogs),
  door("log-zip", "zip", 60, zipLogs),
  door("log-page", "html", 20, pageLogs),
];
