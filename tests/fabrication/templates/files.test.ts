import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { initWasm, Resvg } from "@resvg/resvg-wasm";
import DxfParser, { type ICircleEntity, type ILineEntity, type ILwpolylineEntity, type ITextEntity } from "dxf-parser";
import { describe, expect, it } from "vitest";
import { polygonOf } from "../../../src/fabrication/templates/drawing.ts";
import {
  fileDrawing,
  type Templates,
  templatesOf,
  USUAL_WISHES,
} from "../../../src/fabrication/templates/templates.ts";
import { dxfOf } from "../../../src/fabrication/templates/writeDxf.ts";
import { svgOf } from "../../../src/fabrication/templates/writeSvg.ts";
import { outlineArea } from "../../../src/geometry/outline.ts";
import { sceneOf } from "./bench.ts";

const require = createRequire(import.meta.url);

const scene = sceneOf([
  { id: "foot & <plate>", mirror: true, made: { as: "plate with gusset", gusset_mm: 0 } },
  { id: "lug", made: { as: "clevis", base_mm: 5 } },
  { id: "brace", made: { as: "cross tube" } },
]);
const folded = templatesOf(scene, { ...USUAL_WISHES, folded: ["lug"] });

function read(templates: Templates, options = {}) {
  const dxf = new DxfParser().parseSync(dxfOf(fileDrawing(templates.plates), options))!;
  const on = (layer: string) => dxf.entities.filter((entity) => entity.layer === layer);
  return { dxf, on };
}

/** As another reader has it: a bulge is the tangent of a quarter of the arc. */
function areaOf({ vertices }: ILwpolylineEntity): number {
  const corners = vertices.map(({ x, y, bulge }) => ({ at: [x, y] as const, bulge: bulge ?? 0 }));
  const chords = outlineArea(corners.map(({ at }) => at));
  // segments between arcs and chords: r²/2·(angle − sin angle)
  return corners.reduce((sum, { at, bulge }, i) => {
    if (bulge === 0) return sum;
    const to = corners[(i + 1) % corners.length]!.at;
    const angle = 4 * Math.atan(bulge);
    const radius = Math.hypot(to[0] - at[0], to[1] - at[1]) / 2 / Math.sin(Math.abs(angle) / 2);
    return sum + (radius * radius * (angle - Math.sin(angle))) / 2;
  }, chords);
}

describe("DXF read back by another library", () => {
  it("is in millimetres, with a layer for what is cut, folded, etched and read", () => {
    const { dxf } = read(folded);
    // $INSUNITS 4: millimetres (DXF reference, HEADER section)
    expect(dxf.header.$INSUNITS).toBe(4);
    expect(Object.keys(dxf.tables.layer!.layers)).toEqual(expect.arrayContaining(["CUT", "FOLD", "ETCH", "NOTE"]));
  });

  it("has every edge closed and every hole round, at its size and pitch", () => {
    const { on } = read(folded);
    const rings = on("CUT").filter(({ type }) => type === "LWPOLYLINE") as ILwpolylineEntity[];
    expect(rings).toHaveLength(3);
    expect(rings.every(({ shape }) => shape)).toBe(true);
    for (const [i, { outline }] of folded.plates.entries()) {
      expect(areaOf(rings[i]!)).toBeCloseTo(outlineArea(polygonOf(outline, 1e-6)), 2);
    }
    // the plate's usual sizes: 80 × 100, four holes of 10.5 that stand 54 and 70 apart
    expect(areaOf(rings[0]!)).toBeCloseTo(8000, 6);
    const holes = (on("CUT").filter(({ type }) => type === "CIRCLE") as ICircleEntity[]).slice(0, 4);
    expect(holes.map(({ radius }) => radius)).toEqual([5.25, 5.25, 5.25, 5.25]);
    const apart = holes
      .slice(1)
      .map(({ center }) => Math.hypot(center.x - holes[0]!.center.x, center.y - holes[0]!.center.y));
    expect(apart.sort((a, b) => a - b)[0]).toBeCloseTo(54, 3);
    expect(apart[1]).toBeCloseTo(70, 3);
  });

  it("has one line a fold, in the middle of the bend", () => {
    const { on } = read(folded);
    const lines = on("FOLD") as ILineEntity[];
    expect(lines).toHaveLength(2);
    // clevis as usual: 38 between lugs; middle to middle of two bends of 90° is the floor and one allowance
    const [a, b] = lines.map(({ vertices }) => vertices[0]!.x) as [number, number];
    expect(b - a).toBeCloseTo(38 - 2 * 5 + (Math.PI / 2) * (5 + 0.41 * 5), 6);
  });

  it("says what a plate is in letters that any name may have, and leaves notes out for a cutter", () => {
    const { on } = read(folded);
    expect((on("ETCH") as ITextEntity[]).map(({ text }) => text)).toContain("foot & <plate>");
    expect(
      (on("NOTE") as ITextEntity[]).some(({ text }) => text?.startsWith("foot & <plate>: 1 off for each side, 6 mm")),
    ).toBe(true);
    const bare = read(folded, { withoutNotes: true });
    expect(bare.on("NOTE")).toEqual([]);
    expect(bare.on("CUT")).toHaveLength(on("CUT").length);
  });
});

describe("SVG", () => {
  it("is at full size, with names as text and never as markup", () => {
    const svg = svgOf(fileDrawing(folded.plates));
    const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 /.exec(svg)!.map(Number) as [
      number,
      number,
      number,
    ];
    expect(svg).toContain(`viewBox="0 0 ${width} ${height}"`);
    expect(svg).toContain("foot &#38; &#60;plate&#62;");
    expect(svg).not.toContain("<plate>");
    for (const layer of ["cut", "fold", "etch", "note"]) expect(svg).toContain(`<g id="${layer}"`);
  });

  it("is drawn at full size by another library, holes as far apart as they are", async () => {
    await initWasm(readFileSync(require.resolve("@resvg/resvg-wasm/index_bg.wasm")));
    const px_per_mm = 20;
    const svg = svgOf(fileDrawing(folded.plates.slice(0, 1)), { withoutNotes: true });
    // CSS: 96 pixels to the inch
    const picture = new Resvg(svg, {
      background: "white",
      fitTo: { mode: "zoom", value: (px_per_mm * 25.4) / 96 },
    }).render();
    const { width, height, pixels } = picture;
    expect(width / px_per_mm).toBeCloseTo(Number(/width="([\d.]+)mm"/.exec(svg)![1]), 1);
    // the plate's own lower left corner stands 5 mm in; 80 × 100, its up to the right, holes 70 along and 54 across, 15 from the ends
    const row = height - Math.round((5 + 40 - 27) * px_per_mm);
    const ink: number[] = [];
    for (let x = 1; x < width; x++) {
      const dark = (at: number) => pixels[4 * (row * width + at)]! < 128;
      if (dark(x) && !dark(x - 1)) ink.push(x / px_per_mm);
    }
    // edge, hole, hole, edge
    expect(ink).toHaveLength(6);
    const [edge, ...rest] = ink as [number, ...number[]];
    for (const [i, wanted] of [15 - 5.25, 15 + 5.25, 85 - 5.25, 85 + 5.25, 100].entries())
      expect(Math.abs(rest[i]! - edge - wanted)).toBeLessThan(0.1);
  });
});
