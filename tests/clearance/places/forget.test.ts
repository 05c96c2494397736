import { expect, it } from "vitest";
import { randomFrom } from "../kernel/meshes.ts";
import { type Kind, randomCorner, searchOf } from "./corners.ts";

const SEED = 4711;

it.each<Kind>(["convex", "scans", "holding"])(
  "a search that forgets tells of the next places, to the last bit, what a new one does (%s)",
  (kind) => {
    const random = randomFrom(SEED);
    for (let i = 0; i < 4; i++) {
      const corner = randomCorner(random, kind, 12);
      const [before, after] = [corner.places.slice(0, 6), corner.places.slice(6)];
      const used = searchOf(corner);
      for (const place of before) used.worst(place);
      used.forget();
      const fresh = searchOf(corner);
      for (const [k, place] of after.entries()) {
        expect(used.worst(place, { below_mm: 20 }), `seed ${SEED}, corner ${i}, place ${k}`).toEqual(
          fresh.worst(place, { below_mm: 20 }),
        );
      }
    }
  },
);

it("a pair that is asked only until a state has the smallest clearance before it", () => {
  const corner = randomCorner(randomFrom(SEED), "convex", 6);
  const until = 2;
  const early = searchOf({ ...corner, pairs: corner.pairs.map((pair) => ({ ...pair, until })) });
  const all = searchOf(corner);
  const [some, every] = [0, 1].map(() => new Float64Array(corner.pairs.length)) as [Float64Array, Float64Array];
  for (const place of corner.places) {
    const cut = { ...place, end: Math.min(place.end, until) };
    if (cut.first >= cut.end) continue;
    early.everyMargin(place, some, { below_mm: 30 });
    all.everyMargin(cut, every, { below_mm: 30 });
    for (const [pair, margin] of some.entries()) expect(Math.abs(margin - every[pair]!)).toBeLessThan(1e-5);
  }
});
