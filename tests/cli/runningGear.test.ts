import { describe, expect, it } from "vitest";
import type { SceneDocument } from "../../src/scene/document.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { run, testFolder } from "./terminal.ts";

const folder = testFolder();

function save(name: string, change: Partial<SceneDocument> = {}): string {
  return folder.save(name, JSON.stringify(storyCorner(change)));
}

describe("the terminal's shaft", () => {
  it("tells lengths, angles, the length to order, and exits 0 while no limit is passed", () => {
    const { status, out, err } = run("shaft", save("shaft.json"));
    expect([status, err]).toEqual([0, ""]);
    expect(out).toMatch(/left: 436\.0 mm at ride height/);
    expect(out).toMatch(/shortest 426\.\d mm at \+60\.0 bump/);
    expect(out).toMatch(
      /Order: \+1\.\d mm .* 6\.\d mm to spare at either end; from −[12]\.\d to \+4\.\d mm keeps 3 mm/,
    );
    expect(out).toMatch(/Tell bar_mm/);
  });

  it("exits 1 where the shaft lets go, with the wheel height, and prints all of it as one document", () => {
    const driveshaft = {
      ...storyCorner().driveshaft!,
      shortest_mm: 413,
      longest_mm: 441,
      innerJoint: "universal" as const,
    };
    const path = save("short.json", { driveshaft });
    const { status, out } = run("shaft", path, "--spare", "5");
    expect(status).toBe(1);
    expect(out).toMatch(/PAST {3}left shaft-length: 442\.\d mm, at most 441\.0.*, from -4[45]\.\d droop on/);
    expect(out).toMatch(/The inner joint is a single cross/);
    const { sides } = JSON.parse(run("shaft", path, "--json").out);
    expect(Object.keys(sides.left)).toEqual(
      "ride shortest longest innerAngle outerAngle difference limits order crosses plot".split(" "),
    );
  });

  it("refuses a scene without a driveshaft in one line", () => {
    const { driveshaft: _shaft, ...bare } = storyCorner();
    const path = folder.save("bare.json", JSON.stringify(bare));
    const { status, out, err } = run("shaft", path);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toMatch(/bare\.json: driveshaft: the scene has no driveshaft; wanted: /);
    expect(run("shaft", path, "--spare", "-1").status).toBe(2);
  });
});

describe("the terminal's spring", () => {
  it("tells ratio, rates, preload and what ends the travel each way", () => {
    const damper = { ...storyCorner().damper!, springRate_N_per_mm: 40, springFree_mm: 280 };
    const { status, out } = run("spring", save("spring.json", { damper, loads: { cornerMass_kg: 300 } }));
    expect(status).toBe(1);
    expect(out).toMatch(/damper 369\.\d mm at ride height, ratio 1\.0[67]/);
    expect(out).toMatch(/wheel rate [\d.]+ N\/mm .* ride frequency [\d.]+ Hz/);
    expect(out).toMatch(/up: the bump stop is solid at 310\.0, \+56\.\d bump/);
    expect(out).toMatch(/before it the bump stop is touched at 325\.0, \+42\.\d bump/);
    expect(out).toMatch(/down: the damper is at its end at 440\.0, -64\.\d droop/);
    expect(out).toMatch(/tell loads\.unsprung_kg/);
  });

  it("says what to tell where it cannot know", () => {
    const { out } = run("spring", save("plain.json"));
    expect(out).toMatch(/tell loads\.cornerMass_kg/);
    expect(out).toMatch(/tell damper\.springRate_N_per_mm and springFree_mm/);
    const { sides } = JSON.parse(run("spring", save("plain.json"), "--json").out);
    expect(sides.left.ends.up[0]).toMatchObject({ what: "stop-touched", at: { pose: "rest" } });
  });
});

describe("the terminal's joints", () => {
  it("tells tilt, pull and shear, exits 1 where one is past, and lists what is not told", () => {
    const joints: SceneDocument["joints"] = [
      { joint: "upper.inboard", kind: "rod end", axis: [1, 0, 0], tilt_deg: 13, crooked_deg: 10 },
    ];
    const { status, out } = run("joints", save("joints.json", { joints, loads: { cornerMass_kg: 300 } }));
    expect(status).toBe(1);
    expect(out).toMatch(
      /upper\.inboard \(rod end\): tilts 0\.0° at ride height, up to 4\.2° at \+60\.0 bump, 10° more/,
    );
    expect(out).toMatch(/pulled \d+° to its bolt .* not told \(loads\.bolts\)/);
    expect(out).toMatch(/PAST {3}left joint-tilt upper\.inboard: 14\.2 °/);
    expect(out).toMatch(/Not told, so not checked: arm\.at, /);
    expect(run("joints", save("none.json")).status).toBe(0);
  });
});

describe("the terminal's curves", () => {
  it("carry the side view, the bar and the shaft behind the columns of the contract", () => {
    const { out } = run("curves", save("curves.json", { vehicle: { wheelbase_mm: 2500, cgHeight_mm: 480 } }));
    const [head, row] = out.split("\n").map((line) => line.split(","));
    expect(head!.slice(0, 3)).toEqual(["side", "travel_mm", "toe_deg"]);
    const at = (column: string) => row![head!.indexOf(column)];
    expect(Number(at("antiSquat_percent"))).toBeGreaterThan(10);
    expect(at("antiLift_percent")).toBe("");
    expect(Number(at("plunge_mm"))).toBeGreaterThan(4);
    expect(Number(at("angleDifference_deg"))).toBeLessThan(0);
  });

  it("against body roll have a row a step, in degrees to the ground", () => {
    const { out } = run("curves", save("roll.json"), "--roll", "-2:2:0.5");
    const [head, ...rows] = out.trim().split("\n");
    expect(head).toMatch(/^roll_deg,travel_mm,outerCamber_deg,innerCamber_deg/);
    expect(rows.map((row) => Number(row.split(",")[0]))).toEqual([-2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5, 2]);
    expect(run("curves", save("roll.json"), "--roll", "0:90:1").status).toBe(2);
  });
});
