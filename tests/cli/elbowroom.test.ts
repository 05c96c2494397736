import { execFileSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import type { CheckResult } from "../../src/check/result.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { root, run, testFolder } from "./terminal.ts";

const folder = testFolder();

function save(name: string, content: SceneDocument | string): string {
  return folder.save(name, typeof content === "string" ? content : JSON.stringify(content));
}

const coarse = (change: Partial<SceneDocument> = {}) => storyCorner({ tessellation_mm: 0.3, ...change });
const { damper: _damper, ...noDamper } = coarse({ clearances: { default_mm: 0 }, bodies: [] });
const clearCorner: SceneDocument = noDamper;

describe("the terminal", () => {
  it("prints one JSON document of the contract's shape and exits 1 for a clash", () => {
    const { status, out, err } = run("check", save("story.json", coarse()), "--json");
    expect(err).toBe("");
    expect(status).toBe(1);
    const result: CheckResult = JSON.parse(out);
    expect(result.scene).toBe("story.json");
    expect(Object.keys(result).sort()).toEqual(["limits", "pairs", "scene", "sides", "summary"]);
    const { curve, bindsAt_mm } = result.sides.left!;
    expect(bindsAt_mm).toBeNull();
    expect(curve.map(({ travel_mm }) => travel_mm)).toEqual([
      -70, -65, -60, -55, -50, -45, -40, -35, -30, -25, -20, -15, -10, -5, 0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55,
      60,
    ]);
    const columns =
      "travel_mm toe_deg camber_deg halfTrack_mm wheelbaseShift_mm rollCentre_mm damper_mm damperRatio shaft_mm innerAngle_deg outerAngle_deg";
    expect(Object.keys(curve[0]!)).toEqual(columns.split(" "));
    for (const pair of result.pairs) {
      expect(pair).toMatchObject({
        side: expect.stringMatching(/^(left|right|both)$/),
        required_mm: expect.any(Number),
        clearance_mm: expect.any(Number),
        verdict: expect.stringMatching(/^(clash|tight|clear|accepted)$/),
        measure: expect.any(String),
        at: { travel_mm: expect.any(Number), pose: expect.any(String) },
      });
      expect(pair.pointA).toHaveLength(3);
      expect(pair.pointB).toHaveLength(3);
    }
    const { summary } = result;
    expect(summary.clash + summary.tight + summary.clear + summary.accepted).toBe(result.pairs.length);
  });

  it("exits 0 when all is clear, and tells it in sentences", () => {
    const { status, out } = run("check", save("clear.json", clearCorner));
    expect(status).toBe(0);
    expect(out).toMatch(/^clear\.json: 0 clash/);
    expect(out).toMatch(/prove it by hand with the spring out, on stands/);
  });

  it("writes curves as CSV over the asked travel and pose", () => {
    const { status, out } = run("curves", save("story.json", coarse()), "--travel", "-20:40:10", "--pose", "tail-down");
    expect(status).toBe(0);
    const rows = out.trim().split("\n");
    expect(rows[0]).toMatch(/^side,travel_mm,toe_deg/);
    expect(rows.slice(1).map((row) => row.split(",")[1])).toEqual(["-20", "-10", "0", "10", "20", "30", "40"]);
  });

  it("narrows a check to one pose", () => {
    const { out } = run("check", save("story.json", coarse()), "--json", "--pose", "tail-up");
    const result: CheckResult = JSON.parse(out);
    expect(new Set(result.pairs.map(({ at }) => at.pose))).toEqual(new Set(["tail-up"]));
  });

  it.each([
    ["a missing file", () => ["check", folder.at("nowhere.json")], /nowhere\.json: there is no such file/],
    [
      "an unknown key",
      () => ["check", save("key.json", JSON.stringify({ ...coarse(), travle: 1 }))],
      /key\.json: .*travle/,
    ],
    ["a wrong version", () => ["check", save("version.json", JSON.stringify({ ...coarse(), version: 9 }))], /version/],
    ["a truncated file", () => ["check", save("half.json", JSON.stringify(coarse()).slice(0, 300))], /half\.json/],
    [
      "too few constraints",
      () => ["check", save("loose.json", { ...coarse(), members: coarse().members.slice(0, 2) })],
      /loose\.json: members: .*4.*(5|five)/,
    ],
    ["an unknown pose", () => ["check", save("story.json", coarse()), "--pose", "flying"], /flying.*rest/],
    ["nonsense travel", () => ["check", save("story.json", coarse()), "--travel", "10:20"], /--travel/],
    ["no verb", () => [], /wanted: VERB SCENE/],
    ["an unknown option", () => ["check", "x.json", "--fly"], /--fly/],
    [
      "a mesh outside the scene's folder",
      () => [
        "check",
        save(
          "mesh.json",
          coarse({ bodies: [{ id: "scan", on: "chassis", shape: { kind: "mesh", file: "../scan.stl", unit: "mm" } }] }),
        ),
      ],
      /mesh\.json: bodies\[0\]\.shape\.file/,
    ],
    [
      "a mesh that is not there",
      () => [
        "check",
        save(
          "gone.json",
          coarse({ bodies: [{ id: "scan", on: "chassis", shape: { kind: "mesh", file: "scan.stl", unit: "mm" } }] }),
        ),
      ],
      /gone\.json: bodies\[0\].*scan\.stl/,
    ],
    [
      "a bend that does not fit",
      () => [
        "check",
        save(
          "bend.json",
          coarse({
            bodies: [
              {
                id: "pipe",
                on: "chassis",
                shape: {
                  kind: "tube",
                  path: [
                    [0, 0, 0],
                    [50, 0, 0],
                    [50, 50, 0],
                  ],
                  diameter_mm: 30,
                  bend_mm: 200,
                },
              },
            ],
          }),
        ),
      ],
      /bend\.json: bodies\[0\]\.shape\.path\[1\]/,
    ],
  ] as const)("answers %s with one line and exit status 2", (_, args, wanted) => {
    const { status, out, err } = run(...args());
    expect(status).toBe(2);
    expect(out).toBe("");
    expect(err.trim().split("\n")).toHaveLength(1);
    expect(err).toMatch(wanted);
    expect(err).not.toMatch(/\bat .*\.ts:\d+/);
  });

  it("tells of one verb alone with VERB --help", () => {
    const { status, out } = run("moves", "--help");
    expect(status).toBe(0);
    expect(out).toMatch(/^usage: .* moves SCENE \[options\]\n\nthe smallest moves/);
    for (const told of ["--pair A/B", "--toe-change DEG", "Geometry only"]) expect(out).toContain(told);
    for (const other of ["--roll", "--k-factor", "--stock"]) expect(out).not.toContain(other);
  });

  it("is what `npm run -s elbowroom` runs", () => {
    const out = execFileSync("npm", ["run", "-s", "elbowroom", "--", "--help"], {
      cwd: root,
      encoding: "utf8",
      shell: process.platform === "win32",
    });
    expect(out).toMatch(/^usage: /);
  });
});
