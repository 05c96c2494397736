import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SceneDocument } from "../../src/scene/document.ts";
import { readScene } from "../../src/scene/read.ts";
import { writeScene } from "../../src/scene/write.ts";
import { type Loose, looseScene, SAVED_VERSION_1 } from "./fixture.ts";

const saved = readScene(SAVED_VERSION_1, "car.json");

describe("writing a scene", () => {
  it("writes what reads back to an equal document, and to the same text again", () => {
    const text = writeScene(saved);
    expect(readScene(text, "car.json")).toEqual(saved);
    expect(writeScene(readScene(text, "car.json"))).toBe(text);
  });

  it("reads well: vectors and short records on one line, nothing over 120 columns, two blanks a level", () => {
    const lines = writeScene(saved).split("\n");
    expect(lines).toContain('    "upper.in": [-20, 410, 425],');
    expect(lines).toContain('    { "id": "arm", "kind": "ball", "at": "arm.front", "stock": "donor", "body": null },');
    expect(lines).toContain('  "travel": { "bump_mm": 60, "droop_mm": 70, "step_mm": 5 },');
    expect(lines.filter((line) => /\[$/.test(line.trim()) && /^\s*\[/.test(line))).toEqual([]);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(120);
    expect(lines.every((line) => (/^ */.exec(line)![0].length & 1) === 0)).toBe(true);
    expect(lines.at(-1)).toBe("");
  });

  it("leaves out what is undefined, and writes empty lists and records", () => {
    const document = { ...looseScene(), notes: undefined, bodies: [], points: {} };
    const text = writeScene(document);
    expect(text).toContain('"bodies": []');
    expect(text).toContain('"points": {}');
    expect(text).not.toContain("notes");
  });

  it("keeps any number, name and text to the last bit", () => {
    const number = fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((value) => (value === 0 ? 0 : value));
    const name = fc
      .string({ unit: "grapheme", minLength: 1, maxLength: 20 })
      .filter((text) => /^[^\p{Z}\p{C}]+$/u.test(text));
    const vector = fc.tuple(number, number, number);
    const entry = fc.oneof(vector, fc.record({ at: vector, how: fc.string({ unit: "binary", maxLength: 300 }) }));
    fc.assert(
      fc.property(
        fc.dictionary(name, entry, { noNullPrototype: true }),
        fc.string({ unit: "binary", maxLength: 200 }),
        (points, title) => {
          fc.pre(!["constructor", "prototype", "__proto__"].some((key) => Object.hasOwn(points, key)));
          const document: Loose = { ...looseScene(), title, points: { ...looseScene().points, ...points } };
          expect(readScene(writeScene(document as SceneDocument), "car.json")).toEqual(document);
        },
      ),
      { seed: 41, numRuns: 200 },
    );
  });
});
