import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { renderPdf } from "../fabrication/renderPdf.ts";
import { run, testFolder } from "./terminal.ts";

const SCENE = "scenes/3-double-wishbones-toe-link.json";
const folder = testFolder();

describe("the terminal's sheets", () => {
  it("come out as a table", () => {
    const { status, out, err } = run("cutlist", SCENE, "--saw", "3");
    expect([status, err]).toEqual([0, ""]);
    expect(out.split("\n")[0]).toMatch(/^kind,part,of,count,size,/);
    expect(out).toMatch(/^cut,toe,link,2,Ø 20 × 2,E235\+N,260\.008,/m);
  });

  it("are written as PDF of either size, with revision, date and units", async () => {
    const file = folder.at("jig.pdf");
    const args = ["--to", file, "--paper", "letter", "--revision", "C", "--date", "26 November", "--units", "in"];
    expect(run("jigsheet", SCENE, ...args, "--bar", "12")).toMatchObject({ status: 0, out: `${file}\n` });
    const [page] = await renderPdf(readFileSync(file));
    // 8.5 × 11 in at 72 points an inch
    expect([page!.width_pt, page!.height_pt]).toEqual([612, 792]);
    for (const said of ["Jig sheet", "C · ", "26 November", "inches", "as drawn"]) expect(page!.text).toContain(said);
  });

  it("tell what the cut list lacks, and end with 1", () => {
    const bare = folder.save(
      "bare.json",
      readFileSync(SCENE, "utf8").replace(/ {2}"tubeEnds": \[[\s\S]*?\n {2}\],\n/, ""),
    );
    const { status, out } = run("cutlist", bare, "--to", folder.at("cut.pdf"));
    expect(status).toBe(1);
    expect(out).toContain("toe.inboard: how does the tube end there?");
  });

  it.each([
    [["pointsheet", SCENE, "--to", "x.doc"], /--to: "x\.doc" is no table and no sheet; wanted: FILE\.csv or FILE\.pdf/],
    [["pointsheet", SCENE, "--datum", "nowhere"], /--datum: there is no datum "nowhere"/],
    [["pointsheet", SCENE, "--built"], /--built: nothing was measured on this car yet/],
    [["jigsheet", SCENE, "--to", "x.pdf", "--paper", "a3"], /--paper: "a3" is not known; wanted: a4 or letter/],
    [["cutlist", SCENE, "--saw", "-1"], /--saw/],
  ])("refuse what they cannot do: %j", (args, message) => {
    const { status, out, err } = run(...args);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toMatch(message);
  });
});
