import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ByteScanner } from "../../src/geometry/import/byteScanner.ts";

const read = (text: string) => new ByteScanner(new TextEncoder().encode(text)).number();

describe("numbers of a text file, against Number()", () => {
  test("any double, as it is written in full", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(read(String(value))).toBe(Number(String(value)));
      }),
      { numRuns: 3000 },
    );
  });

  test("decimals as files have them, with and without powers", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -99_999_999, max: 99_999_999 }),
        fc.nat(9),
        fc.integer({ min: -12, max: 12 }),
        (whole, digits, power) => {
          const plain = (whole / 10 ** digits).toFixed(digits);
          expect(read(plain)).toBe(Number(plain));
          const scaled = `${plain}e${power < 0 ? power : `+${power}`}`;
          expect(read(scaled)).toBe(Number(scaled));
        },
      ),
      { numRuns: 3000 },
    );
  });

  test.each([
    "1.",
    ".5",
    "+3",
    "-0.0",
    "00012.50",
    "1E5",
    "123456789012345678901234567890",
    "0.1234567890123456789012",
  ])("%s", (text) => expect(read(text)).toBe(Number(text)));

  test.each(["nan", "x", "-", "", "inf"])("%j is no number", (text) => expect(read(text)).toBeNaN());

  test("ends where the number ends", () => {
    const scanner = new ByteScanner(new TextEncoder().encode("12/7 3e 4"));
    expect(scanner.number()).toBe(12);
    expect(scanner.bytes[scanner.at]).toBe("/".charCodeAt(0));
  });
});
