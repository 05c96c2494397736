import { readdirSync, readFileSync } from "node:fs";
import DxfParser from "dxf-parser";
import { describe, expect, it } from "vitest";
import { renderPdf } from "../fabrication/renderPdf.ts";
import { run, testFolder } from "./terminal.ts";

const SCENE = "scenes/2-hub-and-arm-re-cut-link.json";
const folder = testFolder();

describe("the terminal's templates", () => {
  it("lists plates and tube ends, with what falls short of a rule", () => {
    const { status, out, err } = run("template", SCENE);
    expect([status, err]).toEqual([1, ""]);
    expect(out).toContain("lower-clevis: 2 off for each side, 5 mm plate");
    expect(out).toMatch(/WARNING: hole 1, 2: centre to edge is 7 mm, at least 9\.6\d wanted/);
    expect(out).toMatch(/lower-rail, last end, left side: tube dia 40\n {4}Fitted to upper-rail at \d+\.\d deg/);
  });

  it("writes a DXF and an SVG of each, and one PDF that is corrected for the printer", async () => {
    const { status, out, err } = run(
      "template",
      SCENE,
      "--part",
      "lower-clevis",
      "--to",
      `${folder.at("out")}/`,
      "--json",
      "--measured",
      "97,100",
    );
    expect([status, err]).toEqual([0, ""]);
    const told = JSON.parse(out);
    expect(told.plates).toHaveLength(1);
    expect(readdirSync(folder.at("out")).sort()).toEqual([
      "01-lower-clevis.dxf",
      "01-lower-clevis.svg",
      "templates.pdf",
    ]);
    const dxf = new DxfParser().parseSync(readFileSync(folder.at("out/01-lower-clevis.dxf"), "utf8"))!;
    expect(
      dxf.entities
        .filter(({ layer }) => layer === "CUT")
        .map(({ type }) => type)
        .sort(),
    ).toEqual(["CIRCLE", "LWPOLYLINE"]);
    const [page] = await renderPdf(readFileSync(folder.at("out/templates.pdf")), 1);
    expect(page!.text).toContain("Corrected for one printer: 103.1 % across, 100.0 % down");
  });

  it("says what does not fit", () => {
    const ask = (...options: string[]) => run("template", SCENE, ...options);
    expect(ask("--part", "nothing")).toMatchObject({ status: 2, err: expect.stringContaining('called "nothing"') });
    const to = ["--to", folder.at("x.pdf")];
    expect(ask(...to, "--measured", "60").err).toMatch(/100 mm bar is said to measure 60 mm/);
    expect(ask("--to", folder.at("x.dwg")).err).toMatch(/FILE\.pdf, FILE\.dxf/);
  });
});
