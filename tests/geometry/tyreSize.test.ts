import { describe, expect, test } from "vitest";
import { tyreSize } from "../../src/geometry/tyreSize.ts";

/*
 * Width: S = S1 + K(A − A1), K = 0.4 (UN R30 §6.1.1.1; text read at lawinsider.com/clause/amend-to-read/_1), A1 = x·S1 with
 * x = 0.70 from aspect 50 up and 0.85 below (European tyre standard, from memory). Diameter: D = 25.4·code + 2·S1·aspect/100.
 * "Book" sizes are those of tyre books, from memory; they round the rim's diameter and the section height, hence ±1 mm.
 */
describe("sizes of common tyres on their measuring rims", () => {
  test.each([
    // designation, rim, D and S by the formula, D and S of the book
    ["P205/60R15", 6, 627.0, 208.6, 627.1, 209.0], // published 24.69 in and 8.23 in: autopedia.com/bbs/tires/messages/7871.html
    ["175/65R14", 5, 583.1, 176.8, 584, 177],
    ["185/60R14", 5.5, 577.6, 189.1, 578, 189],
    ["195/65R15", 6, 634.5, 201.4, 635, 201],
    ["205/55R16", 6.5, 631.9, 213.6, 632, 214],
    ["225/45R17", 7.5, 634.3, 224.7, 634, 225], // rim: tirerack.com TechPages id=199
    ["245/40R18", 8.5, 653.2, 248.1, 653, 248],
    ["255/35R19", 9, 661.1, 259.7, 661, 260],
  ])("%s on %s in", (designation, rim_in, diameter_mm, width_mm, bookDiameter_mm, bookWidth_mm) => {
    const size = tyreSize(designation, rim_in);
    expect(size.overallDiameter_mm).toBeCloseTo(diameter_mm, 1);
    expect(Math.abs(size.sectionWidth_mm - width_mm)).toBeLessThanOrEqual(0.05 + 1e-9);
    expect(Math.abs(size.overallDiameter_mm - bookDiameter_mm)).toBeLessThanOrEqual(1);
    expect(Math.abs(size.sectionWidth_mm - bookWidth_mm)).toBeLessThanOrEqual(1);
  });

  // 2ndhandtyresales.com.au/blog/1425
  test.each([
    ["205/65R15", 647],
    ["245/70R16", 749],
  ])("%s has its published diameter", (designation, diameter_mm) => {
    expect(Math.abs(tyreSize(designation, 7).overallDiameter_mm - diameter_mm)).toBeLessThanOrEqual(1);
  });

  test("half an inch of rim widens the section by about 5 mm", () => {
    // K·12.7 = 5.08 mm; "approximately 5 mm": tyres4u.com.au techdata/pass.html
    const wider_mm = tyreSize("205/55R16", 7).sectionWidth_mm - tyreSize("205/55R16", 6.5).sectionWidth_mm;
    expect(wider_mm).toBeCloseTo(5.08, 9);
  });
});
