import { describe, expect, it } from "vitest";
import { writeLeastTurn } from "../../src/kinematics/rider.ts";
import { applyPose, turnByPose } from "../../src/maths/pose.ts";
import { add, cross, dot, length, normalise, scale, squareTo, type Vec3 } from "../../src/maths/vec3.ts";
import { randomOf } from "./random.ts";

const ANGLES_deg = [0, 1e-7, 0.01, 1, 30, 90, 150, 154, 155, 170, 179];

describe("the least turn of one direction to another", () => {
  it.each(ANGLES_deg)("by %s° turns about the axis square to both, by the angle between them", (angle_deg) => {
    const random = randomOf(12);
    const point = (size: number): Vec3 => [size * (random() - 0.5), size * (random() - 0.5), size * (random() - 0.5)];
    const angle = (angle_deg * Math.PI) / 180;
    for (let i = 0; i < 50; i++) {
      const drawn = normalise(point(1));
      const axis = squareTo(drawn);
      const across = cross(axis, drawn);
      const now = scale(add(scale(drawn, Math.cos(angle)), scale(across, Math.sin(angle))), 1 + 300 * random());
      const [held, heldNow] = [point(1000), point(1000)];
      const pose = writeLeastTurn(new Float64Array(12), drawn, now, held, heldNow);
      expect(length(add(applyPose(pose, held), scale(heldNow, -1)))).toBeLessThan(1e-11);
      expect(length(add(turnByPose(pose, drawn), scale(normalise(now), -1)))).toBeLessThan(1e-14);
      expect(length(add(turnByPose(pose, axis), scale(axis, -1)))).toBeLessThan(1e-9);
      const columns = (
        [
          [1, 0, 0],
          [0, 1, 0],
          [0, 0, 1],
        ] as const
      ).map((e) => turnByPose(pose, e));
      const [x, y, z] = columns as [Vec3, Vec3, Vec3];
      for (const [p, q] of [
        [x, y],
        [y, z],
        [z, x],
      ] as const)
        expect(Math.abs(dot(p, q))).toBeLessThan(1e-14);
      expect(length(add(cross(x, y), scale(z, -1)))).toBeLessThan(1e-14);
    }
  });
});
