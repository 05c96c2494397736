import { writeFile } from "node:fs/promises";
import { LARGEST_LOG_BYTES, readAnyLog } from "../buildlog/anyLog.ts";
import { type ClashItem, clashList } from "../buildlog/clashes.ts";
import { digestOf } from "../buildlog/digest.ts";
import type { Card } from "../buildlog/entry.ts";
import { type BuildLog, writeLog } from "../buildlog/logfile.ts";
import { writeHtml } from "../buildlog/report/html.ts";
import { logReport, type ReportOptions } from "../buildlog/report/logReport.ts";
import { writeMarkdown } from "../buildlog/report/markdown.ts";
import { logPdf } from "../buildlog/report/pdf.ts";
import { tellGap, tellStanding, tellState, tellWanted, tellWhat, tellWhen } from "../buildlog/report/tell.ts";
import { zipLog } from "../buildlog/report/zip.ts";
import { logSeal, sealOf } from "../buildlog/seal.ts";
import { InputError } from "../scene/error.ts";
import { paperOf, unitOf } from "./choice.ts";
import { readInput } from "./readInput.ts";
import { sheetFonts } from "./sheetFonts.ts";
import { tellTable } from "./tellState.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const REPORT_OPTIONS = ["to", "card", "paper", "units"] as const satisfies readonly OptionName[];

const KINDS = ".html, .pdf, .zip, .json or .md";

/** `report`: a saved build log told, or made into a page, a PDF, a zip, or Markdown. Status 1: something in it is open. */
export async function runReport(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const bytes = await readInput(path, LARGEST_LOG_BYTES, {
    code: "unreadable",
    file: path,
    wanted: "a build log as it was saved: JSON, zip or page",
  });
  const log = readAnyLog(bytes, path);
  const told: ReportOptions = { unit: unitOf(options), ...onlyOf(options.card, log) };
  const items = clashList(log.cards.map(digestOf), log.decisions);
  const status = items.some(({ state }) => state === "open") ? 1 : 0;
  const { to } = options;
  if (to !== undefined) {
    const content = await contentFor(to, log, told, options);
    await writeFile(to, content);
    return { output: options.json ? `${JSON.stringify({ files: [to] })}\n` : `${to}\n`, status };
  }
  if (options.json) return { output: `${JSON.stringify(summary(log, items, told))}\n`, status };
  return { output: tell(log, items, told), status };
}

async function contentFor(
  to: string,
  log: BuildLog,
  told: ReportOptions,
  options: VerbOptions,
): Promise<string | Uint8Array> {
  const ending = /\.[a-z]+$/.exec(to.toLowerCase())?.[0];
  switch (ending) {
    case ".html":
      return writeHtml(log, told);
    case ".pdf":
      return logPdf(log, { ...told, paper: paperOf(options), fonts: await sheetFonts() });
    case ".zip":
      return zipLog(log, told);
    case ".json":
      return writeLog(log);
    case ".md":
      return writeMarkdown(logReport(log, told), () => null);
    default:
      throw new InputError(
        "wrong-value",
        { path: "--to" },
        `"${to}" is no kind of report`,
        `a file that ends in ${KINDS}`,
      );
  }
}

function summary(log: BuildLog, items: readonly ClashItem[], { only }: ReportOptions) {
  const cards = shownCards(log, only);
  return {
    sha256: logSeal(log.cards.map(sealOf), log.decisions),
    cards: cards.map((card) => ({ ...digestOf(card), summary: card.summary, note: card.note, sha256: sealOf(card) })),
    clashes: items,
  };
}

function tell(log: BuildLog, items: readonly ClashItem[], { only, unit }: ReportOptions): string {
  const cards = shownCards(log, only).map((card) => {
    const { clash, tight, clear } = card.summary;
    const past = card.limits.filter(({ verdict }) => verdict === "clash").length;
    return [card.number, tellWhen(card.made), card.revision || "-", clash, past, tight, clear, card.title].map(String);
  });
  const lines = items.map((item) => [
    tellWhat(item.finding),
    tellGap(item.finding, unit),
    tellWanted(item.finding, unit),
    tellState(item.finding.at, unit),
    item.owner || "-",
    tellStanding(item),
  ]);
  return [
    "Cards:",
    ...tellTable(["card", "made", "rev", "clash", "past", "tight", "clear", "title"], cards),
    "",
    `Clash list (${unit}):`,
    ...(lines.length > 0 ? tellTable(["what", "closest", "wanted", "where", "owner", "state"], lines) : ["  nothing"]),
    "",
  ].join("\n");
}

function shownCards({ cards }: BuildLog, only: readonly number[] | undefined): Card[] {
  return cards.filter(({ number }) => only === undefined || only.includes(number)).sort((a, b) => a.number - b.number);
}

function onlyOf(wanted: readonly string[] | undefined, { cards }: BuildLog): Pick<ReportOptions, "only"> {
  if (wanted === undefined) return {};
  const only = wanted.map((text) => {
    const number = Number(text);
    if (cards.some((card) => card.number === number)) return number;
    const numbers = cards.map((card) => card.number).join(", ") || "a log with cards";
    throw new InputError("missing-id", { path: "--card" }, `there is no card "${text}"`, numbers);
  });
  return { only };
}
