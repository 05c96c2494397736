import { InputError } from "../../scene/error.ts";
import { fromBase64, toBase64 } from "../base64.ts";
import { asOneText, asSaved, type BuildLog, packLog, parsedLog, unpackLog } from "../logfile.ts";
import { photoTypeOf } from "../photo.ts";
import { sha256Of } from "../seal.ts";
import type { PictureBlock, ReportBlock, TableBlock } from "./blocks.ts";
import { logReport, type ReportOptions, reportTitle } from "./logReport.ts";

/** Where the log itself lies in the page. */
const DATA_START = '<script type="application/json" id="elbowroom-log">';
const DATA_END = "</script>";

/** Nothing in the page may run or be fetched, whatever somebody wrote into a note. */
const POLICY = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

const STYLE = `
:root { color-scheme: light; }
body { margin: 0 auto; padding: 24px 20px 60px; max-width: 1000px; color: #12191b; background: #fff; font: 16px/1.45 "Atkinson Hyperlegible Next", system-ui, sans-serif; }
h1 { font-size: 28px; } h2 { margin: 44px 0 8px; padding-top: 10px; border-top: 2px solid #12191b; font-size: 21px; }
h1, h2, p, dd, figcaption, caption { overflow-wrap: anywhere; } td, th { overflow-wrap: break-word; min-width: 3em; }
p.text { white-space: pre-wrap; } p.note { font-style: italic; } p.caution { padding: 8px 12px; border-left: 5px solid #12191b; background: #f2f4f3; font-size: 14px; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 2px 16px; } dt { color: #465254; } dd { margin: 0; }
.table { margin: 16px 0; overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: 14px; } caption { padding-bottom: 4px; font-weight: 600; text-align: left; }
th, td { padding: 4px 12px 4px 0; border-top: 1px solid #c5cfcd; text-align: left; vertical-align: top; } .figure { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
figure { margin: 16px 0; } img { max-width: 100%; height: auto; border: 1px solid #c5cfcd; } figcaption { color: #465254; font-size: 14px; }
nav ol { padding-left: 20px; }
@media print { body { max-width: none; padding: 0; } h2 { break-after: avoid; } figure, tr { break-inside: avoid; } nav { display: none; } }
`;

/**
 * The log as one page that needs nothing else: readable anywhere, nothing in it runs, and `readHtmlLog` gives the log back
 * exactly. Every picture is in it once. @throws InputError for a log that is too large for one page
 */
export function writeHtml(log: BuildLog, options: ReportOptions): string {
  return asOneText(() => page(asSaved(log), options));
}

function page(log: BuildLog, options: ReportOptions): string {
  const blocks = logReport(log, options);
  const shown = new Set<string>();
  const body = blocks.map((block) => blockHtml(block, shown)).join("\n");
  // pictures of cards that are not told still belong to the log
  const kept: string[] = [];
  const packed = packLog(log, (bytes) => {
    const sha256 = sha256Of(bytes);
    if (!shown.has(sha256)) {
      const type = photoTypeOf(bytes) ?? "image/png";
      kept.push(imageHtml(bytes, type, sha256, "", " hidden", shown));
    }
    return { sha256 };
  });
  const data = JSON.stringify(packed).replaceAll("<", "\\u003c");
  const title = escapeHtml(reportTitle(log));
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${STYLE}</style>
</head>
<body>
${body}
${kept.join("\n")}
${DATA_START}${data}${DATA_END}
</body>
</html>
`;
}

/** True for a page that `writeHtml` wrote. */
export function isHtmlLog(text: string): boolean {
  return /^\s*<!doctype html>/i.test(text.slice(0, 200)) && text.includes(DATA_START);
}

/** The log out of such a page. @throws InputError naming the file, the card and the field. */
export function readHtmlLog(text: string, file: string): BuildLog {
  const start = text.lastIndexOf(DATA_START);
  const end = text.indexOf(DATA_END, start);
  if (start < 0 || end < 0) {
    throw new InputError(
      "wrong-format",
      { file },
      "it is no page of a build log, or not all of it",
      "a build log as it was saved",
    );
  }
  const images = imagesOf(text.slice(0, start));
  return unpackLog(parsedLog(text.slice(start + DATA_START.length, end), file), file, (packed, path) => {
    const sha256: unknown = typeof packed === "object" && packed !== null ? Reflect.get(packed, "sha256") : undefined;
    if (typeof sha256 !== "string") return packed;
    const bytes = images.get(sha256);
    if (bytes === undefined) {
      throw new InputError("checksum", { file, path }, "its picture is not in the page", "the page as it was saved");
    }
    return bytes;
  });
}

/** Written by `imageHtml` alone: in any other place of the page a quote or an angle bracket is escaped. */
const IMAGE = /<img id="f-([0-9a-f]{64})" src="data:[a-z/]+;base64,([A-Za-z0-9+/=]*)"/g;

function imagesOf(page: string): Map<string, Uint8Array> {
  const images = new Map<string, Uint8Array>();
  for (const [, sha256, base64] of page.matchAll(IMAGE)) {
    const bytes = fromBase64(base64!);
    if (typeof bytes !== "string") images.set(sha256!, bytes);
  }
  return images;
}

function blockHtml(block: ReportBlock, shown: Set<string>): string {
  switch (block.kind) {
    case "heading":
      return `<h${block.level}>${escapeHtml(block.text)}</h${block.level}>`;
    case "text":
      return `<p class="text ${block.look}">${escapeHtml(block.text)}</p>`;
    case "facts":
      return `<dl>${block.facts.map(([name, value]) => `<dt>${escapeHtml(name)}</dt><dd>${escapeHtml(value)}</dd>`).join("")}</dl>`;
    case "table":
      return tableHtml(block);
    case "picture":
      return pictureHtml(block, shown);
  }
}

function tableHtml({ caption, head, rows, figures }: TableBlock): string {
  const look = (column: number) => (figures.includes(column) ? ' class="figure"' : "");
  const cells = (row: readonly string[]) => row.map((cell, i) => `<td${look(i)}>${escapeHtml(cell)}</td>`).join("");
  return `<div class="table"><table><caption>${escapeHtml(caption)}</caption>
<thead><tr>${head.map((cell, i) => `<th scope="col"${look(i)}>${escapeHtml(cell)}</th>`).join("")}</tr></thead>
<tbody>${rows.map((row) => `<tr>${cells(row)}</tr>`).join("\n")}</tbody></table></div>`;
}

function pictureHtml({ bytes, type, caption, width, height }: PictureBlock, shown: Set<string>): string {
  const size = ` width="${width}" height="${height}"`;
  const image = imageHtml(bytes, type, sha256Of(bytes), caption, size, shown);
  return `<figure>${image}<figcaption>${escapeHtml(caption)}</figcaption></figure>`;
}

function imageHtml(
  bytes: Uint8Array,
  type: string,
  sha256: string,
  caption: string,
  attributes: string,
  shown: Set<string>,
): string {
  // an id stands once in a page
  const id = shown.has(sha256) ? "" : ` id="f-${sha256}"`;
  shown.add(sha256);
  return `<img${id} src="data:${type};base64,${toBase64(bytes)}" alt="${escapeHtml(caption)}"${attributes}>`;
}

/** Text for an element or a quoted attribute (HTML Living Standard, 13.3). */
export function escapeHtml(text: string): string {
  return (
    text
      .replaceAll("&", "&amp;")
      .replaceAll("<", "&lt;")
      .replaceAll(">", "&gt;")
      .replaceAll('"', "&quot;")
      .replaceAll("'", "&#39;")
      // what the HTML standard allows in no document
      .replace(/(?![\t\n\r])\p{Cc}/gu, "\ufffd")
  );
}
