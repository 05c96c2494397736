import { describe, expect, it } from "vitest";
import {
  figureText,
  forceText,
  inputName,
  KG_PER_LB,
  MPA_PER_KSI,
  massText,
  momentText,
  N_PER_LBF,
  roundForceText,
  tinyText,
} from "../../../src/app/loads/quantity.ts";

const plain = (text: string) => text.replaceAll("\u00a0", " ");

describe("forces, moments, masses and stresses", () => {
  it("convert as NIST SP 811, appendix B.8 has it", () => {
    expect(N_PER_LBF).toBeCloseTo(4.448222, 6);
    expect(KG_PER_LB).toBeCloseTo(0.4535924, 7);
    expect(MPA_PER_KSI).toBeCloseTo(6.894757, 6);
    // pound-force foot: 1.355818 N·m
    expect(plain(momentText(1_355_818, "in"))).toBe("1000 lbf·ft");
  });

  it("are told in the shown units, with no more figures than they are worth", () => {
    expect(plain(forceText(4213, "mm"))).toBe("4.21 kN");
    expect(plain(forceText(-320.4, "mm"))).toBe("−320 N");
    expect(plain(forceText(320.4, "mm", true))).toBe("+320 N");
    expect(plain(forceText(4448.222, "in"))).toBe("1000 lbf");
    expect(plain(momentText(967_600, "mm"))).toBe("968 N·m");
    expect(plain(massText(285, "mm"))).toBe("285 kg");
    expect(plain(massText(45.359237, "in"))).toBe("100 lb");
    expect(plain(roundForceText(2000, "mm"))).toBe("2 kN");
    expect(plain(roundForceText(500, "mm"))).toBe("500 N");
  });

  it("tell a rest of nothing as a power of ten", () => {
    expect(tinyText(2.3e-10)).toBe("2 × 10⁻¹⁰");
    expect(tinyText(0)).toBe("0");
  });

  it("name a formula's inputs by sign and unit", () => {
    expect(inputName("Sy_MPa")).toEqual({ sign: "Sy", unit: "MPa" });
    expect(inputName("I_mm4")).toEqual({ sign: "I", unit: "mm⁴" });
    expect(inputName("M_Nmm")).toEqual({ sign: "M", unit: "N·mm" });
    expect(inputName("FvRd_per_plane_N")).toEqual({ sign: "Fv,Rd", unit: "N" });
    expect(inputName("C")).toEqual({ sign: "C", unit: "" });
    expect(figureText(23_474.8)).toBe("23\u202f470");
    expect(figureText(-0.123456)).toBe("−0.1235");
  });
});
