import { describe, expect, it } from "vitest";
import { drawnPart } from "../../src/scene/aside.ts";
import { withMeasure, withMeasureHidden, withoutMeasure } from "../../src/scene/measures.ts";
import { removePart } from "../../src/scene/parts/remove.ts";
import { renamePart } from "../../src/scene/parts/rename.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { writeScene } from "../../src/scene/write.ts";
import { smallScene } from "../app/smallScene.ts";

const rail = { part: "rail" };
const corner = { part: "rail", grip: 0, at: [1, 1, 1], is: "corner" } as const;
const pinned = withMeasure(withMeasure(smallScene(), { kind: "distance", from: { point: "toe.in" }, to: corner }), {
  kind: "gap",
  a: rail,
  b: { part: "tyre", side: "right" },
});

describe("measures in the scene file", () => {
  it("come back from a file as they were, under version 1", () => {
    const again = readScene(writeScene(pinned), "pinned.json");
    expect(again.version).toBe(1);
    expect(again.measures).toEqual(pinned.measures);
    expect(pinned.measures?.map(({ id }) => id)).toEqual(["1", "2"]);
  });

  it("are refused where they name what is not there, with the place and the nearest name", () => {
    const wrongPart = withMeasure(smallScene(), { kind: "gap", a: { part: "raill" }, b: rail });
    expect(() => resolveScene(wrongPart)).toThrow(/measures\[0\]\.a\.part.*rail/s);
    const wrongPoint = withMeasure(smallScene(), { kind: "distance", from: { point: "toe.inn" }, to: corner });
    expect(() => resolveScene(wrongPoint)).toThrow(/measures\[0\]\.from\.point.*toe\.in/s);
    const twice = { ...pinned, measures: pinned.measures!.map((measure) => ({ ...measure, id: "1" })) };
    expect(() => resolveScene(twice)).toThrow(/measures\[1\]\.id/);
  });

  it("go with the part they are taken at, and follow its new name", () => {
    expect(removePart(pinned, "rail").measures).toBeUndefined();
    const renamed = renamePart(pinned, "rail", "chord");
    expect(renamed.measures?.[1]).toMatchObject({ a: { part: "chord" }, b: { part: "tyre" } });
    expect(renamed.measures?.[0]).toMatchObject({ from: { point: "toe.in" }, to: { part: "chord" } });
  });

  it("take the next free number, hide, show and go without touching the others", () => {
    const hidden = withMeasureHidden(pinned, "1", true);
    expect(hidden.measures?.map((measure) => measure.hidden ?? false)).toEqual([true, false]);
    expect(withMeasureHidden(hidden, "1", false).measures).toEqual(pinned.measures);
    const fewer = withoutMeasure(pinned, "1");
    expect(fewer.measures?.map(({ id }) => id)).toEqual(["2"]);
    expect(withMeasure(fewer, { kind: "gap", a: rail, b: rail }).measures?.map(({ id }) => id)).toEqual(["2", "3"]);
  });

  it("leave what is drawn the same object, so that nothing is worked out anew", () => {
    const bare = drawnPart(pinned);
    expect(bare).not.toHaveProperty("measures");
    expect(drawnPart(withMeasureHidden(pinned, "2", true))).toBe(bare);
    expect(withoutMeasure(withoutMeasure(pinned, "1"), "2")).toBe(bare);
  });
});
