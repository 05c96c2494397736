import { describe, expect, it } from "vitest";
import { sheetFonts } from "../../../src/cli/sheetFonts.ts";
import type { SheetFacts } from "../../../src/fabrication/paper/frame.ts";
import type { MarkedPage } from "../../../src/fabrication/paper/marks.ts";
import { Sheet } from "../../../src/fabrication/paper/sheet.ts";
import { PAPER_mm, PAPERS } from "../../../src/fabrication/paper/sizes.ts";
import { inkAlong, renderPdf } from "../renderPdf.ts";

const facts: SheetFacts = {
  title: "Cut list",
  subject: "Trailing arm and hub in one piece",
  date: "2026-11-26",
  revision: "C",
  units: "mm, kg",
  standing: "drawn",
  datum: "axle line, centre plane, ground",
  cautions: [
    "Shape and movement only. It does not check strength. Have an engineer see arms, mounts and welds.",
    "Stands, never a jack alone; springs store energy.",
  ],
};

const begin = async (more: Partial<SheetFacts> = {}, paper: "a4" | "letter" = "a4", landscape = false) =>
  Sheet.begin({ ...facts, ...more }, { paper, landscape, fonts: await sheetFonts() });

/** Text without the breaks of its lines. */
const flat = (text: string) => text.replace(/\s+/g, " ");

describe("the frame of a sheet", () => {
  it.each(PAPERS)("is as large as %s", async (paper) => {
    const [page] = await renderPdf(await (await begin({}, paper)).finish());
    // ISO 216 A4: 210 × 297 mm; ANSI Y14.1 size A: 8.5 × 11 in; a point is 1/72 in
    expect(page!.width_pt).toBeCloseTo((PAPER_mm[paper].width / 25.4) * 72, 2);
    expect(page!.height_pt).toBeCloseTo((PAPER_mm[paper].height / 25.4) * 72, 2);
  });

  it("says on every page what a sheet must say, in black", async () => {
    const sheet = await begin();
    sheet.text("first");
    sheet.newPage();
    sheet.text("second");
    const pages = await renderPdf(await sheet.finish());
    expect(pages).toHaveLength(2);
    for (const [i, { text, coloured }] of pages.entries()) {
      for (const said of [
        facts.title,
        facts.subject,
        facts.date,
        facts.units,
        "as drawn",
        facts.datum,
        ...facts.cautions,
      ])
        expect(flat(text)).toContain(said.slice(0, -1));
      expect(text).toContain(`Page ${i + 1} of 2`);
      expect(coloured).toBe(false);
    }
    expect(pages[0]!.text).toContain("first");
    expect(pages[1]!.text).toContain("second");
  });

  it("leaves the page white round the margins, whatever the facts are", async () => {
    const long = "a very long name of a datum that needs several lines, ".repeat(4);
    const sheet = await begin({ datum: long, subject: long, title: long });
    sheet.text(long.repeat(30));
    for (const page of await renderPdf(await sheet.finish())) {
      for (const mm of [3, 7, 204]) expect(inkAlong(page, "down", mm)).toEqual([]);
      for (const mm of [3, 7, 292]) expect(inkAlong(page, "across", mm)).toEqual([]);
    }
  });

  it("draws true to scale, a line as long as it is told", async () => {
    const sheet = await begin();
    sheet.drawing(60, (pen) => {
      pen.fill([
        [
          [10, 20],
          [110, 20],
          [110, 22],
          [10, 22],
        ],
      ]);
      pen.line([20, 30], [121.6, 30], { width_mm: 2 });
      pen.circle([60, 45], 5, { width_mm: 0.5 });
    });
    const [page] = await renderPdf(await sheet.finish(), 20);
    const { left_mm, top_mm } = sheet.body;
    const bar = inkAlong(page!, "across", top_mm + 21).at(-1)!;
    expect(bar[0]).toBeCloseTo(left_mm + 10, 0);
    expect(Math.abs(bar[1] - bar[0] - 100)).toBeLessThan(0.1);
    const line = inkAlong(page!, "across", top_mm + 30).at(-1)!;
    expect(Math.abs(line[1] - line[0] - 101.6)).toBeLessThan(0.1);
    const [west, east] = inkAlong(page!, "across", top_mm + 45) as [[number, number], [number, number]];
    // the line lies half inside and half outside of the circle
    expect(Math.abs(east[1] - west[0] - 10.5)).toBeLessThan(0.1);
  });

  it("takes a long table over pages with its heading on each, no row lost and none parted", async () => {
    const sheet = await begin();
    const rows = Array.from({ length: 120 }, (_, i) => ({
      cells: [
        `tube-${i + 1}.`,
        `${(200 + i).toFixed(1)}`,
        i % 7 === 0 ? "a note that is long enough to be broken ".repeat(4) : "",
      ],
    }));
    sheet.table({ columns: [{ title: "Part" }, { title: "Eye to eye", align: "right" }, { title: "Note" }], rows });
    const pages = await renderPdf(await sheet.finish());
    expect(pages.length).toBeGreaterThan(2);
    for (const { text } of pages) expect(text).toContain("Eye to eye");
    const all = pages.map(({ text }) => text).join("\n");
    for (const { cells } of rows) expect(all.split(cells[0]!)).toHaveLength(2);
  });

  it("parts a row that is taller than a page", async () => {
    const sheet = await begin();
    const words = Array.from({ length: 2500 }, (_, i) => `w${i}x`);
    sheet.table({ columns: [{ title: "Note" }], rows: [{ cells: [words.join(" ")] }] });
    const pages = await renderPdf(await sheet.finish());
    const all = pages.map(({ text }) => text).join("\n");
    expect(words.filter((word) => !all.includes(word))).toEqual([]);
  });

  it("has the letters of the languages of Europe, Greek and Cyrillic too, and shows what it lacks", async () => {
    const sheet = await begin();
    const line = "Fahrhöhe ±0.5 mm × Ø30 −12 ½ äöüß éèçœ ñ ěščřž Łódź őű şğ åøæ „“ – — € Γέφυρα Ελλάδα Рычаг подвески.";
    sheet.text(line);
    sheet.text("日本\u0007 end.");
    const [page] = await renderPdf(await sheet.finish());
    expect(flat(page!.text)).toContain(line.slice(0, -1));
    expect(page!.text).toContain("end");
  });

  it("sets pictures side by side with their captions", async () => {
    // the smallest PNG: one black pixel
    const png = Uint8Array.from(
      Buffer.from(
        "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==",
        "base64",
      ),
    );
    const sheet = await begin();
    await sheet.pictures(
      [
        { bytes: png, type: "png", caption: "before." },
        { bytes: png, type: "png", caption: "after." },
      ],
      40,
    );
    const [page] = await renderPdf(await sheet.finish());
    expect(page!.text).toContain("before");
    expect(page!.text).toContain("after");
    const ink = inkAlong(page!, "across", sheet.body.top_mm + 20);
    expect(ink).toHaveLength(2);
    for (const [from, to] of ink) expect(to - from).toBeCloseTo(40, 0);
  });

  it("tells what stands on its pages, for looking at it first", async () => {
    let pages: readonly MarkedPage[] = [];
    const sheet = await Sheet.begin(facts, {
      paper: "letter",
      landscape: true,
      fonts: await sheetFonts(),
      onPages: (told) => {
        pages = told;
      },
    });
    sheet.text("a note with <b>markup</b>");
    sheet.drawing(30, (pen) => pen.within([0, 0], 20, 20, (inside) => inside.at([5, 5]).line([0, 0], [100, 0])));
    sheet.newPage();
    await sheet.finish();
    expect(pages.map(({ width_mm, height_mm }) => [width_mm, height_mm])).toEqual([
      [279.4, 215.9],
      [279.4, 215.9],
    ]);
    const texts = pages[0]!.marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));
    expect(texts).toEqual(expect.arrayContaining(["a note with <b>markup</b>", "Cut list", "as drawn", "Page 1 of 2"]));
    const within = pages[0]!.marks.find((mark) => mark.kind === "within")!;
    const { left_mm, top_mm } = sheet.body;
    expect(within.at[0]).toBeCloseTo(left_mm, 9);
    expect(within.marks).toEqual([
      expect.objectContaining({ kind: "path", spots: [expect.any(Array), [left_mm + 105, expect.any(Number)]] }),
    ]);
    expect(within.at[1]).toBeGreaterThan(top_mm);
  });

  it("is the same file for the same sheet", async () => {
    const one = await (await begin()).finish();
    const two = await (await begin()).finish();
    expect(Buffer.from(one).equals(Buffer.from(two))).toBe(true);
  });
});
