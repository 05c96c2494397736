import { describe, expect, it } from "vitest";
import { logPdf } from "../../src/buildlog/report/pdf.ts";
import { sheetFonts } from "../../src/cli/sheetFonts.ts";
import { PAPER_mm, PAPERS } from "../../src/fabrication/paper/sizes.ts";
import { renderPdf } from "../fabrication/renderPdf.ts";
import { drawnPng } from "./drawnPng.ts";
import { card, POINTS, pair, result } from "./fixture.ts";
import { fullLog, NASTY, photo } from "./logs.ts";

/** Text without the breaks of its lines. */
const flat = (text: string) => text.replace(/\s+/g, " ");
const png = drawnPng(64, 40, [200, 30, 30]);

describe.each(PAPERS)("the log on %s", (paper) => {
  it("says on every page what it is, of when, in what units, from where, and the caution", async () => {
    const log = {
      cards: [
        card({ number: 12, picture: { png, width: 64, height: 40 } }),
        card({
          number: 13,
          revision: "B",
          made: new Date("2026-11-14T07:30:00Z"),
          points: { ...POINTS, "upper.in": [130, 392, 446] },
          result: result({ pairs: [pair({ clearance_mm: 5.1, verdict: "tight" })] }),
        }),
      ],
      decisions: [],
    };
    const pages = await renderPdf(await logPdf(log, { unit: "mm", paper, fonts: await sheetFonts() }));
    expect(pages[0]!.width_pt).toBeCloseTo((PAPER_mm[paper].width / 25.4) * 72, 1);
    for (const [i, page] of pages.entries()) {
      const text = flat(page.text);
      for (const said of [
        "Build log",
        "Wren rear end",
        "14 Nov 2026, 07:30 UTC",
        "mm, degrees",
        "as drawn",
        "up from the ground",
        "spring out, on stands",
        `Page ${i + 1} of ${pages.length}`,
      ]) {
        expect(text).toContain(said);
      }
    }
    const all = flat(pages.map((page) => page.text).join(" "));
    expect(all).toContain("Moved since card 12");
    expect(all).toContain("Room of ear and upper (left)");
    // the picture is on paper, in its colours
    expect(pages.some(({ coloured }) => coloured)).toBe(true);
  });
});

it("names what cannot be printed in its place, and prints any text as text", async () => {
  const log = fullLog();
  const pages = await renderPdf(await logPdf(log, { unit: "mm", paper: "a4", fonts: await sheetFonts() }));
  const all = flat(pages.map((page) => page.text).join(" "));
  // the bytes of these are a picture's only at their beginning
  expect(all).toContain("(A picture that cannot be printed: Bracket tacked)");
  expect(all).toContain(NASTY[0]);
});

it("prints a photo beside its neighbour that is broken", async () => {
  const cards = [
    card({
      picture: null,
      photos: [photo(), photo({ name: "good.png", caption: "Good", type: "image/png", bytes: png })],
    }),
  ];
  const pages = await renderPdf(
    await logPdf({ cards, decisions: [] }, { unit: "mm", paper: "a4", fonts: await sheetFonts() }),
  );
  expect(flat(pages.map(({ text }) => text).join(" "))).toContain("(A picture that cannot be printed: Bracket tacked)");
  expect(pages.some(({ coloured }) => coloured)).toBe(true);
});
