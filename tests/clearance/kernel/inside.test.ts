import { describe, expect, it } from "vitest";
import { windingBySolidAngle } from "../../../src/clearance/insideSolidAngle.ts";
import { buildTree, createContainmentQuery, createInsideQuery } from "../../../src/clearance/kernel.ts";
import { invertPose, translationPose } from "../../../src/maths/pose.ts";
import { blob, box, randomFrom, randomPoint, randomPose, solidOf } from "./meshes.ts";
import { insideOut, ring, together, volumeOf } from "./solids.ts";

const ball = (radius: number) => blob(() => 0.5, 8, radius, [1, 1, 1], 0, [0, 0, 0]);
/** A tube wall: radii 40 and 50, length 200. */
const pipe = ring(
  [
    [40, -100],
    [50, -100],
    [50, 100],
    [40, 100],
  ],
  24,
);
/** A tyre carcass: a hollow ring, open to the axle; the rim stands in its mouth. */
const tyre = ring(
  [
    [210, -90],
    [300, -110],
    [320, -90],
    [320, 90],
    [300, 110],
    [210, 90],
    [210, 80],
    [295, 100],
    [310, 85],
    [310, -85],
    [295, -100],
    [210, -80],
  ],
  48,
);

describe("inside", () => {
  it("faces its own test bodies outwards", () => {
    for (const solid of [ball(10), pipe, tyre, box([1, 2, 3])]) expect(volumeOf(solid)).toBeGreaterThan(0);
    expect(volumeOf(pipe) / (Math.PI * (50 ** 2 - 40 ** 2) * 200)).toBeCloseTo(1, 1);
  });

  it("tells a box by its limits, on points that line up with its corners, edges and diagonals too", () => {
    const inside = createInsideQuery(buildTree(box([20, 20, 20])));
    const steps = [-15, -10.001, -9.999, -5, 0, 5, 9.999, 10.001, 15];
    for (const x of steps) {
      for (const y of steps) {
        for (const z of steps) {
          expect(inside.isInside(x, y, z), `${x} ${y} ${z}`).toBe(Math.max(Math.abs(x), Math.abs(y), Math.abs(z)) < 10);
        }
      }
    }
  });

  it("tells a ring of revolution by its formula: between the radii, not in the bore", () => {
    const inside = createInsideQuery(buildTree(pipe));
    const random = randomFrom(9);
    for (let k = 0; k < 2000; k++) {
      const [x, y, z] = randomPoint(random, 60);
      const radius = Math.hypot(x, z);
      const expected = radius > 40 && radius < 50 * Math.cos(Math.PI / 24);
      const unsure =
        (radius > 40 * Math.cos(Math.PI / 24) && radius < 40) || (radius > 50 * Math.cos(Math.PI / 24) && radius < 50);
      if (!unsure) expect(inside.isInside(x, y, z), `${x} ${y} ${z}`).toBe(expected);
    }
  });

  it("agrees with the sum of solid angles on rough lumps", () => {
    const random = randomFrom(10);
    for (let lump = 0; lump < 10; lump++) {
      const tree = buildTree(blob(random, 6, 50, [1, 0.3, 2], 0.3, [200, 0, -300]));
      const inside = createInsideQuery(tree);
      for (let k = 0; k < 300; k++) {
        const [x, y, z] = randomPoint(random, 100);
        const winding = windingBySolidAngle(tree, Uint8Array.of(1), x + 200, y / 3, z - 300);
        expect(Math.abs(winding - Math.round(winding))).toBeLessThan(1e-9);
        expect(inside.isInside(x + 200, y / 3, z - 300)).toBe(Math.round(winding) !== 0);
      }
    }
  });

  it("counts a walled-off hollow as outside, and a lump within the hollow as inside again", () => {
    const inside = createInsideQuery(buildTree(together(ball(100), insideOut(ball(80)), ball(20))));
    expect([110, 90, 50, 10].map((x) => inside.isInside(x, 0.1, 0.2))).toEqual([false, true, false, true]);
  });

  it("counts a closed surface that faces inwards as the body it bounds", () => {
    expect(createInsideQuery(buildTree(insideOut(ball(10)))).isInside(1, 2, 3)).toBe(true);
  });

  it("finds nothing inside an open surface, but still inside the closed ones beside it", () => {
    const sheet = solidOf(
      [
        [-50, -50, 5],
        [50, -50, 5],
        [0, 80, 5],
      ],
      [[0, 1, 2]],
      false,
    );
    const inside = createInsideQuery(buildTree(together(sheet, ball(20))));
    expect([inside.isInside(0, 0, 0), inside.isInside(0, 0, 30), inside.isInside(0, 0, -30)]).toEqual([
      true,
      false,
      false,
    ]);
    expect(createInsideQuery(buildTree(sheet)).isInside(0, 0, 5)).toBe(false);
  });
});

describe("containment", () => {
  const of = (a: typeof pipe, b: typeof pipe, pose = translationPose([0, 0, 0])) =>
    createContainmentQuery(buildTree(a), buildTree(b)).containment(pose);

  it("finds a ball within a solid ball, from either side, however the two are turned", () => {
    const random = randomFrom(2);
    for (let k = 0; k < 20; k++) {
      const pose = randomPose(random, 180, 20);
      expect(of(ball(100), ball(20), pose)).toBe("b-in-a");
      expect(of(ball(20), ball(100), invertPose(pose))).toBe("a-in-b");
    }
    expect(of(ball(100), ball(20), translationPose([130, 0, 0]))).toBe("none");
  });

  it("does not find a ball in the bore of a tube, in a hollow ball, or a tyre's rim in its mouth", () => {
    expect(of(pipe, ball(20))).toBe("none");
    expect(of(together(ball(100), insideOut(ball(80))), ball(20))).toBe("none");
    const rim = ring(
      [
        [150, -70],
        [205, -75],
        [205, 75],
        [150, 70],
      ],
      48,
    );
    expect(of(tyre, rim)).toBe("none");
    // a ball in the air chamber, well within the tyre's outline
    expect(of(tyre, ball(20), translationPose([260, 0, 0]))).toBe("none");
  });

  it("finds a ball buried in the wall of a tube, and one shell of many", () => {
    expect(of(pipe, ball(2), translationPose([45, 0, 0]))).toBe("b-in-a");
    const bolts = together(box([4, 4, 4], [500, 0, 0]), box([4, 4, 4], [0, 0, 0]));
    expect(of(ball(100), bolts)).toBe("b-in-a");
  });

  it("finds an open patch of surface within a closed body", () => {
    const sheet = solidOf(
      [
        [-5, -5, 5],
        [5, -5, 5],
        [0, 8, 5],
      ],
      [[0, 1, 2]],
      false,
    );
    expect([of(ball(100), sheet), of(sheet, ball(100))]).toEqual(["b-in-a", "a-in-b"]);
  });
});
