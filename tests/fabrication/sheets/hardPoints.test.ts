import { describe, expect, it } from "vitest";
import { sheetFonts } from "../../../src/cli/sheetFonts.ts";
import { hardPointSheet } from "../../../src/fabrication/sheets/hardPointSheet.ts";
import { hardPointLines, hardPointsCsv } from "../../../src/fabrication/sheets/hardPoints.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { renderPdf } from "../renderPdf.ts";
import { cells, sample } from "./carScene.ts";

const document = sample("3-double-wishbones-toe-link", {
  measured: {
    // 2 mm inboard and 3 mm low of where upper.front is drawn, 122/446/420
    left: { "upper.front": { at: [122, 444, 417], tolerance_mm: 0.5, how: "tape from three studs" } },
    right: { "upper.front": { at: [123, -446, 420] }, "toe.in": { at: [114, -430.5, 246] } },
  },
});
const facts = (standing: "drawn" | "built") => ({
  title: "Hard-point sheet",
  subject: document.title,
  date: "2026-11-26",
  revision: "C",
  units: "mm",
  standing,
  datum: "ground, centre plane, axle line",
  cautions: ["Shape and movement only."],
});

describe("the hard-point sheet", () => {
  const lines = hardPointLines(document, null);
  const of = (name: string) => lines.find(({ point }) => point === name)!;

  it("tells each point as drawn, as measured on both sides, and how they differ", () => {
    expect(lines.map(({ point }) => point)).toEqual(Object.keys(document.points));
    const front = of("upper.front");
    expect(front.drawn).toEqual({ forward_mm: 122, out_mm: 446, up_mm: 420 });
    expect(front.left?.reading).toEqual({ forward_mm: 122, out_mm: 444, up_mm: 417 });
    expect(front.right?.reading).toEqual({ forward_mm: 123, out_mm: 446, up_mm: 420 });
    expect(front.difference).toEqual({ forward_mm: 1, out_mm: 2, up_mm: 3 });
    expect(front.left?.how).toBe("tape from three studs");
  });

  it("takes a side that was not measured as drawn, and tells no difference where neither was", () => {
    expect(of("toe.in").left).toBeNull();
    expect(of("toe.in").difference!.out_mm).toBeCloseTo(0.5, 9);
    expect(of("upper.rear").difference).toBeNull();
  });

  it("reads from a datum of the scene", () => {
    const [rail] = resolveScene(document).datums;
    const first = hardPointLines(document, rail!).find(({ point }) => point === "upper.front")!;
    // the rail's datum stands at 0/482/565, forward and up as the car's
    expect(first.drawn).toEqual({ forward_mm: 122, out_mm: -36, up_mm: -145 });
    // the right side is read from the datum's image
    expect(first.right?.reading).toEqual({ forward_mm: 123, out_mm: -36, up_mm: -145 });
  });

  it("is the same as a table", () => {
    const plain = { ...document, points: { "upper.front": [122, 446, 420] as const, ...document.points } };
    const [row] = cells(hardPointsCsv(hardPointLines(plain, null).filter(({ point }) => point === "upper.front")));
    expect(row).toMatchObject({
      point: "upper.front",
      drawn_up_mm: "420",
      right_forward_mm: "123",
      difference_up_mm: "3",
    });
  });

  it.each([
    ["built", true],
    ["drawn", false],
  ] as const)("prints what was measured only where it is as built: as %s", async (standing, isTold) => {
    const pdf = await hardPointSheet(lines, facts(standing), { paper: "a4", fonts: await sheetFonts() }, "mm");
    const text = (await renderPdf(pdf)).map((page) => page.text).join("\n");
    expect(text).toContain(`as ${standing}`);
    expect(text.includes("444.0")).toBe(isTold);
    expect(text).toContain("446.0");
  });

  it("prints inches", async () => {
    const pdf = await hardPointSheet(lines, facts("drawn"), { paper: "letter", fonts: await sheetFonts() }, "in");
    // 446 mm are 17.559 in: one inch is 25.4 mm (1959 agreement)
    expect((await renderPdf(pdf)).map((page) => page.text).join("\n")).toContain("17.559");
  });
});
