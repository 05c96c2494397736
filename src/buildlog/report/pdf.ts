import type { SheetFonts } from "../../fabrication/paper/fonts.ts";
import { Sheet, type SheetPicture } from "../../fabrication/paper/sheet.ts";
import type { Paper } from "../../fabrication/paper/sizes.ts";
import { CAUTION } from "../entry.ts";
import type { BuildLog } from "../logfile.ts";
import type { PictureBlock, ReportBlock, TableBlock } from "./blocks.ts";
import { logReport, type ReportOptions, sceneTitles } from "./logReport.ts";
import { DATUM, tellUnits, tellWhen } from "./tell.ts";

export interface PaperOptions extends ReportOptions {
  readonly paper: Paper;
  readonly fonts: SheetFonts;
}

/** A picture alone is as high as this at most, one of two beside each other as that, mm. */
const ALONE_mm = 95;
const BESIDE_mm = 62;
const FACT_mm = 3;

/** The log on paper. A picture that no PDF can hold (WebP, or broken) is named in its place. */
export async function logPdf(log: BuildLog, options: PaperOptions): Promise<Uint8Array> {
  const { unit, paper, fonts } = options;
  const told =
    options.only === undefined ? log.cards : log.cards.filter(({ number }) => options.only!.includes(number));
  const last = [...told].sort((a, b) => (a.made < b.made ? 1 : -1))[0];
  const sheet = await Sheet.begin(
    {
      title: "Build log",
      subject: sceneTitles(log),
      date: last ? tellWhen(last.made) : "",
      revision: last?.revision ?? "",
      units: tellUnits(unit),
      standing: "drawn",
      datum: DATUM,
      cautions: [CAUTION],
    },
    { paper, fonts },
  );
  const blocks = logReport(log, options);
  for (let i = 0; i < blocks.length; i++) {
    const block = blocks[i]!;
    if (block.kind === "picture") {
      const row = pictureRow(blocks, i);
      await pictures(sheet, row);
      i += row.length - 1;
    } else {
      plainBlock(sheet, block);
    }
  }
  return sheet.finish();
}

/** The picture there and, if another one follows, that beside it. */
function pictureRow(blocks: readonly ReportBlock[], at: number): PictureBlock[] {
  return blocks.slice(at, at + 2).filter((block) => block.kind === "picture");
}

function plainBlock(sheet: Sheet, block: Exclude<ReportBlock, PictureBlock>): void {
  switch (block.kind) {
    case "heading":
      // the first one is the sheet's own title
      if (block.level > 1) sheet.heading(block.text, block.card === undefined ? 16 : 60);
      break;
    case "text":
      // the usual caution stands on every page
      if (block.text !== CAUTION) sheet.text(block.text);
      break;
    case "facts":
      sheet.text(block.facts.map(([name, value]) => `${name}: ${value}`).join("\n"), { size_mm: FACT_mm });
      break;
    case "table":
      table(sheet, block);
  }
}

function table(sheet: Sheet, { caption, head, rows, figures }: TableBlock): void {
  sheet.need(24);
  sheet.text(caption, { bold: true, size_mm: FACT_mm });
  sheet.table({
    columns: head.map((title, i) => ({ title, align: figures.includes(i) ? "right" : "left" })),
    rows: rows.map((cells) => ({ cells })),
  });
}

async function pictures(sheet: Sheet, row: readonly PictureBlock[]): Promise<void> {
  const drawable = row.flatMap(({ bytes, type, caption }): SheetPicture[] =>
    type === "image/webp" ? [] : [{ bytes, type: type === "image/png" ? "png" : "jpeg", caption }],
  );
  const unusable = row.filter(({ type }) => type === "image/webp");
  try {
    if (drawable.length > 0) await sheet.pictures(drawable, drawable.length === 1 ? ALONE_mm : BESIDE_mm);
  } catch {
    // which of two is broken the library does not say: each is tried alone
    if (row.length > 1) {
      for (const one of row) await pictures(sheet, [one]);
      return;
    }
    unusable.push(...row);
  }
  for (const { caption } of unusable) sheet.text(`(A picture that cannot be printed: ${caption})`);
}
