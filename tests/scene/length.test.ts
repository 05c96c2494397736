import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatLength, parseLength } from "../../src/scene/length.ts";

// 1 in = 25.4 mm exactly: international yard and pound agreement, 1959.

describe("a length as it is typed", () => {
  it.each([
    ["9 7/16 in", "mm", 239.7125],
    ["9 7/16", "in", 239.7125],
    ["9 7/16 in", "in", 239.7125],
    ['9 7/16"', "mm", 239.7125],
    ["9 7/16″", "mm", 239.7125],
    ["9 7⁄16 in", "mm", 239.7125],
    ["9.5in", "mm", 241.3],
    ["9.5 IN", "mm", 241.3],
    ["9.5 inches", "mm", 241.3],
    ["1 inch", "mm", 25.4],
    [".5in", "mm", 12.7],
    ["3/8in", "mm", 9.525],
    ["3/8", "in", 9.525],
    ["3/8", "mm", 0.375],
    ["12+4", "mm", 16],
    ["12 + 4", "mm", 16],
    ["440+4", "mm", 444],
    ["440+4-10", "mm", 434],
    ["1+1", "in", 50.8],
    ["9.5in+4", "mm", 245.3],
    ["240mm + 1/4in", "in", 246.35],
    ["9 - 7/16", "in", 217.4875],
    ["3/4-1/16", "in", 17.4625],
    ["10-4", "mm", 6],
    ["-3", "mm", -3],
    ["−3", "mm", -3],
    ["+3", "mm", 3],
    ["-3/8in", "mm", -9.525],
    ["9,5", "mm", 9.5],
    ["0,125", "in", 3.175],
    ["12,5 mm", "mm", 12.5],
    ["3.5cm", "in", 35],
    ["2 m", "mm", 2000],
    // one foot is twelve inches, 304.8 mm: the same agreement
    ["1'4 1/4", "mm", 412.75],
    [`1' 4 1/4"`, "mm", 412.75],
    [`1' 4 1/4"`, "in", 412.75],
    ["1′ 4 1⁄4″", "mm", 412.75],
    ["1 ft 4 1/4 in", "mm", 412.75],
    ["-1'4", "mm", -406.4],
    ["2'", "mm", 609.6],
    ["1.5'", "in", 457.2],
    ["1' 4 + 10mm", "mm", 416.4],
    ["1' - 4\"", "mm", 203.2],
    ["6''", "mm", 152.4],
    ["  7  ", "mm", 7],
    ["0", "mm", 0],
  ] as const)("%s in a field of %s is %d mm", (text, unit, mm) => {
    expect(parseLength(text, unit)).toEqual({ ok: true, mm });
  });

  it.each([
    "",
    " ",
    "abc",
    "9.5.1",
    "12 4",
    "1' 14",
    "1.5' 4",
    "1' 4 mm",
    "4' 1' 2",
    "1'-",
    "12+",
    "+",
    "12++4",
    "12+-4",
    "1e3",
    "3/0",
    "9 16/7",
    "9.5 7/16",
    "7/16/2",
    "5 min",
    "9 in in",
    "in",
    "NaN",
    "Infinity",
    "0x10",
    "12*4",
    "(12)",
    "1.234,5",
    "=upper.in",
  ])("%j is no length", (text) => {
    expect(parseLength(text, "mm")).toEqual({ ok: false, code: "not-a-length" });
  });

  it.each([
    ["9-7/16", "9-7/16", "9 7/16", "9 - 7/16"],
    ['9-7/16"', "9-7/16", "9 7/16", "9 - 7/16"],
    ["9 -7/16", "9-7/16", "9 7/16", "9 - 7/16"],
    ["1'-4", "1'-4", "1' 4", "1' - 4"],
    [`1'-4 1/4"`, "1'-4", "1' 4", "1' - 4"],
    ["1,200", "1,200", "1200", "1.200"],
    ["9,525", "9,525", "9525", "9.525"],
    ["1,200+5", "1,200", "1200", "1.200"],
  ])("%s is asked back, since steel is cut from it", (text, written, first, second) => {
    expect(parseLength(text, "in")).toEqual({ ok: false, code: "two-ways", written, first, second });
  });

  it.each(["99999999", "9".repeat(400), "2000m"])("%s lies farther off than anything on a car", (text) => {
    expect(parseLength(text, "mm")).toMatchObject({ ok: false, code: "too-far" });
  });

  it("never answers anything but a finite length or a message, whatever is typed", () => {
    const key = fc.constantFrom(..."0123456789 .,/+-−in\"mc'".split(""));
    fc.assert(
      fc.property(fc.string({ unit: key, maxLength: 20 }), (text) => {
        const parsed = parseLength(text, "in");
        if (parsed.ok) expect(Math.abs(parsed.mm)).toBeLessThanOrEqual(1e6);
        else expect(parsed.code).not.toBe("");
      }),
      { seed: 31, numRuns: 5000 },
    );
  });
});

describe("a sum that names points", () => {
  const places: Readonly<Record<string, number>> = {
    "upper.in": 440,
    "upper.in.old": 400,
    "left-rail": 200,
    "left-rail-3": 90,
    "2nd link": 55,
    "a + b": 7,
    in: 31,
    "Querträger 9-7/16": 12,
  };
  const references = { names: Object.keys(places), valueOf_mm: (name: string) => places[name]! };

  it.each([
    ["=upper.in", "mm", 440],
    ["= upper.in", "mm", 440],
    ["=upper.in+12", "mm", 452],
    ["=upper.in + 12", "mm", 452],
    ["=upper.in-3/8in", "mm", 440 - 9.525],
    ["=upper.in − 9 7/16", "in", 440 - 239.7125],
    ["=upper.in+1", "in", 465.4],
    ["=12+upper.in", "mm", 452],
    ["=-upper.in", "mm", -440],
    ["=upper.in - left-rail", "mm", 240],
    ["=upper.in.old", "mm", 400],
    // the longest name that fits: three below the rail is written with blanks
    ["=left-rail-3", "mm", 90],
    ["=left-rail - 3", "mm", 197],
    ['="2nd link"+1', "mm", 56],
    ['="a + b" - 2', "mm", 5],
    ["=a + b - 2", "mm", 5],
    ["=in+1in", "mm", 56.4],
    ["=Querträger 9-7/16+1", "mm", 13],
    ["=12+4", "mm", 16],
    ["=9.5in", "mm", 241.3],
  ] as const)("%s in a field of %s is %d mm", (text, unit, mm) => {
    expect(parseLength(text, unit, references)).toEqual({ ok: true, mm: expect.closeTo(mm, 9) });
  });

  const KNOWN = ["upper.in", "upper.in.old", "left-rail"];
  it.each([
    ["=uper.in", "missing-point", { word: '"uper.in"', nearest: "upper.in", known: KNOWN }],
    ["=upper.in + lft-rail", "missing-point", { word: '"lft-rail"', nearest: "left-rail", known: KNOWN }],
    ["=zzzzzz", "missing-point", { word: '"zzzzzz"', nearest: null, known: KNOWN }],
    ['="nothing"', "missing-point", { word: '"nothing"', nearest: null, known: KNOWN }],
    ["=upper.in 12", "no-sign", { name: "upper.in" }],
    ["=", "no-name", { example: "upper.in" }],
    ["=upper.in+", "not-a-length", {}],
    ["=2nd link", "not-a-length", {}],
    ["=upper.in+9-7/16", "two-ways", { written: "9-7/16", first: "9 7/16", second: "9 - 7/16" }],
    ["upper.in", "not-a-length", {}],
    ["\uE000", "not-a-length", {}],
  ] as const)("%s is refused as %s", (text, code, names) => {
    expect(parseLength(text, "mm", references)).toEqual({ ok: false, code, ...names });
  });

  it("reads every name that a point may have, in quotation marks", () => {
    const name = fc.stringMatching(/^[a-z0-9 .+\-/'=]{1,12}$/).filter((text) => text.trim() === text);
    fc.assert(
      fc.property(name, fc.integer({ min: -900, max: 900 }), (text, mm) => {
        const one = { names: [text], valueOf_mm: () => mm };
        expect(parseLength(`="${text}"+4`, "mm", one)).toEqual({ ok: true, mm: mm + 4 });
      }),
      { seed: 33, numRuns: 1000 },
    );
  });

  it("never answers anything but a finite length or a message, whatever is typed", () => {
    const key = fc.constantFrom(..."=upernil2d.- +,/\"'".split(""));
    fc.assert(
      fc.property(fc.string({ unit: key, maxLength: 24 }), (text) => {
        const parsed = parseLength(`=${text}`, "in", references);
        if (parsed.ok) expect(Math.abs(parsed.mm)).toBeLessThanOrEqual(1e6);
        else expect(parsed.code).not.toBe("");
      }),
      { seed: 34, numRuns: 5000 },
    );
  });
});

describe("a length as it is shown", () => {
  it.each([
    [239.7125, "mm", {}, "239.7"],
    [239.7125, "in", { fraction: 16, withUnit: true }, "9 7/16 in"],
    [239.7125, "in", { decimals: 4 }, "9.4375"],
    [254, "in", {}, "10.000"],
    [9.525, "in", { fraction: 16 }, "3/8"],
    [9.525, "in", { fraction: 2 }, "1/2"],
    [-9.525, "in", { fraction: 32 }, "−3/8"],
    [0.79375, "in", { fraction: 32 }, "1/32"],
    [0.1, "in", { fraction: 16 }, "0"],
    [-0.1, "in", { fraction: 16 }, "0"],
    [25.3, "in", { fraction: 16 }, "1"],
    [-0.04, "mm", {}, "0.0"],
    [-6.25, "mm", { decimals: 2, withUnit: true }, "−6.25 mm"],
    [38, "mm", { decimals: 0, signed: true }, "+38"],
    [0, "mm", { decimals: 0, signed: true }, "0"],
    [12.34, "mm", { fraction: 16 }, "12.3"],
  ] as const)("%d mm in %s, %o: %s", (mm, unit, format, text) => {
    expect(formatLength(mm, unit, format)).toBe(text);
  });

  it("reads back to within half of its last digit or fraction", () => {
    const mm = fc.double({ min: -5000, max: 5000, noNaN: true });
    const fraction = fc.constantFrom(2, 4, 8, 16, 32, 64);
    fc.assert(
      fc.property(mm, fraction, fc.nat(6), fc.boolean(), (mm, fraction, decimals, withUnit) => {
        const back = (text: string, unit: "mm" | "in") => {
          const parsed = parseLength(text, unit);
          return parsed.ok ? parsed.mm : Number.NaN;
        };
        const half = 0.5 * 10 ** -decimals * (1 + 1e-9) + 1e-9;
        expect(
          Math.abs(back(formatLength(mm, "mm", { decimals, withUnit, signed: true }), "mm") - mm),
        ).toBeLessThanOrEqual(half);
        expect(Math.abs(back(formatLength(mm, "in", { decimals, withUnit }), "in") - mm)).toBeLessThanOrEqual(
          half * 25.4,
        );
        const nearest = Math.abs(back(formatLength(mm, "in", { fraction, withUnit }), "in") - mm);
        expect(nearest).toBeLessThanOrEqual(25.4 / fraction / 2 + 1e-9);
      }),
      { seed: 32, numRuns: 1000 },
    );
  });

  it("survives any number of inch fractions exactly: what a tape says is what the next reading says", () => {
    for (let i = 1; i < 64 * 40; i++) {
      const text = formatLength((i * 25.4) / 64, "in", { fraction: 64 });
      expect(parseLength(text, "in")).toEqual({ ok: true, mm: Math.round(((i * 254) / 640) * 1e9) / 1e9 });
    }
  });
});
