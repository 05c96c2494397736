import { describe, expect, it } from "vitest";
import { buildTree, createDepthQuery, createOverlapDepth, type OverlapDepth } from "../../../src/clearance/kernel.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, invertPose, type Pose, translationPose, turnByPose } from "../../../src/maths/pose.ts";
import { dot, type Vec3 } from "../../../src/maths/vec3.ts";
import { agrees } from "../../truth/agreement.ts";
import { depthBySeparatingAxes, pointsOf } from "./convexOracle.ts";
import { box, randomFrom, randomPoint, randomPose } from "./meshes.ts";
import { together } from "./solids.ts";

function depthOf(a: Solid, b: Solid, relative: Pose): OverlapDepth {
  const out = createOverlapDepth();
  createDepthQuery(buildTree(a), buildTree(b)).overlapDepth(relative, true, out);
  return out;
}

function vector(array: Float64Array): Vec3 {
  return [array[0]!, array[1]!, array[2]!];
}

/** Some boxes side by side, as one body of convex pieces. */
function compound(random: () => number, count: number): Solid {
  return together(
    ...Array.from({ length: count }, () =>
      box([5 + 30 * random(), 5 + 30 * random(), 1 + 30 * random()], randomPoint(random, 40)),
    ),
  );
}

describe("depth of overlapping bodies", () => {
  it("is the largest over all pairs of pieces of the least overlap over all separating axes (seed 71)", () => {
    const random = randomFrom(71);
    for (let k = 0; k < 25; k++) {
      const [a, b] = [compound(random, 4), compound(random, 3)];
      const relative = randomPose(random, 180, 20);
      let expected = 0;
      for (const pieceA of a.convexPieces!) {
        for (const pieceB of b.convexPieces!) {
          expected = Math.max(expected, depthBySeparatingAxes(pointsOf(pieceA), pointsOf(pieceB, relative)));
        }
      }
      const found = depthOf(a, b, relative);
      agrees("depth", found.depth_mm, expected, 5);
      expect(found.measure).toBe("convex");
    }
  });

  it("does not depend on which body comes first, nor on where the two are (seed 72)", () => {
    const random = randomFrom(72);
    for (let k = 0; k < 20; k++) {
      const [a, b] = [compound(random, 3), compound(random, 2)];
      const [poseA, poseB, all] = [
        randomPose(random, 180, 15),
        randomPose(random, 180, 15),
        randomPose(random, 180, 800),
      ];
      const relative = composePoses(invertPose(poseA), poseB);
      const found = depthOf(a, b, relative);
      const swapped = depthOf(b, a, invertPose(relative));
      const moved = depthOf(a, b, composePoses(invertPose(composePoses(all, poseA)), composePoses(all, poseB)));
      expect(swapped.depth_mm).toBeCloseTo(found.depth_mm, 6);
      expect(moved.depth_mm).toBeCloseTo(found.depth_mm, 6);
      // the same way out, seen from the other body: unless two ways are equally long
      if (found.depth_mm > 0) {
        const back = turnByPose(relative, vector(swapped.partingOfA));
        expect(dot(vector(found.partingOfA), back)).toBeCloseTo(-1, 4);
      }
    }
  });

  it("parts the worst pieces by the told translation, and no more than parts them", () => {
    const random = randomFrom(73);
    for (let k = 0; k < 30; k++) {
      const [a, b] = [box([20, 30, 5]), box([10, 10 + 20 * random(), 40])];
      const relative = randomPose(random, 180, 10);
      const found = depthOf(a, b, relative);
      if (found.depth_mm === 0) continue;
      const move = (share: number): Pose => {
        const [x, y, z] = vector(found.partingOfA).map((value) => -value * found.depth_mm * share) as [
          number,
          number,
          number,
        ];
        return composePoses(translationPose([x, y, z]), relative);
      };
      expect(depthOf(a, b, move(1.001)).depth_mm).toBe(0);
      expect(depthOf(a, b, move(0.9)).depth_mm).toBeCloseTo(0.1 * found.depth_mm, 6);
    }
  });

  it("of bodies that touch face to face is 0, with the way to open them", () => {
    const found = depthOf(box([10, 10, 10]), box([20, 20, 20]), translationPose([15, 2, 1]));
    expect(found.depth_mm).toBeCloseTo(0, 9);
    expect(vector(found.partingOfA)[0]).toBeCloseTo(-1, 9);
  });

  it("of bodies that are the same is the way out of each other", () => {
    expect(depthOf(box([30, 20, 10]), box([30, 20, 10]), translationPose([0, 0, 0])).depth_mm).toBeCloseTo(10, 6);
  });
});
