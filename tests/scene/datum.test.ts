import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cross, dot, length, mirror, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import { fromDatum, toDatum } from "../../src/scene/datum.ts";
import type { Datum } from "../../src/scene/scene.ts";
import { agrees } from "../truth/agreement.ts";
import { sceneAfter } from "./fixture.ts";

const coordinate = fc.double({ min: -3000, max: 3000, noNaN: true });
const vector = fc.tuple(coordinate, coordinate, coordinate) as fc.Arbitrary<Vec3>;
const direction = vector.filter((d) => length(d) > 1).map(normalise);
const datum: fc.Arbitrary<Datum> = fc
  .tuple(vector, direction, direction)
  .filter(([, forward, other]) => length(cross(forward, other)) > 0.1)
  .map(([at, forward, other]) => {
    const up = normalise(subtract(other, scale(forward, dot(other, forward))));
    return { id: "d", at, forward, up };
  });
const side = fc.constantFrom("left" as const, "right" as const);

describe("reading a place from a datum", () => {
  it("is forward, out, up from the ground below the axle line without one, out being positive on both sides", () => {
    expect(toDatum(null, [430, 640, 330], "left")).toEqual({ forward_mm: 430, out_mm: 640, up_mm: 330 });
    expect(toDatum(null, [430, -640, 330], "right")).toEqual({ forward_mm: 430, out_mm: 640, up_mm: 330 });
    expect(toDatum(null, [430, 10, 330], "right").out_mm).toBe(-10);
  });

  it("counts from the datum, on the right from its image", () => {
    const rail = sceneAfter(() => {}).datums[0]!;
    expect(toDatum(rail, [430, 640, 330], "left")).toEqual({ forward_mm: 330, out_mm: 340, up_mm: 80 });
    expect(toDatum(rail, [430, -640, 330], "right")).toEqual({ forward_mm: 330, out_mm: 340, up_mm: 80 });
  });

  it("follows a datum that is turned: nose up by 30°, a place 100 ahead on the level is 86.6 forward and 50 down", () => {
    const [c, s] = [Math.sqrt(3) / 2, 0.5];
    const turned: Datum = { id: "d", at: [0, 0, 0], forward: [c, 0, s], up: [-s, 0, c] };
    const reading = toDatum(turned, [100, 20, 0], "left");
    agrees("fromDatum", reading.forward_mm, 86.60254, 5);
    agrees("fromDatum", reading.out_mm, 20, 9);
    agrees("fromDatum", reading.up_mm, -50, 9);
  });

  it("is undone by the way back", () => {
    fc.assert(
      fc.property(fc.option(datum), vector, side, (from, p, side) => {
        const back = fromDatum(from, toDatum(from, p, side), side);
        expect(length(subtract(back, p))).toBeLessThan(1e-9);
      }),
      { seed: 21 },
    );
  });

  it("reads equal numbers at mirror-image places, and true distances", () => {
    fc.assert(
      fc.property(fc.option(datum), vector, (from, p) => {
        const left = toDatum(from, p, "left");
        expect(toDatum(from, mirror(p), "right")).toEqual(left);
        const distance = Math.hypot(left.forward_mm, left.out_mm, left.up_mm);
        expect(distance).toBeCloseTo(length(subtract(p, from?.at ?? [0, 0, 0])), 8);
      }),
      { seed: 22 },
    );
  });
});
