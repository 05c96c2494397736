import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { sheetFonts } from "../../../src/cli/sheetFonts.ts";
import { jigCsv } from "../../../src/fabrication/sheets/jigCsv.ts";
import { jigSheet } from "../../../src/fabrication/sheets/jigSheet.ts";
import { type CheckLength, groundFrom, jigSheetData } from "../../../src/fabrication/sheets/jigSheetData.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import type { Side } from "../../../src/scene/scene.ts";
import { agrees } from "../../truth/agreement.ts";
import { renderPdf } from "../renderPdf.ts";
import { cells, sample } from "./carScene.ts";

const ALL = [
  "1-hub-and-arm-donor-links",
  "2-hub-and-arm-re-cut-link",
  "3-double-wishbones-toe-link",
  "4-semi-trailing-arm",
  "5-strut-lower-wishbone",
  "6-five-links",
];

type Spot = [forward: number, left: number, up: number];
const dataOf = (name: string) => jigSheetData(sample(name), null, { table_mm: 0, bar_mm: 12 });

/** Every mount of both sides as it stands, by its name and side. */
function spots(data: ReturnType<typeof dataOf>): Map<string, Spot> {
  return new Map(
    data.stations.flatMap(({ point, forward_mm, out_mm, height_mm }) =>
      (["left", "right"] as const).map((side): [string, Spot] => [
        `${point} ${side}`,
        [forward_mm, side === "left" ? out_mm : -out_mm, height_mm],
      ]),
    ),
  );
}

const other: Record<Side, Side> = { left: "right", right: "left" };

/** What is measured: each length, and its mirror image where that is another one. */
function taped({ across, diagonals, alongside }: ReturnType<typeof dataOf>): CheckLength[] {
  const mirrored = [...diagonals, ...alongside].map((length) => ({
    ...length,
    from: { ...length.from, side: other[length.from.side] },
    to: { ...length.to, side: other[length.to.side] },
  }));
  return [...across, ...diagonals, ...alongside, ...mirrored];
}

describe("the jig sheet", () => {
  it("has heights over the table, and stands as long as the underside of the bar is high", () => {
    // upper.front of the sample stands at 122/446/420
    const at = (table_mm: number) =>
      jigSheetData(sample(ALL[2]!), null, { table_mm, bar_mm: 12 }).stations.find(
        ({ point }) => point === "upper.front",
      )!;
    expect(at(0)).toMatchObject({ forward_mm: 122, out_mm: 446, height_mm: 420, under_mm: 414, tolerance_mm: 1 });
    for (const [got, wanted] of [
      [at(0).forward_mm, 122],
      [at(0).out_mm, 446],
      [at(0).under_mm, 414],
    ] as const)
      agrees("jigHeights", got, wanted, 9);
    // the table lifted by 100 stands that much nearer
    agrees("jigHeights", at(100).height_mm, 320, 9);
    agrees("jigHeights", at(100).under_mm, 314, 9);
  });

  it("finds the ground from any datum", () => {
    const [rail] = resolveScene(sample(ALL[2]!)).datums;
    // the rail's top edge is 565 over the ground
    expect(groundFrom(rail!)).toBeCloseTo(-565, 9);
    const data = jigSheetData(sample(ALL[2]!), rail!, { table_mm: groundFrom(rail!), bar_mm: null });
    agrees("jigHeights", data.stations.find(({ point }) => point === "upper.front")!.height_mm, 420, 9);
  });

  it.each(ALL)("%s: its lengths are those between the mounts, straight and plumbed down", (name) => {
    const data = dataOf(name);
    const place = spots(data);
    for (const { from, to, straight_mm, onTable_mm } of taped(data)) {
      const [a, b] = [place.get(`${from.point} ${from.side}`)!, place.get(`${to.point} ${to.side}`)!];
      agrees("tapeLengths", straight_mm, Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]), 6);
      agrees("tapeLengths", onTable_mm, Math.hypot(a[0] - b[0], a[1] - b[1]), 6);
    }
  });

  it.each(ALL)("%s: whatever mounts are out on the table shows in some length, but for moving all as one", (name) => {
    const data = dataOf(name);
    const place = spots(data);
    const names = [...place.keys()];
    const rows = taped(data).map(({ from, to, straight_mm }) => {
      const row = new Array<number>(2 * names.length).fill(0);
      const [i, j] = [names.indexOf(`${from.point} ${from.side}`), names.indexOf(`${to.point} ${to.side}`)];
      const [a, b] = [place.get(names[i]!)!, place.get(names[j]!)!];
      for (const way of [0, 1] as const) {
        row[2 * i + way] = (a[way] - b[way]) / straight_mm;
        row[2 * j + way] = -row[2 * i + way]!;
      }
      return row;
    });
    const { diagonal } = new SingularValueDecomposition(new Matrix(rows), { autoTranspose: true });
    // a plane figure moves and turns as one in three ways; everything else must show
    const rank = diagonal.filter((value) => value > 0.02).length;
    expect(rank).toBe(2 * names.length - 3);
  });

  it("takes one side alone", () => {
    const data = jigSheetData(sample(ALL[2]!, { sides: "left" }), null, { table_mm: 0, bar_mm: null });
    expect([data.across, data.diagonals]).toEqual([[], []]);
    expect(data.alongside.length).toBeGreaterThan(data.stations.length);
  });

  it("is the same as a table", () => {
    const rows = cells(jigCsv(dataOf(ALL[2]!)));
    expect(rows.find(({ what, point }) => what === "height" && point === "toe.in")).toMatchObject({
      height_mm: "246",
      under_bar_mm: "240",
      within_mm: "0.5",
    });
    // out 446 on either side
    expect(rows.find(({ what, point }) => what === "across" && point === "upper.front")).toMatchObject({
      to_side: "right",
      straight_mm: "892",
      within_mm: "2",
    });
  });

  it("is printed with every mount and length, and a plan to the scale it tells", async () => {
    const data = dataOf(ALL[2]!);
    const facts = {
      title: "Jig sheet",
      subject: "a car",
      date: "2026-11-26",
      revision: "C",
      units: "mm",
      standing: "drawn" as const,
      datum: "ground",
      cautions: ["Shape and movement only."],
    };
    const pages = await renderPdf(await jigSheet(data, 12, facts, { paper: "a4", fonts: await sheetFonts() }, "mm"));
    const text = pages.map((page) => page.text).join("\n");
    for (const { point } of data.stations) expect(text).toContain(point);
    for (const { straight_mm } of [...data.across, ...data.diagonals, ...data.alongside])
      expect(text).toContain(straight_mm.toFixed(1));
    expect(text).toMatch(/Scale 1 : [\d.]+/);
    expect(pages.some(({ coloured }) => coloured)).toBe(false);
  });
});
