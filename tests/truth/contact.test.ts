import { describe, expect, it } from "vitest";
import { GapMeter } from "../../src/clearance/gap.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import { applyPose, composePoses, identityPose, rotationPose, translationPose } from "../../src/maths/pose.ts";
import { distance, type Vec3 } from "../../src/maths/vec3.ts";
import { agreesWithin } from "./agreement.ts";

const block = (size_mm: Vec3) => {
  const wheel = {
    centre: [0, 740, 300],
    tyre: "205/55R16",
    rimWidth_in: 7,
    rimOffset_mm: 42,
    toe_deg: 0,
    camber_deg: 0,
  };
  const shape = { kind: "box", size_mm, at: null, turn_deg: null, edge_mm: null } as const;
  const solid = buildSolid(shape, { tessellation_mm: 0.1, wheel: wheel as never, meshFiles: new Map() });
  return { key: size_mm.join(), content: size_mm.join(), solid };
};

describe("the nearest points of two parts", () => {
  const plate = block([400, 400, 20]);
  const cube = block([40, 40, 40]);

  it("of a cube that stands over a plate on a corner are that corner and the place below it (closed form)", () => {
    const meter = new GapMeter(new TreeShelf());
    for (const [turn, lean, up_mm] of [
      [0.5, 0.6, 70],
      [1.1, 0.9, 55],
      [2.4, 0.3, 90],
    ] as const) {
      // lean about x, then turn about z, then lift
      const leant = rotationPose([1, 0, 0], lean, [0, 0, 0]);
      const turned = composePoses(rotationPose([0.36, 0.48, 0.8], turn, [0, 0, 0]), leant);
      const both = composePoses(translationPose([7, -12, up_mm]), turned);
      const corners = [-20, 20].flatMap((x) =>
        [-20, 20].flatMap((y) => [-20, 20].map((z): Vec3 => applyPose(both, [x, y, z]))),
      );
      const lowest = corners.reduce((low, corner) => (corner[2] < low[2] ? corner : low));
      const gap = meter.measure(cube, both, plate, identityPose());
      expect(gap.clearance_mm).toBeGreaterThan(0);
      agreesWithin("nearestPoints", distance(applyPose(both, gap.pointA), lowest), 0, 1e-4);
      agreesWithin("nearestPoints", distance(gap.pointB, [lowest[0], lowest[1], 10]), 0, 1e-4);
      agreesWithin("measuredGap", gap.clearance_mm, lowest[2] - 10, 1e-4);
    }
  });
});
