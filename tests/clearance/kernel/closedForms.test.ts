import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  buildTree,
  chooseKernel,
  createContainmentQuery,
  createDepthQuery,
  createDistanceQuery,
  createOverlapDepth,
  createWitness,
} from "../../../src/clearance/kernel.ts";
import { buildSolid } from "../../../src/geometry/buildSolid.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { identityPose, invertPose, type Pose, translationPose, turnPose } from "../../../src/maths/pose.ts";
import type { Vec3 } from "../../../src/maths/vec3.ts";
import type { Shape, Wheel } from "../../../src/scene/scene.ts";

const TESSELLATION_mm = 0.02;
/** What a sampled depth of more than 11.5 mm may fall short (depthDeepest.ts). */
const SHORT_mm = 1.15;
/** Positions are float32: about 0.00006 mm at 1 m. */
const ROUNDING_mm = 2e-4;

const wheel: Wheel = {
  centre: [0, 0, 0],
  tyre: "205/55R16",
  rimWidth_in: 7,
  rimOffset_mm: 0,
  toe_deg: 0,
  camber_deg: 0,
};

function solid(shape: Shape): Solid {
  return buildSolid(shape, { tessellation_mm: TESSELLATION_mm, wheel, meshFiles: new Map() });
}

const nowhere = { at: null, turn_deg: null };

function capsule(from: Vec3, to: Vec3, radius_mm: number): Solid {
  return solid({ kind: "capsule", from, to, diameter_mm: 2 * radius_mm, ...nowhere });
}

function cylinder(from: Vec3, to: Vec3, radius_mm: number): Solid {
  return solid({ kind: "cylinder", from, to, diameter_mm: 2 * radius_mm, ...nowhere });
}

function ball(at: Vec3, radius_mm: number): Solid {
  return solid({ kind: "sphere", diameter_mm: 2 * radius_mm, at, turn_deg: null });
}

function block(size_mm: Vec3, at: Vec3 = [0, 0, 0]): Solid {
  return solid({ kind: "box", size_mm, edge_mm: null, at, turn_deg: null });
}

/** The half space below z = 0, as far as it matters. */
const ground = block([2000, 2000, 100], [0, 0, -50]);

/** Signed clearance the way a check reads it. */
function clearance(a: Solid, b: Solid, relative: Pose = identityPose()): number {
  const [treeA, treeB] = [buildTree(a), buildTree(b)];
  const witness = createWitness();
  createDistanceQuery(treeA, treeB).distance(relative, witness);
  const crosses = witness.distance_mm === 0;
  if (!crosses && createContainmentQuery(treeA, treeB).containment(relative) === "none") return witness.distance_mm;
  const depth = createOverlapDepth();
  createDepthQuery(treeA, treeB).overlapDepth(relative, crosses, depth);
  return -depth.depth_mm;
}

/** The drawn surfaces lie outside the true ones: never clearer than the formula, nearer by at most the tessellation of each. */
function expectClearance(expected: number, a: Solid, b: Solid, relative: Pose = identityPose()): void {
  for (const measured of [clearance(a, b, relative), clearance(b, a, invertPose(relative))]) {
    expect(measured).toBeLessThan(expected + ROUNDING_mm);
    expect(measured).toBeGreaterThan(expected - 2 * TESSELLATION_mm - ROUNDING_mm);
  }
}

describe.each(["typescript", "wasm"] as const)("measured by the %s kernel", (kernel) => {
  beforeAll(() => chooseKernel(kernel));
  afterAll(() => chooseKernel("auto"));

  // Closed forms, worked out by hand (distance of segments, points and planes less the radii).
  describe("clearance of simple bodies", () => {
    it("of two capsules end to side is the distance of their lines less their radii: √(40² + 30²) − 25", () => {
      expectClearance(25, capsule([0, 0, 0], [100, 0, 0], 10), capsule([50, 40, 30], [50, 140, 30], 15));
    });

    it("of two skew capsules is the distance of their lines less their radii: 60 − 30", () => {
      expectClearance(30, capsule([-100, 0, 0], [100, 0, 0], 12), capsule([0, -100, 60], [0, 100, 60], 18));
    });

    it("of two parallel capsules past each other: 50 − 10 − 10", () => {
      expectClearance(30, capsule([0, 0, 0], [100, 0, 0], 10), capsule([130, 40, 0], [230, 40, 0], 10));
    });

    it("of a leaning cylinder over a plane is h − L·cos φ − r·sin φ", () => {
      const axis: Vec3 = [Math.sqrt(0.75), 0, 0.5];
      const end = (side: number): Vec3 => [side * 100 * axis[0], 0, 200 + side * 100 * axis[2]];
      expectClearance(200 - 50 - 50 * Math.sqrt(0.75), cylinder(end(-1), end(1), 50), ground);
      expectClearance(100, capsule(end(-1), end(1), 50), ground);
    });

    it("of a ball beside a box's edge is √(3² + 4²) − 4, and off its face 9", () => {
      // beyond the edge x = 10, y = 20 of the box: 3 out and 4 out
      expectClearance(1, ball([13, 24, 30], 4), block([20, 40, 60]));
      expectClearance(Math.hypot(3, 4, 12) - 4, ball([13, 24, 42], 4), block([20, 40, 60]));
    });

    it("of a leaning ring over a plane is h − R·cos φ − r", () => {
      const ring = solid({ kind: "torus", diameter_mm: 500, section_mm: 200, at: [0, 0, 400], turn_deg: [10, 0, 0] });
      expectClearance(400 - 250 * Math.cos(Math.PI / 18) - 100, ring, ground);
    });

    it("of a leaning wheel-sized cylinder under a roof is h − R·cos γ − w·sin γ", () => {
      const disc = solid({
        kind: "cylinder",
        from: [0, -112.5, 0],
        to: [0, 112.5, 0],
        diameter_mm: 632,
        at: [0, 0, 0],
        turn_deg: [2, 0, 0],
      });
      const roof = block([2000, 2000, 100], [0, 0, 400 + 50]);
      expectClearance(400 - 319.73369, disc, roof);
    });
  });

  describe("depth of simple bodies", () => {
    it("of two crossed tubes is r1 + r2 − axis distance, at any angle", () => {
      for (const angle of [90, 60, 25]) {
        const relative = turnPose([0, 0, angle]);
        relative[11] = 20;
        expectClearance(
          -(15 + 10 - 20),
          cylinder([-300, 0, 0], [300, 0, 0], 15),
          cylinder([-300, 0, 0], [300, 0, 0], 10),
          relative,
        );
      }
    });

    it("of two capsules in line is the overlap of their ends", () => {
      expectClearance(-7, capsule([0, 0, 0], [100, 0, 0], 10), capsule([113, 0, 0], [200, 0, 0], 10));
    });

    it("of a ball through a ground plane is its lowest point", () => {
      expectClearance(-3, ball([10, 20, 17], 20), ground);
    });

    it("of a box in a box's face is the distance back through that face", () => {
      expectClearance(-1.5, block([20, 20, 20]), block([10, 10, 10], [13.5, 1, 2]));
    });

    it("of a ball wholly inside a block is the way out through the nearest face, its own diameter included", () => {
      expectClearance(-(10 + 20), block([100, 100, 100]), ball([30, 0, 0], 10));
    });

    it("of a compound is the largest over its pieces", () => {
      const two = solid({
        kind: "group",
        parts: [
          { kind: "box", size_mm: [10, 10, 10], edge_mm: null, at: [0, 0, 3], turn_deg: null },
          { kind: "box", size_mm: [10, 10, 10], edge_mm: null, at: [40, 0, 1], turn_deg: null },
        ],
        ...nowhere,
      });
      expectClearance(-4, two, ground);
    });

    it("of a rod through a ring's hole is a clearance, and into its section a clash", () => {
      const ring = solid({ kind: "torus", diameter_mm: 200, section_mm: 40, ...nowhere });
      const rod = cylinder([0, -300, 0], [0, 300, 0], 30);
      expectClearance(100 - 20 - 30, ring, rod);
      expectClearance(-5, ring, rod, translationPose([55, 0, 0]));
    });
  });

  describe("depth by samples, where a body's pieces are not known", () => {
    const asScan = (one: Solid): Solid => ({ ...one, convexPieces: null });

    it("of a ball in the ground is its lowest point to within the spacing's sag", () => {
      const found = clearance(asScan(ball([10, 20, 17], 20)), ground);
      expect(found).toBeLessThan(-3 + 0.03);
      expect(found).toBeGreaterThan(-3 - 2 * TESSELLATION_mm);
      expect(clearance(ground, asScan(ball([10, 20, 17], 20)))).toBeCloseTo(found, 6);
    });

    it("of crossed tubes, neither with a corner in the other, finds that they overlap", () => {
      const relative = turnPose([0, 0, 90]);
      relative[11] = 20;
      const [a, b] = [cylinder([-300, 0, 0], [300, 0, 0], 15), cylinder([-300, 0, 0], [300, 0, 0], 10)];
      // deepest point of either surface: the crown of one, 5 below the other's
      const found = clearance(asScan(a), b, relative);
      expect(found).toBeLessThan(-4.9);
      expect(found).toBeGreaterThan(-5 - 2 * TESSELLATION_mm);
    });

    it("of a needle's tip finer than the spacing is found all the same", () => {
      const needle = asScan(
        solid({
          kind: "cone",
          from: [1, 1, 50],
          to: [1, 1, -0.3],
          fromDiameter_mm: 2,
          toDiameter_mm: 0.01,
          ...nowhere,
        }),
      );
      expect(clearance(needle, ground)).toBeCloseTo(-0.3, 1);
      expect(clearance(needle, ground)).toBeLessThan(-0.2);
    });

    it("of two open sheets that cross is not known, but they do overlap", () => {
      const sheet = (points: readonly Vec3[]): Solid => ({
        positions: Float32Array.from(points.flat()),
        indices: Uint32Array.of(0, 1, 2),
        shells: [{ firstTriangle: 0, triangleCount: 1, closed: false }],
        convexPieces: null,
      });
      const found = clearance(
        sheet([
          [0, 0, 0],
          [90, 0, 0],
          [0, 90, 0],
        ]),
        sheet([
          [20, 20, -5],
          [20, 20, 15],
          [60, 60, 40],
        ]),
      );
      expect(found).toBeLessThan(0);
    });

    it("of a body inside a scan is its deepest point below the scan's surface", () => {
      const found = clearance(asScan(block([100, 100, 100])), ball([30, 0, 0], 10));
      expect(found).toBeGreaterThan(-30 - 2 * TESSELLATION_mm);
      expect(found).toBeLessThan(-30 + SHORT_mm);
    });
  });
});
