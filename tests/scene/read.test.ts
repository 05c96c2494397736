import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { InputErrorCode } from "../../src/scene/error.ts";
import { parseJson } from "../../src/scene/json.ts";
import { readScene, SCENE_SIZE_LIMIT_BYTES, validateDocument } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { type Loose, looseScene, refusal, SAVED_VERSION_1 } from "./fixture.ts";

const head = '"format": "elbowroom.scene", "version": 1';

describe("a text that is no scene is refused in one line", () => {
  const texts: [string, string, InputErrorCode, string, RegExp][] = [
    ["an empty file", "", "not-json", "", /is empty/],
    ["blanks only", " \n\t ", "not-json", "", /is empty/],
    ["a file cut short", SAVED_VERSION_1.slice(0, 700), "not-json", "", /line \d+, column \d+/],
    ["a file cut within a text", '{"title": "hal', "not-json", "", /not closed/],
    ["a comma too many", `{${head},\n}`, "not-json", "", /found "}" in line 2, column 1/],
    ["a key without quotes", "{title: 1}", "not-json", "", /key in double quotes/],
    ["something after the end", `{${head}} {}`, "not-json", "", /after the end/],
    ["NaN", `{${head}, "travel": NaN}`, "not-json", "", /found "N"/],
    ["a number too large to hold", `{${head}, "travel": {"bump_mm": 1e999}}`, "not-finite", "travel.bump_mm", /finite/],
    ["a key that stands twice", '{"points": {"a": [1,2,3], "a": [4,5,6]}}', "wrong-value", "points.a", /stands twice/],
    ["a key that reaches into objects", `{${head}, "__proto__": {}}`, "unknown-key", "__proto__", /not allowed/],
    [
      "a point named like one",
      `{${head}, "points": {"constructor": []}}`,
      "unknown-key",
      "points.constructor",
      /not allowed/,
    ],
    ["a million brackets", "[".repeat(1e6), "wrong-value", "", /nested too deeply/],
    ["a list", "[1]", "wrong-format", "", /list of 1/],
    ["another format", '{"format": "drawing"}', "wrong-format", "format", /"drawing"/],
    ["no format", "{}", "wrong-format", "format", /missing/],
    ["no version", '{"format": "elbowroom.scene"}', "wrong-version", "version", /missing.*version 1/],
    [
      "a newer version",
      '{"format": "elbowroom.scene", "version": 7}',
      "wrong-version",
      "version",
      /7 is newer.*reads up to 1/,
    ],
    ["version 0", '{"format": "elbowroom.scene", "version": 0}', "wrong-version", "version", /never existed/],
    ["a version in words", '{"format": "elbowroom.scene", "version": "1"}', "wrong-version", "version", /text "1"/],
  ];
  it.each(texts)("%s", (_, text, code, path, message) => {
    const error = refusal(() => readScene(text, "car.json"));
    expect(error.code).toBe(code);
    if (path) expect(error.path).toBe(path);
    expect(error.message).toMatch(message);
    expect(error.message).toMatch(/^car\.json: [^\n]*; wanted: [^\n]+$/);
    expect(error.message.length).toBeLessThan(400);
  });

  it("measures its size in bytes, not in characters", () => {
    const filler = "é".repeat(SCENE_SIZE_LIMIT_BYTES / 2);
    expect(refusal(() => readScene(filler, "car.json")).code).toBe("not-json");
    expect(refusal(() => readScene(`${filler}.`, "car.json")).code).toBe("too-large");
  });

  it.each(["a", "\\n", "\\u00e9", "1", " ", "[],", "\\"])(
    "takes or refuses a million times %j without stumbling",
    (piece) => {
      const many = piece.repeat(1e6);
      for (const text of [`["${many}"]`, `["${many}`, `[${many}]`, many]) {
        try {
          parseJson(text, "car.json");
        } catch {
          expect(refusal(() => parseJson(text, "car.json")).message.length).toBeLessThan(400);
        }
      }
    },
  );

  it("takes no offence at a byte order mark", () => {
    expect(readScene(`\uFEFF${SAVED_VERSION_1}`, "car.json")).toEqual(looseScene());
  });

  it("refuses values nested without end that never were JSON", () => {
    const circle: Loose = looseScene();
    circle.notes = circle;
    expect(refusal(() => validateDocument(circle, "car.json")).message).toMatch(/nested too deeply/);
  });
});

describe("reading", () => {
  it("returns the document as the builder wrote it, nothing filled in", () => {
    expect(readScene(SAVED_VERSION_1, "car.json")).toEqual(looseScene());
  });

  it("agrees with JSON.parse on what is JSON (RFC 8259) and what it means", () => {
    const hasTwins = (value: unknown): boolean => JSON.stringify(value)?.includes("__proto__") ?? false;
    fc.assert(
      fc.property(fc.json({ depthSize: "medium" }), fc.nat(2), (text, indent) => {
        const value = JSON.parse(text);
        fc.pre(!hasTwins(value));
        expect(parseJson(JSON.stringify(value, null, indent), "")).toEqual(value);
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  it("refuses every text that JSON.parse refuses", () => {
    fc.assert(
      fc.property(
        fc.json(),
        fc.nat(),
        fc.constantFrom("", ",", '"', "}", "]", "0", "\\", "\u0001", "-", "e"),
        (text, at, put) => {
          const place = at % (text.length + 1);
          const spoilt = text.slice(0, place) + put + text.slice(place + 1);
          let isJson = true;
          try {
            JSON.parse(spoilt);
          } catch {
            isJson = false;
          }
          if (!isJson) expect(refusal(() => parseJson(spoilt, "car.json")).message).toMatch(/^car\.json: [^\n]+$/);
        },
      ),
      { seed: 12, numRuns: 2000 },
    );
  });

  it("ends every spoilt scene in a scene or in one plain line, never in another error", () => {
    const places = everyPlace(looseScene());
    const strange = fc.oneof(
      fc.constantFrom<unknown>(
        null,
        0,
        -1,
        1e300,
        Number.NaN,
        "",
        "*",
        "role:",
        "rest",
        "upper",
        [],
        {},
        [0, 0, 0],
        true,
        undefined,
      ),
      fc.jsonValue(),
    );
    fc.assert(
      fc.property(fc.nat(places.length - 1), strange, (which, value) => {
        const scene = looseScene();
        let parent = scene;
        const place = places[which]!;
        for (const key of place.slice(0, -1)) parent = parent[key];
        parent[place.at(-1)!] = value;
        try {
          resolveScene(validateDocument(scene, "car.json"), "car.json");
        } catch {
          const error = refusal(() => resolveScene(validateDocument(scene, "car.json"), "car.json"));
          expect(error.message).toMatch(/^car\.json: [^\n]+; wanted: [^\n]+$/);
        }
      }),
      { seed: 13, numRuns: 1000 },
    );
  });
});

function everyPlace(value: unknown, place: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => {
    const here = [...place, Array.isArray(value) ? Number(key) : key];
    return [here, ...everyPlace(item, here)];
  });
}
