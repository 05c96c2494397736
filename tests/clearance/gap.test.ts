import { describe, expect, it } from "vitest";
import { GapMeter } from "../../src/clearance/gap.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import { applyPose, identityPose, rotationPose, translationPose } from "../../src/maths/pose.ts";
import { distance } from "../../src/maths/vec3.ts";
import type { Shape } from "../../src/scene/scene.ts";

const SAG_mm = 0.02;
const wheel = {
  centre: [0, 740, 300],
  tyre: "205/55R16",
  rimWidth_in: 7,
  rimOffset_mm: 42,
  toe_deg: 0,
  camber_deg: 0,
} as const;
const nowhere = { at: null, turn_deg: null } as const;

function body(key: string, shape: Shape) {
  return {
    key,
    content: JSON.stringify(shape),
    solid: buildSolid(shape, { tessellation_mm: SAG_mm, wheel, meshFiles: new Map() }),
  };
}
const ball = body("ball", { ...nowhere, kind: "sphere", diameter_mm: 60 });
const other = body("other", { ...nowhere, kind: "sphere", diameter_mm: 20 });
const cube = body("cube", { ...nowhere, kind: "box", size_mm: [40, 40, 40], edge_mm: null });

describe("the gap of two parts", () => {
  it("of balls is the distance of their centres less both radii, between points that ride on them", () => {
    const meter = new GapMeter(new TreeShelf());
    for (const x of [45, 60, 200, 41]) {
      const pose = translationPose([x, 0.3 * x, -7]);
      const gap = meter.measure(ball, identityPose(), other, pose);
      const wanted_mm = Math.hypot(x, 0.3 * x, 7) - 40;
      expect(gap.clearance_mm).toBeLessThanOrEqual(wanted_mm + 1e-4);
      expect(gap.clearance_mm).toBeGreaterThan(wanted_mm - 2 * SAG_mm);
      expect(distance(gap.pointA, applyPose(pose, gap.pointB))).toBeCloseTo(gap.clearance_mm, 6);
    }
  });

  it("of boxes that overlap is minus the least way out, whichever way the pair is told", () => {
    const meter = new GapMeter(new TreeShelf());
    const pose = translationPose([36.5, 3, -2]);
    expect(meter.measure(cube, identityPose(), cube, pose).clearance_mm).toBeCloseTo(-3.5, 4);
    expect(meter.measure(cube, pose, cube, identityPose()).clearance_mm).toBeCloseTo(-3.5, 4);
  });

  it("does not change when both are moved by one rigid motion", () => {
    const meter = new GapMeter(new TreeShelf());
    const turn = rotationPose([0.6, 0, 0.8], 0.7, [100, -20, 30]);
    const apart = translationPose([70, 10, 5]);
    const here = meter.measure(ball, identityPose(), cube, apart).clearance_mm;
    const both = Float64Array.from(turn);
    const moved = applyPose(turn, [70, 10, 5]);
    [both[3], both[7], both[11]] = moved;
    expect(meter.measure(ball, turn, cube, both).clearance_mm).toBeCloseTo(here, 6);
  });
});
