import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { polygonOf } from "../../../src/fabrication/templates/drawing.ts";
import { notesOf, type Templates, templatesOf, USUAL_WISHES } from "../../../src/fabrication/templates/templates.ts";
import { outlineArea } from "../../../src/geometry/outline.ts";
import type { SceneDocument, ShapeDocument } from "../../../src/scene/document.ts";
import { readScene } from "../../../src/scene/read.ts";
import { agrees } from "../../truth/agreement.ts";
import { sceneOf } from "./bench.ts";

const empty = sceneOf([]);
const bracket = (shape: ShapeDocument, more: Partial<SceneDocument["bodies"][number]> = {}): SceneDocument => ({
  ...empty,
  bodies: [{ id: "bracket", on: "chassis", role: "bracket", shape, ...more }],
});

/** Steel in all plates, mm³. */
function steel({ plates }: Templates): number {
  return plates.reduce((sum, { outline, holes, thickness_mm, count }) => {
    const cut = holes.reduce(
      (area, hole) =>
        area + (hole.kind === "circle" ? (Math.PI * hole.diameter_mm ** 2) / 4 : outlineArea(polygonOf(hole, 1e-4))),
      0,
    );
    return sum + (outlineArea(polygonOf(outline, 1e-4)) - cut) * thickness_mm * count;
  }, 0);
}

describe("plates of a scene", () => {
  it("holds all the steel of a clevis and of a plate with its gusset, by their closed forms", () => {
    // two lugs: half a disc of 40, a rectangle 40 × 45, less a hole of 12; and a base of 38 + 2·5 by 40
    const lug = (Math.PI * 20 ** 2) / 2 + 40 * 45 - Math.PI * 6 ** 2;
    expect(steel(templatesOf(sceneOf([{ id: "c", made: { as: "clevis" } }])))).toBeCloseTo(
      2 * 5 * lug + 6 * 48 * 40,
      -1,
    );
    const foot = 6 * (80 * 100 - 4 * Math.PI * 5.25 ** 2) + (5 * 50 * 75) / 2;
    expect(steel(templatesOf(sceneOf([{ id: "p", made: { as: "plate with gusset" } }])))).toBeCloseTo(foot, 0);
  });

  it("knows a plate that is drawn as a box or on edge, and leaves bars and blocks", () => {
    const box = (size_mm: [number, number, number]): ShapeDocument => ({ kind: "box", at: [0, 0, 0], size_mm });
    expect(templatesOf(bracket(box([90, 6, 40]))).plates[0]).toMatchObject({ thickness_mm: 6, count: 1 });
    agrees("plateSize", steel(templatesOf(bracket(box([90, 6, 40])))), 90 * 6 * 40, 6);
    const onEdge: ShapeDocument = {
      kind: "prism",
      outline: [
        [0, 0],
        [56, 0],
        [56, 4],
        [0, 4],
      ],
      thickness_mm: 60,
      origin: [0, 0, 0],
      u: [1, 0, 0],
      v: [0, 1, 0],
    };
    const [plate] = templatesOf(bracket(onEdge)).plates;
    expect(plate!.thickness_mm).toBe(4);
    expect(outlineArea(plate!.outline.corners.map(({ at }) => at))).toBeCloseTo(56 * 60, 6);
    for (const block of [box([90, 20, 40]), box([200, 100, 30])])
      expect(templatesOf(bracket(block)).plates).toEqual([]);
  });

  it("tells which face is drawn and what the other side of the car needs", () => {
    const lying: ShapeDocument = {
      kind: "prism",
      outline: [
        [0, 0],
        [60, 0],
        [0, 40],
      ],
      thickness_mm: 5,
      origin: [0, 300, 200],
      u: [1, 0, 0],
      v: [0, 0, 1],
    };
    // u × v = X × Z looks to the right, which is inwards on the left side
    const notes = (mirror: boolean) =>
      notesOf(templatesOf(bracket(lying, { mirror })).plates[0]!).map(({ text }) => text);
    expect(notes(false)).toEqual(["bracket: 1 off, 5 mm plate", "This face: right"]);
    expect(notes(true)).toEqual([
      "bracket: 1 off for each side, 5 mm plate",
      "This face: in",
      "Drawn for the left side; turn it over for the right.",
    ]);
  });

  it("takes what the builder makes, and anything else by name", () => {
    const bolt = bracket({ kind: "box", at: [0, 0, 0], size_mm: [40, 6, 40] }, { role: "bolt" });
    expect(templatesOf(bolt).plates).toEqual([]);
    expect(templatesOf(bolt, { ...USUAL_WISHES, parts: ["bracket"] }).plates).toHaveLength(1);
  });

  it.each(readdirSync(new URL("../../../scenes", import.meta.url)).filter((file) => file.endsWith(".json")))(
    "finds closed outlines with holes within them in %s",
    (file) => {
      const text = readFileSync(new URL(`../../../scenes/${file}`, import.meta.url), "utf8");
      const templates = templatesOf(readScene(text, file));
      expect(templates.plates.length).toBeGreaterThan(5);
      for (const { outline, holes, id } of templates.plates) {
        const area = outlineArea(polygonOf(outline, 0.01));
        const cut = holes.map((hole) => (hole.kind === "circle" ? (Math.PI * hole.diameter_mm ** 2) / 4 : 0));
        expect(
          cut.reduce((sum, hole) => sum + hole, 0),
          id,
        ).toBeLessThan(area);
      }
      for (const { cut, edge_mm, id } of templates.wraps) {
        expect(
          cut.every(([, along]) => Number.isFinite(along) && along > edge_mm),
          id,
        ).toBe(true);
        expect(cut[0]![1], id).toBeCloseTo(cut.at(-1)![1], 9);
      }
    },
  );
});
