import { readFileSync } from "node:fs";
import { decode } from "fast-png";
import { describe, expect, it } from "vitest";
import { runPicture } from "../../src/cli/pictureVerb.ts";
import { runTemplate } from "../../src/cli/templateVerb.ts";
import { jigSheetData } from "../../src/fabrication/sheets/jigSheetData.ts";
import { holeOf } from "../../src/fabrication/templates/roundOff.ts";
import { templatesOf } from "../../src/fabrication/templates/templates.ts";
import { translationPose } from "../../src/maths/pose.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { refinePlace } from "../../src/scans/refine.ts";
import { placeFromTapes } from "../../src/scene/tape.ts";
import { smallScene } from "../app/smallScene.ts";
import { sceneOf } from "../fabrication/templates/bench.ts";
import { agrees, agreesEach, agreesOn, agreesWithin } from "./agreement.ts";
import { terminal, toldAt } from "./verbs.ts";

const { says, at } = terminal();
const frame = (id: string, path: [number, number, number][], diameter_mm: number) =>
  ({ id, on: "chassis", role: "frame", shape: { kind: "tube", path, diameter_mm, wall_mm: 2 } }) as const;
const clevis = sceneOf([{ id: "clevis", made: { as: "clevis" } }]);

describe("what the terminal tells of templates", () => {
  it("is each plate of a clevis: half a disc of 40 over 40 × 45, a hole of 12 in its middle; a base of 48 × 40 (by hand)", async () => {
    const written = await says(runTemplate, clevis);
    // arcs are measured by chords that stay 0.01 mm within
    for (const [i, wanted] of [65, 40, 48, 40].entries())
      agreesWithin("toldPlates", toldAt(written, "templateVerb.plates.size_mm")[i], wanted, 0.011);
    for (const [i, wanted] of [5, 6].entries())
      agrees("toldPlates", toldAt(written, "templateVerb.plates.thickness_mm")[i], wanted, 9);
    for (const [i, wanted] of [2, 1].entries())
      agrees("toldPlates", toldAt(written, "templateVerb.plates.count")[i], wanted, 9);
    // the plate is drawn about its pin
    for (const part of toldAt(written, "templateVerb.plates.holes.centre_mm")) agrees("toldPlates", part, 0, 9);
    agrees("toldPlates", toldAt(written, "templateVerb.plates.holes.diameter_mm")[0], 12, 9);
  });

  it("is the cut of a tube square between two others: the inside of its wall on a cylinder, in closed form", async () => {
    const rail = (id: string, up_mm: number) =>
      frame(
        id,
        [
          [-300, 300, up_mm],
          [300, 300, up_mm],
        ],
        40,
      );
    const post = frame(
      "post",
      [
        [0, 300, 100],
        [0, 300, 500],
      ],
      30,
    );
    const written = await says(runTemplate, { ...clevis, bodies: [rail("low", 100), rail("high", 500), post] });
    const cut = toldAt(written, "templateVerb.wraps.cut_mm");
    expect(cut.length).toBeGreaterThan(200);
    for (let i = 0; i < cut.length; i += 2) {
      const round_rad = cut[i]! / 15;
      // radius 20 of what it meets, 13 of its own bore
      agreesWithin(
        "toldWraps",
        toldAt(written, "templateVerb.wraps.cut_mm")[i + 1],
        -Math.sqrt(400 - (13 * Math.sin(round_rad)) ** 2),
        1e-6,
      );
    }
    const edges = toldAt(written, "templateVerb.wraps.edge_mm");
    for (const edge_mm of toldAt(written, "templateVerb.wraps.edgesApart_mm"))
      agrees("toldWraps", edge_mm, 400 + edges[0]! + edges[1]!, 9);
    // the paper ends beyond the deepest of the cut, in whole millimetres
    agreesOn(
      "toldEdges",
      toldAt(written, "templateVerb.wraps.edge_mm").every((mm) => mm < -20 && Number.isInteger(mm)),
      true,
    );
  });
});

describe("templates", () => {
  it("tell the angle at which a tube meets another: 500 along and 300 up, atan(3/5)", () => {
    const bodies = [
      frame(
        "rail",
        [
          [-600, 300, 500],
          [600, 300, 500],
        ],
        40,
      ),
      frame(
        "stay",
        [
          [500, 300, 200],
          [0, 300, 500],
        ],
        28,
      ),
    ];
    const [wrap] = templatesOf({ ...clevis, bodies }).wraps;
    agrees("wrapAngle", wrap!.fittedTo[0]!.angle_deg, (Math.atan(3 / 5) * 180) / Math.PI, 6);
  });

  it("tell where a straight saw cut fits, in front of end plates of 5 mm", () => {
    const { square } = templatesOf(sceneOf([{ id: "cross", made: { as: "cross tube", plate_mm: 5 } }]));
    for (const { along_mm } of square) agrees("sawCut", along_mm, -5, 9);
    expect(square).toHaveLength(2);
  });

  it("tell of a hole drawn with n corners its circle, and what passes between its sides: d · cos(π/n)", () => {
    for (const corners of [12, 16, 40]) {
      const ring = Array.from({ length: corners }, (_, i): [number, number] => {
        const angle = (2 * Math.PI * (i + 0.5)) / corners;
        return [3 + 10 * Math.cos(angle), 4 + 10 * Math.sin(angle)];
      });
      const hole = holeOf(ring);
      if (hole.kind !== "circle") throw new Error("the hole is not round");
      // told to a hundredth
      agreesEach("roundHole", hole, { diameter_mm: 20, flats_mm: 20 * Math.cos(Math.PI / corners) }, 0.0051);
    }
  });
});

describe("the terminal's picture", () => {
  it("tells the pixels of its file and how many come to a millimetre: dots an inch over 25.4 and the scale", async () => {
    const options = { to: at("rear.svg"), size: "400x320", scale: "1:10", dpi: "50" };
    const written = await says(runPicture, smallScene(), options);
    // its picture read by another library than wrote it
    const [, png] = /data:image.png;base64,([^"]+)"/.exec(readFileSync(at("rear.svg"), "utf8")) ?? [];
    const { width, height } = decode(Buffer.from(png!, "base64"));
    agrees("toldPicture", toldAt(written, "pictureVerb.width_px")[0], width, 9);
    agrees("toldPicture", toldAt(written, "pictureVerb.height_px")[0], height, 9);
    agrees("toldPicture", toldAt(written, "pictureVerb.px_per_mm")[0], 50 / 25.4 / 10, 9);
    expect([width, height]).toEqual([400, 320]);
  });
});

describe("lengths by tape", () => {
  it("over a jig may be off by what both ends may: tolerances by hand", () => {
    const scene = smallScene();
    const points = { ...scene.points, "upper.front": { at: [90, 420, 425], tolerance_mm: 0.7 } };
    const data = jigSheetData({ ...scene, points } as never, null, { table_mm: 0, bar_mm: null });
    const tolerance = new Map(data.stations.map(({ point, tolerance_mm }) => [point, tolerance_mm]));
    expect(tolerance.get("upper.front")).toBe(0.7);
    // 1 mm where none is given
    for (const { from, to, within_mm } of [...data.across, ...data.diagonals, ...data.alongside]) {
      const of = (point: string) => (point === "upper.front" ? 0.7 : 1);
      agrees("tapeTolerance", within_mm, of(from.point) + of(to.point), 9);
    }
  });

  it("to one place from both ends of three lines square to each other, two 2 mm too long: just that is left on them (symmetry)", () => {
    const studs: Vec3[] = [
      [300, 0, 0],
      [-300, 0, 0],
      [0, 400, 0],
      [0, -400, 0],
      [0, 0, 500],
      [0, 0, -500],
    ];
    const tapes = studs.map((stud, i) => ({ stud, length_mm: [302, 302, 400, 400, 500, 500][i]! }));
    const [place] = placeFromTapes(tapes, 1).places;
    agreesEach("tapeLeftOver", place!, { leftOver_mm: [2, 2, 0, 0, 0, 0], misfit_mm: Math.sqrt(8) }, 1e-6);
  });
});

describe("a scan put to surfaces", () => {
  it("that stand 3 mm too far apart is off by half of it at each", () => {
    const flat = (x: number, wanted: number) => ({
      kind: "plane" as const,
      points: [-40, 0, 40].flatMap((y) => [-30, 30].map((z): [number, number, number] => [x, y, z])),
      at: [wanted, 0, 0] as const,
      normal: [1, 0, 0] as const,
    });
    const { fits } = refinePlace(translationPose([0, 0, 0]), [flat(0, 0), flat(100, 103)]);
    for (const fit of fits) agreesEach("surfaceFit", fit, { rms_mm: 1.5, worst_mm: 1.5 }, 1e-9);
  });
});
