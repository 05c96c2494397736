import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stlNames } from "../../src/fabrication/exchange/partsZip.ts";

describe("what parts are saved as", () => {
  it("stays in its folder, is written by every system, and differs in more than capitals", () => {
    const key = fc.oneof(
      fc.string({ unit: "binary", minLength: 1 }),
      fc.constantFrom("..", "../../x", "C:\\x", "CON", "nul.x", "arm", "Arm", "a/b", "a_b", "a b", "arm-2"),
    );
    fc.assert(
      fc.property(fc.array(key, { maxLength: 12 }), (keys) => {
        const names = stlNames(keys);
        expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(keys.length);
        for (const name of names) {
          expect(name).toMatch(/^[\w.@-]+\.stl$/);
          // names kept for devices: Microsoft, "Naming Files, Paths, and Namespaces" (from memory)
          expect(name).not.toMatch(/^(?:con|prn|aux|nul|com\d|lpt\d)\./i);
        }
      }),
      { seed: 5, numRuns: 300 },
    );
  });
});
