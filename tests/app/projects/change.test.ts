import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changeBetween, changed } from "../../../src/app/projects/change.ts";
import { stepRecords, stepsOf, weightsOf } from "../../../src/app/projects/stepRecords.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { withPoint } from "../../../src/scene/points.ts";
import { smallScene } from "../smallScene.ts";

/** As the browser's database keeps a value: a copy with its own objects. */
const kept = <T>(value: T): T => structuredClone(value);

/** Key order too: the order of points is the builder's. JSON.stringify tells it, and JSON values are all there is. */
const text = (value: unknown): string => JSON.stringify(value);

describe("a change", () => {
  it("turns any JSON value into any other, order of keys included", () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (before, now) => {
        const change = changeBetween(before, now);
        expect(text(change === null ? before : changed(before, kept(change)))).toBe(text(now));
      }),
      { numRuns: 500 },
    );
  });

  it("is nothing between equal values, and small for a small edit of a large scene", () => {
    const scene = smallScene();
    expect(changeBetween(scene, kept(scene))).toBeNull();
    const moved = withPoint(scene, "upper.out", [-5, 660, 441]);
    expect(changeBetween(scene, moved)).toEqual({
      fields: [["points", { fields: [["upper.out", { items: [[2, { set: 441 }]] }]] }]],
    });
  });

  it("shares with the value before it all that it does not touch", () => {
    const scene = smallScene();
    const moved = withPoint(scene, "upper.out", [-5, 660, 441]);
    const again = changed(scene, kept(changeBetween(scene, moved)!)) as SceneDocument;
    expect(again).toEqual(moved);
    expect(again.bodies).toBe(scene.bodies);
    expect(again.points["toe.in"]).toBe(scene.points["toe.in"]);
  });

  it("takes an item out of a list and puts one in without telling the others", () => {
    const [a, b, c, d] = [{ id: "a" }, { id: "b" }, { id: "c" }, { id: "d" }];
    expect(changeBetween([a, b, c], [a, c])).toEqual({ at: 1, drop: 1, put: [] });
    expect(changeBetween([a, b, c], [a, b, d, c])).toEqual({ at: 2, drop: 0, put: [d] });
  });

  it("keeps a key named __proto__ as a key", () => {
    const before = JSON.parse('{"a":1}');
    const now = JSON.parse('{"a":1,"__proto__":{"b":2}}');
    expect(text(changed(before, kept(changeBetween(before, now)!)))).toBe(text(now));
  });
});

describe("step records", () => {
  const steps = Array.from({ length: 200 }, (_, i) => ({
    document: withPoint(smallScene(), "upper.out", [-5, 660, 440 + i / 8]),
    stepName: `upper.out ${i} up`,
    fileName: "small.json",
  }));

  it("are a whole document now and then and changes between, and give the same steps back", () => {
    const records = kept(stepRecords("p", steps, 0, weightsOf([])));
    const wholes = records.filter(({ whole }) => whole).length;
    expect(wholes).toBeGreaterThan(1);
    expect(wholes).toBeLessThan(20);
    const [run, ...others] = stepsOf(records);
    expect(others).toEqual([]);
    expect(run!.steps).toEqual(steps);
  });

  it("written one by one are the same as written at once", () => {
    const atOnce = stepRecords("p", steps, 0, weightsOf([]));
    const oneByOne: typeof atOnce = [];
    for (let i = 0; i < steps.length; i++) {
      const sizes = oneByOne.map(({ whole, size }) => ({ whole: whole !== undefined, size }));
      oneByOne.push(...stepRecords("p", steps.slice(0, i + 1), i, weightsOf(sizes)));
    }
    expect(oneByOne).toEqual(atOnce);
  });

  it("give what stands before and after a record that is missing", () => {
    const records = stepRecords("p", steps, 0, weightsOf([]));
    const runs = stepsOf(kept(records.filter(({ index }) => index !== 70)));
    expect(runs[0]).toEqual({ from: 0, steps: steps.slice(0, 70) });
    expect(runs[1]!.from).toBeGreaterThan(70);
    expect(runs[1]!.steps).toEqual(steps.slice(runs[1]!.from));
  });
});
