import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { listPoints } from "../../src/scene/points.ts";
import { readScene } from "../../src/scene/read.ts";
import { run, testFolder } from "./terminal.ts";

const SCENE = "scenes/2-hub-and-arm-re-cut-link.json";
const folder = testFolder();

describe("the terminal's points", () => {
  it("come out as a table, and go back in", () => {
    const { status, out, err } = run("points", SCENE);
    expect([status, err]).toEqual([0, ""]);
    expect(out.split("\n")[0]).toBe("point,forward_mm,out_mm,up_mm,tolerance_mm,how");
    const table = folder.save("points.csv", out.replace(/^(upper\.in,[^,]*,[^,]*),[^,]*/m, "$1,431.5"));
    const changed = run("points", SCENE, "--from", table);
    expect([changed.status, changed.err]).toEqual([0, ""]);
    const points = listPoints(readScene(changed.out, "changed.json"));
    expect(points.find(({ name }) => name === "upper.in")!.at[2]).toBe(431.5);
  });

  it("name the row that is wrong", () => {
    const table = folder.save("wrong.csv", "point,forward_mm,out_mm,up_mm\nupper.inn,1,2,3\n");
    const { status, out, err } = run("points", SCENE, "--from", table);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toMatch(/row 1: no hard point is called "upper\.inn"/);
  });
});

describe("the terminal's export", () => {
  it("writes a GLB, and an STL of each part into a folder", () => {
    const glb = folder.at("car.glb");
    expect(run("export", SCENE, "--to", glb, "--at", "-30").status).toBe(0);
    // magic and version of the container (glTF 2.0, 4.4)
    expect(readFileSync(glb).subarray(0, 8).toString("latin1")).toBe("glTF\u0002\0\0\0");
    const parts = `${folder.at("parts")}/`;
    const { status, out } = run("export", SCENE, "--to", parts, "--json");
    expect(status).toBe(0);
    expect(readdirSync(parts).length).toBe(JSON.parse(out).parts.length);
  });

  it.each([
    ["a format that is not written", ["--to", "car.step"], /ends in no format/],
    ["a part that is not there", ["--to", "x.stl", "--part", "wing"], /no part is called "wing"/],
    ["a travel out of reach", ["--to", "x.glb", "--at", "400"], /does not reach 400 mm/],
    ["no file", [], /no file is named/],
  ])("refuses %s", (_, args, told) => {
    const { status, out, err } = run("export", SCENE, ...args);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toMatch(told);
  });
});
