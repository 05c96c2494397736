import { describe, expect, it } from "vitest";
import { drawnPart, withAside } from "../../src/scene/aside.ts";
import { withVehicle } from "../../src/scene/gearEdits.ts";
import { withLoads } from "../../src/scene/loadsEdits.ts";
import { withMeasure } from "../../src/scene/measures.ts";
import { smallScene } from "../app/smallScene.ts";

const bare = smallScene();

describe("what is neither drawn nor checked", () => {
  it("leaves the drawn part the same object through edits of loads, measures and the whole car", () => {
    const loaded = withLoads(bare, { cornerMass_kg: 250 });
    const both = withMeasure(loaded, { kind: "gap", a: { part: "rail" }, b: { part: "upper", side: "left" } });
    expect(both.loads).toEqual({ cornerMass_kg: 250 });
    const whole = withVehicle(both, { wheelbase_mm: 2400, cgHeight_mm: 480 });
    expect(Object.keys(whole)).toEqual(expect.arrayContaining(["loads", "measures", "vehicle"]));
    for (const document of [loaded, both, withLoads(both, { target: 2 }), whole])
      expect(drawnPart(document)).toBe(bare);
    expect(withVehicle(whole, undefined)).toEqual(both);
  });

  it("is taken out as a whole with its last record", () => {
    const loaded = withLoads(withLoads(bare, { cornerMass_kg: 250 }), { cornerMass_kg: undefined });
    expect(loaded).toBe(bare);
    expect(withAside(bare, {})).toBe(bare);
  });

  it("has one drawn part for a document from a file, whenever it is asked for", () => {
    const fromFile = { ...bare, loads: { cornerMass_kg: 250 } };
    expect(drawnPart(fromFile)).toBe(drawnPart(fromFile));
    expect(drawnPart(fromFile)).not.toHaveProperty("loads");
  });

  it("refuses load records that could not be opened again, with the place", () => {
    const rating = [{ joint: "uppr.front", static_N: 1000 }];
    expect(() => withLoads(bare, { ratings: rating })).toThrow(/loads\.ratings\[0\]\.joint.*upper\.front/s);
    expect(() => withLoads(bare, { cornerMass_kg: -1 })).toThrow(/loads\.cornerMass_kg/);
  });
});
