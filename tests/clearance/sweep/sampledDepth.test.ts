import { describe, expect, it } from "vitest";
import { buildTree } from "../../../src/clearance/kernel.ts";
import { createPairGauge } from "../../../src/clearance/pairState.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, invertPose, type Pose, rotationPose } from "../../../src/maths/pose.ts";
import { distance, length, type Vec3 } from "../../../src/maths/vec3.ts";
import { randomFrom, randomPoint } from "../kernel/meshes.ts";
import { ball, bar, brick, joined, shiftPose } from "./shapes.ts";

/** As a scan is: nothing known of convex pieces. */
const scan = (solid: Solid): Solid => ({ ...solid, convexPieces: null });
const opened = (solid: Solid): Solid => ({
  ...scan(solid),
  shells: solid.shells.map((shell) => ({ ...shell, closed: false })),
});

const vectorOf = (values: Float64Array): Vec3 => [values[0]!, values[1]!, values[2]!];

describe("depth of bodies without convex pieces", () => {
  it("is how deep a ball dips into a plate, short by no more than a tenth or 1.15 mm", () => {
    // closed form: the lowest point of the ball below the face
    const gauge = createPairGauge(
      buildTree(scan(brick([400, 400, 200], [0, 0, -100]))),
      buildTree(ball(50, [0, 0, 0], 32)),
    );
    for (const depth of [0.2, 1, 5, 20, 49]) {
      gauge.measure(shiftPose([7, -11, 50 - depth]), false);
      expect(gauge.state.measure).toBe("sampled");
      expect(-gauge.state.clearance_mm).toBeLessThanOrEqual(depth + 1e-4);
      expect(-gauge.state.clearance_mm).toBeGreaterThan(depth - Math.max(0.06, Math.min(1.15, 0.1 * depth)) - 1e-4);
      // half a ball deep, every way out is about as long
      if (depth < 49) expect(gauge.state.partingOfA[2]).toBeLessThan(-0.9);
    }
  });

  it("agrees with samples of both surfaces, against distances known in closed form", () => {
    // a slanting bar through a ball: depth of the bar's points in the ball is r − distance of its centre
    const random = randomFrom(91);
    for (let i = 0; i < 20; i++) {
      const from = randomPoint(random, 60);
      const to = randomPoint(random, 60);
      const gauge = createPairGauge(buildTree(scan(ball(40, [0, 0, 0], 40))), buildTree(bar(from, to, 6, 32)));
      gauge.measure(shiftPose([0, 0, 0]), false);
      const { clearance_mm, pointA, pointB, partingOfA } = gauge.state;
      if (clearance_mm >= 0) continue;
      // the deeper of: the bar's surface in the ball (the nearest to the centre), the ball's surface in the bar
      expect(distance(vectorOf(pointA), vectorOf(pointB))).toBeCloseTo(-clearance_mm, 6);
      expect(length(vectorOf(partingOfA))).toBeCloseTo(1, 6);
      const onBar = Math.abs(length(vectorOf(pointA)) - 40) < 0.2;
      if (onBar) expect(Math.abs(40 - length(vectorOf(pointB)) + clearance_mm)).toBeLessThan(0.2);
      expect(-clearance_mm).toBeLessThan(41);
    }
  });

  it("is the same with the bodies exchanged and moved", () => {
    const a = buildTree(scan(joined(brick([80, 60, 40]), ball(20, [40, 0, 20], 16))));
    const b = buildTree(bar([0, 0, 0], [90, 20, 10], 12, 24));
    const random = randomFrom(17);
    for (let i = 0; i < 15; i++) {
      const relative: Pose = composePoses(
        shiftPose(randomPoint(random, 40)),
        rotationPose([0, 0.6, 0.8], 6 * random()),
      );
      const one = createPairGauge(a, b);
      const other = createPairGauge(b, a);
      one.measure(relative, false);
      other.measure(invertPose(relative), false);
      const slack = Math.max(0.06, Math.min(1.15, -0.1 * one.state.clearance_mm));
      expect(Math.abs(one.state.clearance_mm - other.state.clearance_mm)).toBeLessThan(slack);
    }
  });

  it("tells that surfaces cross, and where, when neither body has an inside", () => {
    const gauge = createPairGauge(
      buildTree(opened(brick([100, 100, 2]))),
      buildTree(opened(bar([0, 0, -30], [0, 0, 30], 8))),
    );
    gauge.measure(shiftPose([20, 10, 0]), false);
    expect(gauge.state.clearance_mm).toBe(-0.01);
    const [x, y] = gauge.state.pointA as unknown as [number, number, number];
    expect(Math.hypot(x - 20, y - 10)).toBeLessThan(8.1);
  });
});
