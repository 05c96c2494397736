import { readFileSync } from "node:fs";
import { decode } from "fast-png";
import { describe, expect, it } from "vitest";
import { run, testFolder } from "./terminal.ts";

const SCENE = "scenes/4-semi-trailing-arm.json";
const folder = testFolder();

describe("the terminal's picture", () => {
  it("is drawn without a screen, to scale, with what was asked for", () => {
    const file = folder.at("plan.png");
    const { status, out, err } = run(
      ...["picture", SCENE, "--view", "plan", "--to", file, "--size", "900x640", "--scale", "1:12", "--json"],
      ...["--dimension", "0,0,0/0,500,0=out", "--at", "-20"],
    );
    expect([status, err]).toEqual([0, ""]);
    const told = JSON.parse(out);
    expect(told).toMatchObject({ view: "plan", scale: "1:12", state: { travel_mm: -20, pose: "rest" } });
    expect(told.dimensions).toEqual([{ kind: "length", text: "500.0" }]);
    // 900 pixels across the 297 mm of a lying A4 sheet come to 77 to the inch
    expect(told.px_per_mm).toBeCloseTo(77 / 25.4 / 12, 9);
    const { width, height } = decode(readFileSync(file));
    expect([width, height]).toEqual([900, 640]);
  });

  it("says what does not fit", () => {
    const to = ["--to", folder.at("x.png")];
    expect(run("picture", SCENE).err).toMatch(/FILE\.png/);
    expect(run("picture", SCENE, ...to, "--view", "inside").err).toMatch(/one of rear, front/);
    expect(run("picture", SCENE, ...to, "--scale", "5").err).toMatch(/1:N/);
    expect(run("picture", SCENE, ...to, "--view", "corner", "--scale", "1:5").err).toMatch(/no scale/);
    expect(run("picture", SCENE, ...to, "--size", "9000x90").err).toMatch(/4096/);
    expect(run("picture", SCENE, ...to, "--dimension", "a/b/c").err).toMatch(/FROM\/TO/);
  });
});
