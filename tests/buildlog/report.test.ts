import { unzipSync } from "fflate";
import MarkdownIt from "markdown-it";
import { type DefaultTreeAdapterTypes, parse } from "parse5";
import { describe, expect, it } from "vitest";
import { costTable } from "../../src/buildlog/report/cardReport.ts";
import { writeHtml } from "../../src/buildlog/report/html.ts";
import { logReport } from "../../src/buildlog/report/logReport.ts";
import { escapeMarkdown, writeMarkdown } from "../../src/buildlog/report/markdown.ts";
import { zipLog } from "../../src/buildlog/report/zip.ts";
import { sha256Of } from "../../src/buildlog/seal.ts";
import { card, curvePoint, POINTS, pair, result } from "./fixture.ts";
import { fullLog, NASTY } from "./logs.ts";

const MM = { unit: "mm" } as const;
type Node = DefaultTreeAdapterTypes.Node;

/** All elements of a page, as the HTML standard's parser reads it (parse5). */
function elementsOf(html: string): DefaultTreeAdapterTypes.Element[] {
  const found: DefaultTreeAdapterTypes.Element[] = [];
  const walk = (node: Node) => {
    if ("tagName" in node) found.push(node);
    if ("childNodes" in node) for (const child of node.childNodes) walk(child);
  };
  walk(parse(html));
  return found;
}

const attribute = (element: DefaultTreeAdapterTypes.Element, name: string) =>
  element.attrs.find((found) => found.name === name)?.value;

function textOf(node: Node): string {
  if ("value" in node) return node.value;
  return "childNodes" in node ? node.childNodes.map(textOf).join("") : "";
}

describe("the page", () => {
  const html = writeHtml(fullLog(), MM);
  const elements = elementsOf(html);

  it("runs nothing and fetches nothing, whatever is in notes and names", () => {
    const scripts = elements.filter(({ tagName }) => tagName === "script");
    expect(scripts.map((script) => attribute(script, "type"))).toEqual(["application/json"]);
    const tags = new Set(elements.map(({ tagName }) => tagName));
    for (const tag of ["svg", "iframe", "object", "embed", "link", "base", "form", "a"])
      expect(tags).not.toContain(tag);
    const names = elements.flatMap(({ attrs }) => attrs.map(({ name }) => name));
    expect(names.filter((name) => name.startsWith("on"))).toEqual([]);
    for (const image of elements.filter(({ tagName }) => tagName === "img")) {
      expect(attribute(image, "src")).toMatch(/^data:image\/(png|jpeg|webp);base64,/);
    }
    const policy = elements.find((element) => attribute(element, "http-equiv") === "Content-Security-Policy")!;
    expect(attribute(policy, "content")).toContain("default-src 'none'");
  });

  it("shows what was written, letter for letter", () => {
    const notes = elements.filter((element) => attribute(element, "class") === "text note").map(textOf);
    // the parser turns CR LF into LF; a lone surrogate and control characters are in no HTML document
    expect(notes).toContain(NASTY.join("\n").replaceAll("\r\n", "\n").replace("\u0000\u0007", "\ufffd\ufffd"));
    const titles = elements.filter(({ tagName }) => tagName === "h2").map(textOf);
    expect(titles).toContain(`Card 13: ${NASTY[0]}`);
  });

  it("has the page's own title, once, and every card's caution", () => {
    expect(elements.filter(({ tagName }) => tagName === "h1").map(textOf)).toEqual(["Build log: Wren rear end"]);
    expect(html.split("spring out, on stands").length - 1).toBeGreaterThanOrEqual(4);
  });
});

describe("the Markdown", () => {
  // HTML let through on purpose: what a careless reader would do
  const reader = new MarkdownIt({ html: true, linkify: true });

  it("has a picture for every file of the zip, and nothing that would run", () => {
    const files = unzipSync(zipLog(fullLog(), MM));
    const html = reader.render(new TextDecoder().decode(files["log.md"]));
    const elements = elementsOf(html);
    const tags = new Set(elements.map(({ tagName }) => tagName));
    for (const tag of ["script", "svg", "a", "iframe"]) expect(tags).not.toContain(tag);
    const shown = elements.filter(({ tagName }) => tagName === "img").map((image) => attribute(image, "src")!);
    const pictures = Object.keys(files).filter((name) => /^(pictures|photos)\//.test(name));
    expect(new Set(shown)).toEqual(new Set(pictures));
    // a picture of a card, one that three views share, three photos
    expect(pictures).toHaveLength(5);
  });

  it.each(NASTY.map((text) => [text]))("gives back what was written: %j", (text) => {
    const line = text
      .replace(/[\p{Cc}\p{Cs}]/gu, " ")
      .replace(/\s+/g, " ")
      .trim();
    const html = reader.render(`# ${escapeMarkdown(line)}\n`);
    const [heading] = elementsOf(html).filter(({ tagName }) => tagName === "h1");
    expect(textOf(heading!)).toBe(line);
    expect("childNodes" in heading! && heading.childNodes.every((child) => child.nodeName === "#text")).toBe(true);
  });

  it("keeps a bar in a cell, and the lines of a note", () => {
    const md = writeMarkdown(
      [
        { kind: "table", caption: "c", head: ["a|b", "n"], rows: [["x | y", "1"]], figures: [1] },
        { kind: "text", look: "note", text: "one\ntwo\n\n# three" },
      ],
      () => null,
    );
    const elements = elementsOf(reader.render(md));
    expect(elements.filter(({ tagName }) => tagName === "td" || tagName === "th").map(textOf)).toEqual([
      "a|b",
      "n",
      "x | y",
      "1",
    ]);
    const [quote] = elements.filter(({ tagName }) => tagName === "blockquote");
    expect(textOf(quote!).replace(/\n+/g, "\n").trim()).toBe("one\ntwo\n# three");
  });
});

describe("the zip", () => {
  const files = unzipSync(zipLog(fullLog(), MM));

  it("has every picture and photo to the byte, under names that every system can write", () => {
    const names = Object.keys(files);
    for (const name of names)
      expect(name).toMatch(
        /^(log\.(json|md)|cards\/\d{4}\.json|(pictures|photos)\/card-\d{3}[a-z0-9-]*\.(png|jpg|webp))$/,
      );
    const kept = new Set(names.map((name) => sha256Of(files[name]!)));
    for (const { picture, views, photos } of fullLog().cards) {
      const all = [
        ...(picture ? [picture.png] : []),
        ...views.map((v) => v.picture.png),
        ...photos.map((p) => p.bytes),
      ];
      for (const bytes of all) expect(kept).toContain(sha256Of(bytes));
    }
  });
});

describe("what a report tells", () => {
  const before = card({ number: 12 });
  const after = card({
    number: 14,
    revision: "B",
    points: { ...POINTS, "upper.in": [130, 392, 446] },
    result: result({
      pairs: [pair({ clearance_mm: 5.1, verdict: "tight" })],
      sides: {
        left: { curve: [curvePoint(-70, { toe_deg: -0.2 }), curvePoint(80, { toe_deg: 0.13 })], bindsAt_mm: null },
      },
    }),
  });
  const blocks = logReport({ cards: [after, before], decisions: [] }, MM);
  const tables = blocks.filter((block) => block.kind === "table");

  it("tells cards in the order they were made, with date, revision, units, datum and basis", () => {
    const titles = blocks.flatMap((block) => (block.kind === "heading" ? [block.text] : []));
    expect(titles).toEqual([
      "Build log: Wren rear end",
      "Clash list",
      "Card 12: Donor mounts in",
      "Card 14: Donor mounts in",
    ]);
    const facts = new Map(blocks.flatMap((block) => (block.kind === "facts" ? block.facts : [])));
    expect(facts.get("Units")).toBe("mm, degrees");
    expect(facts.get("Datum")).toMatch(/axle line.*centre plane.*ground/);
    expect(facts.get("Revision")).toBe("B");
    expect(facts.get("State")).toBe("as drawn");
    expect(facts.get("Date")).toBe("12 Nov 2026, 21:15 UTC");
  });

  it("tells what moved and how far", () => {
    const moved = tables.find(({ caption }) => caption.startsWith("Moved since card 12"))!;
    // the square root of 20² + 6² is 20.88
    expect(moved.rows).toEqual([
      ["upper.in", "150.0, 392.0, 440.0", "130.0, 392.0, 446.0", "−20.0, 0.0, +6.0", "20.9"],
    ]);
  });

  it("tells what it cost in angles and won in room", () => {
    const rows = new Map(costTable(before, after, "mm")!.rows.map(([what, ...cells]) => [what, cells]));
    // toe ran from −0.10 to 0.13, now from −0.20 to 0.13
    expect(rows.get("Toe through travel (left)")).toEqual(["0.23°", "0.33°", "+0.10°"]);
    expect(rows.get("Room of ear and upper (left)")).toEqual(["−6.2", "+5.1", "+11.3"]);
    expect(costTable(before, before, "mm")).toBeNull();
  });

  it("tells inches where inches are wanted: 130 mm is 5.118 in", () => {
    const inches = logReport({ cards: [before, after], decisions: [] }, { unit: "in" });
    expect(JSON.stringify(inches)).toContain("5.118, 15.433, 17.559");
  });

  it("tells the cards that are asked for, held against the ones before them", () => {
    const one = logReport({ cards: [before, after], decisions: [] }, { ...MM, only: [14] });
    expect(one.filter((block) => block.kind === "heading").map(({ text }) => text)).not.toContain(
      "Card 12: Donor mounts in",
    );
    expect(JSON.stringify(one)).toContain("Moved since card 12");
  });
});
