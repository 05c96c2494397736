import { describe, expect, it } from "vitest";
import { parseTyre } from "../../src/scene/tyre.ts";
import { refusal } from "./fixture.ts";

// Designation of tyre sizes: UN Regulation No. 30, paragraph 2; prefixes P and LT are common practice, no source.

describe("a tyre's size", () => {
  it.each([
    ["205/55R16", 205, 55, 16],
    ["205/55 R16", 205, 55, 16],
    ["205/55R 16", 205, 55, 16],
    ["205/55r16", 205, 55, 16],
    ["205/55ZR16", 205, 55, 16],
    ["205/55 ZR16 91W", 205, 55, 16],
    ["225/45ZR17 (94Y)", 225, 45, 17],
    ["195/65R15 91H XL", 195, 65, 15],
    ["P205/60R15", 205, 60, 15],
    ["LT245/70R16 111/108S", 245, 70, 16],
    ["185/60-14", 185, 60, 14],
    ["185/60D14", 185, 60, 14],
    ["195/70R15C 104/102R", 195, 70, 15],
    ["225/70R19.5", 225, 70, 19.5],
  ])("%s", (designation, sectionWidth_mm, aspect, rimDiameter_in) => {
    expect(parseTyre(designation)).toEqual({ sectionWidth_mm, aspect, rimDiameter_in });
  });

  it.each([
    ["", /no tyre size/],
    ["205", /no tyre size/],
    ["185R14", /no tyre size/],
    ["205/55R16 or so", /no tyre size/],
    ["-205/55R16", /no tyre size/],
    ["205.5/55R16", /no tyre size/],
    ["31x10.5R15", /no tyre size/],
    ["55/205R16", /section width .* is 55 mm; wanted: 80 to 500 mm/],
    ["205/155R16", /aspect ratio .* is 155; wanted: 20 to 100/],
    ["205/55R55", /rim diameter .* is 55 in; wanted: 8 to 30 in/],
  ])("is refused: %j", (designation, message) => {
    const error = refusal(() => parseTyre(designation, { file: "car.json", path: "wheel.tyre" }));
    expect([error.code, error.path]).toEqual(["tyre", "wheel.tyre"]);
    expect(error.message).toMatch(message);
  });
});
