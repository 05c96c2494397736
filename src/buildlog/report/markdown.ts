import type { PictureBlock, ReportBlock, TableBlock } from "./blocks.ts";

/** The report as Markdown with tables; `addressOf` says where a picture lies beside it. */
export function writeMarkdown(
  blocks: readonly ReportBlock[],
  addressOf: (picture: PictureBlock) => string | null,
): string {
  return `${blocks.map((block) => blockMarkdown(block, addressOf)).join("\n\n")}\n`;
}

function blockMarkdown(block: ReportBlock, addressOf: (picture: PictureBlock) => string | null): string {
  switch (block.kind) {
    case "heading":
      return `${"#".repeat(block.level)} ${oneLine(block.text)}`;
    case "text":
      return block.look === "plain" ? paragraph(block.text) : quoted(block.text);
    case "facts":
      return block.facts.map(([name, value]) => `- ${oneLine(name)}: ${oneLine(value)}`).join("\n");
    case "table":
      return table(block);
    case "picture": {
      const address = addressOf(block);
      return address === null ? `(${oneLine(block.caption)})` : `![${oneLine(block.caption)}](${address})`;
    }
  }
}

function table({ caption, head, rows, figures }: TableBlock): string {
  const line = (cells: readonly string[]) => `| ${cells.map(oneLine).join(" | ")} |`;
  const rule = head.map((_, column) => (figures.includes(column) ? "---:" : "---"));
  return [oneLine(caption), "", line(head), `| ${rule.join(" | ")} |`, ...rows.map(line)].join("\n");
}

/** Lines of the builder's own, each kept (a backslash at its end is a line break, CommonMark 0.31, 6.7). */
function paragraph(text: string): string {
  const lines = text.split(/\r\n|\r|\n/).map((line) => escapeMarkdown(line.trim()));
  return lines
    .map((line, i) => (line !== "" && lines[i + 1] ? `${line}\\` : line))
    .join("\n")
    .replace(/\n{3,}/g, "\n\n");
}

function quoted(text: string): string {
  return paragraph(text)
    .split("\n")
    .map((line) => `> ${line}`.trimEnd())
    .join("\n");
}

function oneLine(text: string): string {
  return escapeMarkdown(text.replace(/\s+/g, " ").trim());
}

/** Any ASCII punctuation may be escaped by a backslash (CommonMark 0.31, 2.4): what could begin or end something is, nothing else. */
export function escapeMarkdown(text: string): string {
  return text
    .replace(/[\\`*_[\]<>#|~&]/g, "\\$&")
    .replace(/^(\s*)([+=:-])/, "$1\\$2")
    .replace(/^(\s*\d+)([.)])(?=\s|$)/, "$1\\$2");
}
