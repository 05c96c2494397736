import { describe, expect, it } from "vitest";
import {
  type CarriedBody,
  type PlacePoses,
  PlaceSearch,
  type SearchedPair,
} from "../../../src/clearance/placeSearch.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { JointExcuse } from "../../../src/clearance/types.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { identityPose, rotationPose } from "../../../src/maths/pose.ts";
import type { Vec3 } from "../../../src/maths/vec3.ts";
import { ball, bar, body, brick, shiftPose } from "../sweep/shapes.ts";
import { hollowBox } from "./corners.ts";

const RADIUS = 10;

/** Far from everything else a block, on frame 1, is 1 mm above a plate. */
const ASIDE: SearchedPair = { a: "block", b: "plate", required_mm: 0, excuses: [] };

function aside(): CarriedBody[] {
  return [
    { body: body("plate", brick([50, 50, 10], [1000, 0, 0])), frame: null },
    { body: body("block", brick([20, 20, 20], [1000, 0, 16])), frame: 1 },
  ];
}

/** A ball on frame 0 beside a body that stands, and the pair aside. */
function searchFor(standing: Solid, required_mm = 0): PlaceSearch {
  const bodies = [
    ...aside(),
    { body: body("standing", standing), frame: null },
    { body: body("ball", ball(RADIUS)), frame: 0 },
  ];
  const pairs = [
    { ...ASIDE, required_mm },
    { a: "ball", b: "standing", required_mm, excuses: [] },
  ];
  return new PlaceSearch(new TreeShelf(), bodies, pairs, 2, 1);
}

function placeAt(at: Vec3): PlacePoses {
  return { poses: Float64Array.of(...shiftPose(at), ...identityPose()), first: 0, end: 1 };
}

describe("the worst of one place after another", () => {
  it("is height less radius above a brick, minus the way out within it, however the ball got there", () => {
    // closed form: a ball over the middle of a wide brick whose top is at 0; the ball's top and bottom corner are exact
    const search = searchFor(brick([400, 400, 200], [0, 0, -100]), 0);
    const heights = [40, 10.5, 10.25, 10, 9.5, -3, 12, -95, 10.75, -100, -101, -99, 40, -60, -80];
    for (const height of heights) {
      const told = search.worst(placeAt([0, 0, height]));
      const clearance = height > -100 ? height - RADIUS : -200 - height - RADIUS;
      expect(told.margin_mm).toBeCloseTo(Math.min(1, clearance), 5);
      expect(told.pair).toBe(clearance < 1 ? 1 : 0);
    }
  });

  it("finds a ball wholly within a brick, which is farther from its surface than all else is from each other", () => {
    for (const inside of [
      [0, 0, -100],
      [50, -60, -90],
    ] as const) {
      const cold = searchFor(brick([400, 400, 200], [0, 0, -100]));
      expect(cold.worst(placeAt(inside)).margin_mm).toBeLessThan(-95);
      const jumped = searchFor(brick([400, 400, 200], [0, 0, -100]));
      jumped.worst(placeAt([0, 0, 300]));
      jumped.worst(placeAt([0, 0, 301]));
      expect(jumped.worst(placeAt(inside), { below_mm: 0.5 }).margin_mm).toBeLessThan(-95);
      const everyPair = new Float64Array(2);
      jumped.everyPair(placeAt([0, 0, 300]), everyPair, { below_mm: 25 });
      expect([...everyPair]).toEqual([1, 25]);
      jumped.everyPair(placeAt(inside), everyPair, { below_mm: 25 });
      expect(everyPair[1]).toBeLessThan(-95);
    }
  });

  it("takes a ball in the hollow of a box for clear, one in its wall for a clash", () => {
    // the hollow is 90 × 70 × 60, the box 120 × 100 × 90: the ball's corner on the axis is 35 − 10 mm from the side walls
    const search = searchFor(hollowBox());
    const told = new Float64Array(2);
    search.everyPair(placeAt([0, 0, 200]), told, { below_mm: 50 });
    expect(told[1]).toBe(50);
    search.everyPair(placeAt([0, 0, 0]), told, { below_mm: 50 });
    expect(told[1]).toBeCloseTo(30 - RADIUS, 5);
    search.everyPair(placeAt([0, 0, 15]), told, { below_mm: 50 });
    expect(told[1]).toBeCloseTo(15 - RADIUS, 5);
    search.everyPair(placeAt([0, 0, 40]), told, { below_mm: 50 });
    expect(told[1]).toBeLessThan(0);
  });

  it("sees a rod strike a ball with its far end when it is turned over and its near end stays where it was", () => {
    const bodies = [
      ...aside(),
      { body: body("ball", ball(RADIUS, [-15, 0, 0])), frame: null },
      { body: body("rod", brick([400, 2, 2], [200, 0, 0])), frame: 0 },
    ];
    const pairs = [ASIDE, { a: "ball", b: "rod", required_mm: 0, excuses: [] }];
    const search = new PlaceSearch(new TreeShelf(), bodies, pairs, 2, 1);
    const turnedBy = (angle: number): PlacePoses => {
      return { poses: Float64Array.of(...rotationPose([0, 1, 0], angle), ...identityPose()), first: 0, end: 1 };
    };
    const told = new Float64Array(2);
    search.everyPair(turnedBy(0), told, { below_mm: 25 });
    // a face of 2 by 2 mm over the corner of the ball that lies on the axis
    expect(told[1]).toBeCloseTo(5, 5);
    expect(search.worst(turnedBy(0)).margin_mm).toBeCloseTo(1, 5);
    // right through the middle: the way out is square to the rod, or along it
    expect(search.worst(turnedBy(Math.PI)).margin_mm).toBeLessThan(-RADIUS);
  });

  it("sees a rod get into a block through surface that the joint excuses", () => {
    // the rod is 10 mm thick, the hole in what counts of the block's top 70 mm wide: their surfaces that count stay apart
    const excuse: JointExcuse = { centreInA: [0, 0, 0], centreInB: [0, 0, 500], radius_mm: 35 };
    const bodies = [
      ...aside(),
      { body: body("hub", brick([200, 200, 200], [0, 0, -100])), frame: null },
      { body: body("rod", bar([0, 0, 0], [0, 0, 40], 5, 12)), frame: 0 },
    ];
    const pairs = [ASIDE, { a: "hub", b: "rod", required_mm: 0, excuses: [excuse] }];
    const search = new PlaceSearch(new TreeShelf(), bodies, pairs, 2, 1);
    const told = new Float64Array(2);
    for (const step of [0.37, 7, 15]) {
      for (let height = 29.9; height > -20; height -= step) {
        search.everyPair(placeAt([0, 0, height]), told, { below_mm: 25 });
        const { margin_mm } = search.worst(placeAt([0, 0, height - step]));
        if (height - step > 0) expect(margin_mm).toBeCloseTo(1, 5);
        else {
          // its lowest point is as deep as it is below the top; sampled depths fall short by a tenth at the most
          expect(margin_mm).toBeLessThanOrEqual(Math.min(-0.01, (height - step) * 0.9 + 0.05));
          expect(margin_mm).toBeGreaterThanOrEqual(height - step - 0.01);
        }
      }
    }
  });

  it("counts the margin from what is required of each pair", () => {
    const search = searchFor(brick([400, 400, 200], [0, 0, -100]), 15);
    expect(search.worst(placeAt([0, 0, 40]))).toEqual({ margin_mm: expect.closeTo(-14, 9), pair: 0, state: 0 });
    expect(search.worst(placeAt([0, 0, 10.5]))).toEqual({ margin_mm: expect.closeTo(-14.5, 5), pair: 1, state: 0 });
  });

  it("tells nothing of bodies without surface, and refuses pairs of bodies that there are not", () => {
    const empty: Solid = { positions: new Float32Array(), indices: new Uint32Array(), shells: [], convexPieces: null };
    const search = searchFor(empty);
    expect(search.worst(placeAt([0, 0, 0])).pair).toBe(0);
    const told = new Float64Array(2);
    search.everyPair(placeAt([0, 0, 0]), told, { below_mm: 25 });
    expect([...told]).toEqual([1, 25]);
    const pairs = [{ a: "ball", b: "nobody", required_mm: 0, excuses: [] }];
    const bodies = [{ body: body("ball", ball(RADIUS)), frame: 0 }];
    expect(() => new PlaceSearch(new TreeShelf(), bodies, pairs, 1, 1)).toThrow("nobody");
  });
});
