import { describe, expect, it } from "vitest";
import {
  euler_N,
  johnson_N,
  type RoundSection,
  roundSection,
  screenBar,
  transition,
} from "../../src/loads/screen/bar.ts";
import { CLASSES, shearPerPlane_N, THREAD_SIZES, tension_N } from "../../src/loads/screen/bolt.ts";
import { MATERIALS, materialOf } from "../../src/loads/screen/materials.ts";
import { bearing_N, besideHole_N, type Lug, netSection_N, tearOut_N } from "../../src/loads/screen/plate.ts";
import { filletStrength_MPa, lineLoad_N_per_mm, throatOfLeg_mm } from "../../src/loads/screen/weld.ts";
import { agrees } from "../truth/agreement.ts";

const E235 = materialOf("E235+N", [])!;
const round = (diameter_mm: number): RoundSection => roundSection(diameter_mm, diameter_mm);

describe("tube sections", () => {
  // closed forms, worked out beside the program; sizes of EN 10305-1 and -2
  it.each([
    [20, 2, 113.097, 4636.99, 463.7, 6.4031],
    [25, 2, 144.513, 9628.2, 770.26, 8.1624],
    [25, 2.5, 176.715, 11320.78, 905.66, 8.0039],
    [30, 3, 254.469, 23474.77, 1564.98, 9.6047],
    [38, 3, 329.867, 50882.02, 2678, 12.4197],
    [40, 2, 238.761, 43215.75, 2160.79, 13.4536],
  ])("%d × %d", (diameter, wall, area, second, modulus, gyration) => {
    const found = roundSection(diameter, wall);
    expect(Math.abs(found.area_mm2 / area - 1)).toBeLessThan(1e-5);
    expect(Math.abs(found.second_mm4 / second - 1)).toBeLessThan(1e-5);
    expect(Math.abs(found.modulus_mm3 / modulus - 1)).toBeLessThan(1e-5);
    expect(Math.abs(found.gyration_mm / gyration - 1)).toBeLessThan(1e-5);
  });

  it("is a solid bar where the wall is thick enough", () => {
    expect(roundSection(20, 10).area_mm2).toBeCloseTo(Math.PI * 100, 9);
    expect(roundSection(20, 30)).toEqual(roundSection(20, 10));
  });
});

describe("columns", () => {
  // Gere, Mechanics of Materials, 7th ed., problem 11.4-2: 40 × 2, 1.2 m, 210 GPa; 2.046 is the exact constant behind its 127 kN
  it.each([
    ["pinned", 1, 62.2],
    ["fixed and free", 0.25, 15.6],
    ["fixed and pinned", 2.0457, 127],
    ["fixed", 4, 249],
  ])("buckle by Euler: %s", (_, endConstant, kN) => {
    agrees("screenCompression", euler_N(roundSection(40, 2), 1200, 210_000, endConstant) / 1000 / kN, 1, 2);
  });

  it("buckles by Euler as Hibbeler's example 13.1: radii 75 and 70, 7.2 m, 200 GPa, 228.2 kN", () => {
    expect(euler_N(roundSection(150, 5), 7200, 200_000, 1) / 1000).toBeCloseTo(228.2, 0);
  });

  it("is sized by Johnson as Faires, problem 334: 30 kip, 25 in, 48 ksi, 30 000 ksi, 1.096 in; 50 in by Euler 1.507 in", () => {
    const psi = { yield_MPa: 48_000, elastic_MPa: 30e6 };
    agrees("screenCompression", johnson_N(round(1.096), 25, psi, 1) / 30_000, 1, 2);
    expect(euler_N(round(1.507), 50, 30e6, 1) / 30_000).toBeCloseTo(1, 2);
    expect(25 / round(1.096).gyration_mm).toBeLessThan(transition(psi, 1));
    expect(50 / round(1.507).gyration_mm).toBeGreaterThan(transition(psi, 1));
  });

  it("is sized as Shigley's column examples (from memory): 88 kN, 500 MPa, 207 GPa, 1500 and 375 mm, 37.485 and 19.020 mm", () => {
    const steel = { yield_MPa: 500, elastic_MPa: 207_000 };
    expect(euler_N(round(37.485), 1500, 207_000, 1) / 88_000).toBeCloseTo(1, 3);
    expect(johnson_N(round(19.02), 375, steel, 1) / 88_000).toBeCloseTo(1, 3);
  });

  it("takes 55.2065 kN by Johnson for 30 × 3 of E235 over 500 mm, worked by hand", () => {
    expect(johnson_N(roundSection(30, 3), 500, E235, 1)).toBeCloseTo(55_206.5, 0);
    expect(euler_N(roundSection(30, 3), 500, 210_000, 1) / 1000).toBeCloseTo(194.617, 2);
  });

  it("has both formulas give half the yield load at the transition; 2π² in place of 4π², as one text prints it, gives nothing", () => {
    expect(transition(E235, 1)).toBeCloseTo(132.813, 3);
    const section = roundSection(30, 3);
    const length = transition(E235, 1) * section.gyration_mm;
    const half = (section.area_mm2 * 235) / 2;
    expect(euler_N(section, length, 210_000, 1)).toBeCloseTo(half, 6);
    expect(johnson_N(section, length, E235, 1)).toBeCloseTo(half, 6);
    const misprinted =
      section.area_mm2 * 235 * (1 - (235 * (length / section.gyration_mm) ** 2) / (2 * Math.PI ** 2 * 210_000));
    expect(Math.abs(misprinted)).toBeLessThan(1e-6);
  });
});

describe("a bar", () => {
  const section = roundSection(30, 3);
  const load = { axial_N: 0, bending_Nmm: 0, length_mm: 500, endConstant: 1, bow_mm: 0 };

  it("in tension yields at A·Sy", () => {
    agrees("screenTension", screenBar(section, E235, { ...load, axial_N: 10_000 })!.factor, 5.98, 2);
    expect(screenBar(section, E235, load)).toBeNull();
  });

  it("pushed and straight takes Johnson or Euler, whichever holds at its length", () => {
    expect(screenBar(section, E235, { ...load, axial_N: -10_000 })).toMatchObject({ governedBy: "Johnson" });
    expect(screenBar(section, E235, { ...load, axial_N: -10_000, length_mm: 2000 })).toMatchObject({
      governedBy: "Euler",
    });
  });

  it("with a bow reaches, at its factor, just the yield stress at its edge, the bow grown as a beam-column's", () => {
    const bowed = { ...load, axial_N: -8000, bow_mm: 25 };
    const { factor, governedBy } = screenBar(section, E235, bowed)!;
    expect(governedBy).toBe("bending and buckling");
    const pushed = 8000 * factor;
    const grown = 25 / (1 - pushed / euler_N(section, 500, 210_000, 1));
    expect(pushed / section.area_mm2 + (pushed * grown) / section.modulus_mm3).toBeCloseTo(235, 9);
    // a pull straightens it: without growth
    const pulled = screenBar(section, E235, { ...bowed, axial_N: 8000 })!;
    expect((pulled.factor * 8000) / section.area_mm2 + (pulled.factor * 8000 * 25) / section.modulus_mm3).toBeCloseTo(
      235,
      9,
    );
    expect(pulled.factor).toBeGreaterThan(factor);
  });

  it("bent alone yields at Z·Sy", () => {
    expect(screenBar(section, E235, { ...load, bending_Nmm: 1e5 })!.factor).toBeCloseTo(
      (235 * section.modulus_mm3) / 1e5,
      9,
    );
  });

  it("is as strong as its ideal column where the bow goes to nothing", () => {
    const long = { ...load, axial_N: -1000, length_mm: 2500 };
    const straight = screenBar(section, E235, long)!.factor;
    expect(screenBar(section, E235, { ...long, bow_mm: 1e-9 })!.factor).toBeCloseTo(straight, 3);
  });
});

describe("bolts (ISO 898-1 areas; EN 1993-1-8 table 3.4)", () => {
  const PITCH = { M6: 1, M8: 1.25, M10: 1.5, M12: 1.75, M14: 2, M16: 2, M20: 2.5 } as const;

  it("have the stress areas π/4·(d − 0.938194·P)², as the standard rounds them", () => {
    for (const [thread, { diameter_mm, stress_mm2 }] of Object.entries(THREAD_SIZES)) {
      const exact = (Math.PI / 4) * (diameter_mm - 0.938194 * PITCH[thread as keyof typeof PITCH]) ** 2;
      expect(Math.abs(exact / stress_mm2 - 1), thread).toBeLessThan(5e-3);
    }
  });

  it("take in shear and tension what published examples have: M20 4.6 47.04 and 70.56 kN, M20 8.8 94.08 kN", () => {
    expect(shearPerPlane_N("M20", "4.6", "thread")).toBeCloseTo(47_040, 6);
    expect(tension_N("M20", "4.6")).toBeCloseTo(70_560, 6);
    agrees("screenBoltShear", shearPerPlane_N("M20", "8.8", "thread"), 94_080, 6);
    expect(shearPerPlane_N("M10", "8.8", "thread")).toBeCloseTo(22_272, 6);
  });

  it("take less in shear for class 10.9 than its strength would give, and nothing is known of 12.9", () => {
    expect(shearPerPlane_N("M12", "10.9", "thread")! / shearPerPlane_N("M12", "8.8", "thread")!).toBeCloseTo(
      0.5 / 0.48,
      9,
    );
    expect(CLASSES["12.9"].shear).toBeNull();
    expect(shearPerPlane_N("M12", "12.9", "shank")).toBeNull();
  });
});

describe("plates (EN 1993-1-8 tables 3.4 and 3.9)", () => {
  const lug = (end: number, side: number, hole: number, thickness: number, ultimate: number, yields = 275): Lug => ({
    thickness_mm: thickness,
    hole_mm: hole,
    end_mm: end,
    side_mm: side,
    yield_MPa: yields,
    ultimate_MPa: ultimate,
  });

  it("bear as worked examples have it", () => {
    expect(bearing_N(lug(40, 40, 22, 12, 470), 20, 800)).toBeCloseTo(136_727, 0);
    expect(bearing_N(lug(20, 15, 11, 5, 410), 10, 800)).toBeCloseTo(21_053, 0);
  });

  it("bear by the plate's strength: a published 33.997 kN took the bolt's, right are 30.597", () => {
    const plate = lug(26.4, 26.4, 22, 8, 360);
    agrees("screenBearing", bearing_N(plate, 20, 400) / 1000, 30.597, 2);
    expect(bearing_N({ ...plate, ultimate_MPa: 400 }, 20, 400) / 1000).toBeCloseTo(33.997, 2);
  });

  it("tear in the section through the hole at 28.044 kN for 30 × 5 with a hole of 11", () => {
    agrees("screenNetSection", netSection_N(lug(20, 15, 11, 5, 410)), 28_044, 0);
  });

  it("want a 14.727 and c 10.394 mm for 20 kN on 6 mm of S275 with a hole of 13", () => {
    const ended = (a: number, c: number) => lug(a + 6.5, c + 6.5, 13, 6, 410);
    agrees("screenTearOut", tearOut_N(ended(14.727, 20)) / 20_000, 1, 4);
    agrees("screenBesideHole", besideHole_N(ended(20, 10.394)) / 20_000, 1, 4);
    expect(tearOut_N(ended(8, 20))).toBe(0);
  });
});

describe("fillet welds (EN 1993-1-8, 4.5.3.3)", () => {
  it.each([
    ["S235", 207.85],
    ["S275", 222.79],
    ["S355", 241.2],
  ])("of %s take %d MPa", (id, wanted) => {
    const { ultimate_MPa, weldFactor } = materialOf(id, [])!;
    expect(filletStrength_MPa(ultimate_MPa, weldFactor!)).toBeCloseTo(wanted, 1);
  });

  it("need 1.28 mm of throat for 335.6 N/mm where fu is 510 (published example)", () => {
    agrees("screenWeld", filletStrength_MPa(510, 0.9), 261.73, 1);
    expect(335.6 / filletStrength_MPa(510, 0.9)).toBeCloseTo(1.28, 2);
  });

  it("have a throat of leg/√2, and carry a tipping load at their ends", () => {
    expect(throatOfLeg_mm(5)).toBeCloseTo(3.536, 3);
    expect(lineLoad_N_per_mm(10_000, 50, 2, 0)).toBeCloseTo(100, 9);
    // section modulus of two lines of length L is L²/3
    expect(lineLoad_N_per_mm(10_000, 50, 2, 30) ** 2).toBeCloseTo(100 ** 2 + (300_000 / (50 ** 2 / 3)) ** 2, 6);
  });
});

describe("materials", () => {
  it("each name their source, and a builder's own of the same name comes first", () => {
    for (const { source, yield_MPa, ultimate_MPa } of MATERIALS) {
      expect(source.length).toBeGreaterThan(10);
      expect(yield_MPa).toBeLessThan(ultimate_MPa);
    }
    expect(materialOf("S235", [{ id: "S235", yield_MPa: 240, ultimate_MPa: 370 }])).toMatchObject({
      yield_MPa: 240,
      weldFactor: null,
    });
    expect(materialOf("unobtainium", [])).toBeNull();
  });
});
