import { describe, expect, it } from "vitest";
import { farthestRedrawn } from "../../../src/clearance/placeRedraw.ts";
import { type CarriedBody, type PlacePoses, PlaceSearch } from "../../../src/clearance/placeSearch.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { SweepBody } from "../../../src/clearance/types.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, rotationPose } from "../../../src/maths/pose.ts";
import { add, type Vec3 } from "../../../src/maths/vec3.ts";
import { blob, randomFrom, randomPoint } from "../kernel/meshes.ts";
import { ball, bar, body, brick, joined, shiftPose } from "../sweep/shapes.ts";

const SEED = 5150;
const PLACES = 40;
const STATES = 3;

/** A link from a pivot to a hub, in one of several ways of drawing it. */
type Draw = (pivot: Vec3, random: () => number) => Solid;
const hub: Vec3 = [0, 90, 10];
const WAYS: Readonly<Record<string, Draw>> = {
  "a bar between moving ends": (pivot) => bar(pivot, hub, 8, 16),
  "a bar with an eye": (pivot) => joined(bar(pivot, hub, 6, 12), ball(14, pivot, 5)),
  "a scan of it": (pivot) => ({ ...joined(bar(pivot, hub, 6, 12), ball(14, pivot, 5)), convexPieces: null }),
  "a lump that is never the same": (pivot, random) => blob(random, 5, 25, [1, 1, 1], 0.3, pivot),
  "a bar of ever other facets": (pivot, random) => bar(pivot, hub, 8, 8 + Math.floor(5 * random())),
};

function standing(): CarriedBody[] {
  return [
    { body: body("block", brick([40, 40, 40], [0, -30, 30])), frame: null },
    { body: body("pipe", bar([-80, 30, -30], [80, 20, -20], 10, 16)), frame: null },
    { body: body("wheel", ball(30, [0, 130, 20], 8)), frame: 1 },
  ];
}

function placeAt(random: () => number): PlacePoses {
  const slide = randomPoint(random, 0.5);
  const poses = Array.from({ length: STATES }, (_, state) => {
    const lift = rotationPose([1, 0, 0], 0.15 * (state - 1), [0, 0, 0]);
    const moved = composePoses(shiftPose(slide), lift);
    return [...moved, ...lift];
  });
  return { poses: Float64Array.from(poses.flat()), first: 0, end: STATES };
}

describe("a body drawn anew from place to place", () => {
  it.each(Object.entries(WAYS))("is measured as if searched for the first time (%s)", (_, draw) => {
    for (const [radius_mm, name] of [
      [0, "no joint"],
      [20, "a joint"],
    ] as const) {
      const random = randomFrom(SEED);
      const others = standing();
      const pairs = others.map((other, i) => ({
        a: other.body.key,
        b: "link",
        required_mm: 0,
        excuses: i === 2 && radius_mm > 0 ? [{ centreInA: hub, centreInB: hub, radius_mm }] : [],
      }));
      const searchOf = (link: SweepBody) =>
        new PlaceSearch(new TreeShelf(), [...others, { body: link, frame: 0 }], pairs, 2, STATES);
      let pivot: Vec3 = [0, 0, 0];
      let search: PlaceSearch | null = null;
      const [told, anew] = [new Float64Array(3), new Float64Array(3)];
      let clashes = 0;
      for (let k = 0; k < PLACES; k++) {
        pivot = add(pivot, randomPoint(random, k % 10 === 9 ? 25 : 1));
        const link = body("link", draw(pivot, random));
        const place = placeAt(random);
        if (search === null) search = searchOf(link);
        else if (k % 3 !== 2) search.redraw(link);
        else {
          // the drawing stays, only the poses differ
          search.everyPair(place, told, { below_mm: 25 });
          continue;
        }
        const first = searchOf(link);
        search.everyPair(place, told, { below_mm: 25 });
        first.everyPair(place, anew, { below_mm: 25 });
        told.forEach((value, i) => {
          const off = Math.abs(value - anew[i]!);
          // a depth that is sampled depends on the order of the tree's triangles, within what it may fall short
          const sampled = Math.min(1.15, Math.max(0.05, -0.1 * anew[i]!));
          const allowed = anew[i]! > 0 ? 1e-9 : sampled;
          expect(off, `seed ${SEED}, ${name}, place ${k}, pair ${i}: ${value}, ${anew[i]}`).toBeLessThan(allowed);
        });
        const worst = search.worst(place, { below_mm: 20, above_mm: -15 });
        const exact = Math.min(20, ...anew);
        if (exact > 0) expect(worst.margin_mm).toBeCloseTo(exact, 9);
        else expect(worst.margin_mm).toBeLessThanOrEqual(Math.max(-15, exact + 1.2));
        if (exact < 0) clashes++;
      }
      expect(clashes).toBeGreaterThan(0);
    }
  });

  it("saves most of the measuring where it hardly changes", () => {
    const random = randomFrom(SEED);
    const others = standing();
    const pairs = others.map(({ body: { key } }) => ({ a: key, b: "link", required_mm: 0, excuses: [] }));
    const link = body("link", bar([0, 10, 0], hub, 8, 16));
    const search = new PlaceSearch(new TreeShelf(), [...others, { body: link, frame: 0 }], pairs, 2, STATES);
    const place = placeAt(random);
    for (let k = 0; k < 30; k++) {
      search.redraw(body("link", bar([0, 10 + 0.001 * k, 0], hub, 8, 16)));
      search.worst(place);
    }
    expect(search.asked).toBeLessThan(0.5 * 30 * pairs.length * STATES);
  });

  it("is refused under a key that there is not", () => {
    const search = new PlaceSearch(new TreeShelf(), standing(), [], 2, STATES);
    expect(() => search.redraw(body("nobody", ball(5)))).toThrow("nobody");
  });
});

describe("how far points are moved by being drawn anew", () => {
  it("is as far as the corner that moves farthest, in the surface or in a convex piece", () => {
    const at = brick([10, 20, 30]);
    expect(farthestRedrawn(at, brick([10, 20, 30], [3, 0, 4]))).toBeCloseTo(5, 5);
    expect(farthestRedrawn(at, brick([12, 20, 30]))).toBeCloseTo(1, 5);
    const piece = brick([10, 20, 36]).convexPieces;
    expect(farthestRedrawn(at, { ...at, convexPieces: piece })).toBeCloseTo(3, 5);
    expect(farthestRedrawn(at, { ...at, convexPieces: null })).toBeNull();
    expect(farthestRedrawn(at, ball(5))).toBeNull();
  });
});
