import { describe, expect, it } from "vitest";
import { plateWarnings } from "../../../src/fabrication/templates/rules.ts";
import { notesOf, templatesOf, USUAL_WISHES } from "../../../src/fabrication/templates/templates.ts";
import type { MadeDocument } from "../../../src/scene/document.ts";
import { sceneOf } from "./bench.ts";

const plate = (sizes: Record<string, number>) =>
  templatesOf(sceneOf([{ id: "plate", made: { as: "plate with gusset", gusset_mm: 0, ...sizes } }])).plates[0]!;
const clevis = (sizes: Record<string, number>, inside_mm: number | null = null) =>
  templatesOf(sceneOf([{ id: "lug", made: { as: "clevis", plate_mm: 5, base_mm: 5, ...sizes } as MadeDocument }]), {
    ...USUAL_WISHES,
    folded: ["lug"],
    folding: { kFactor: 0.41, inside_mm },
  }).plates[0]!;
const rules = (part: ReturnType<typeof plate>) => [...new Set(plateWarnings(part).map(({ rule }) => rule))];

describe("what plate rules ask", () => {
  it("passes parts at their usual sizes", () => {
    expect(rules(plate({}))).toEqual([]);
    expect(rules(clevis({}))).toEqual([]);
  });

  // EN 1993-1-8:2005, table 3.3 (from memory): e1, e2 at least 1.2 d0; p1 at least 2.2 d0
  it("wants a hole 1.2 of its width from the edge", () => {
    // 80 wide, 10.5: holes 54.8 apart stand exactly 12.6 from the edge
    expect(rules(plate({ holesAcross_mm: 54.7 }))).toEqual([]);
    expect(rules(plate({ holesAcross_mm: 55 }))).toEqual(["hole-to-edge"]);
    expect(plateWarnings(plate({ holesAcross_mm: 56 }))[0]!.is_mm).toBeCloseTo(12, 2);
  });

  it("wants holes 2.2 of their width apart", () => {
    expect(rules(plate({ holesAcross_mm: 23.2 }))).toEqual([]);
    expect(rules(plate({ holesAcross_mm: 23 }))).toEqual(["hole-pitch"]);
  });

  it("wants a hole no smaller than the plate is thick", () => {
    expect(rules(plate({ plate_mm: 12 }))).toEqual(["hole-size"]);
  });

  it("wants an inside radius no less than the thickness", () => {
    expect(rules(clevis({}, 5))).toEqual([]);
    expect(rules(clevis({}, 4))).toEqual(["inside-radius"]);
  });

  it("wants holes two thicknesses from where a bend begins", () => {
    // pin 12 at `reach` from the floor, bend of 5 inside: reach − 5 − 6 is left, 10 wanted
    expect(rules(clevis({ reach_mm: 21.1 }))).toEqual([]);
    expect(rules(clevis({ reach_mm: 20.9 }))).toEqual(["hole-to-fold"]);
  });

  it("lets nothing out without its warning", () => {
    const part = clevis({ reach_mm: 18 }, 4);
    const warnings = notesOf(part)
      .filter(({ isWarning }) => isWarning)
      .map(({ text }) => text);
    // both folds and both holes alike
    expect(plateWarnings(part)).toHaveLength(4);
    expect(warnings).toHaveLength(2);
    expect(warnings.join("\n")).toMatch(
      /fold 1, 2: inside radius is 4 mm, at least 5 wanted \(1 x thickness; common practice\)/,
    );
  });
});
