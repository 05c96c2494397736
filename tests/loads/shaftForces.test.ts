import { describe, expect, it } from "vitest";
import { shaftForces } from "../../src/loads/shaftForces.ts";
import { add, cross, distance, dot, length, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import { agrees } from "../truth/agreement.ts";

const tilted = (angle: number): Vec3 => [0, Math.cos(angle), Math.sin(angle)];

describe("the driveshaft under torque", () => {
  it("bends hub and differential across their axes by T·tan(β/2) (Seherr-Thoss et al., Universal Joints and Driveshafts, from memory)", () => {
    const angle = (12 * Math.PI) / 180;
    const { coupleOnHub, outerAngle } = shaftForces({
      inner: [0, 0, 0],
      innerAxis: [0, 1, 0],
      outer: [0, 400, 0],
      spin: tilted(angle),
    });
    expect(outerAngle).toBeCloseTo(angle, 12);
    expect(dot(coupleOnHub, tilted(angle))).toBeCloseTo(1, 12);
    const across = subtract(coupleOnHub, scale(tilted(angle), dot(coupleOnHub, tilted(angle))));
    agrees("jointMoment", length(across), Math.tan(angle / 2), 12);
  });

  it("passes no force where both axes are parallel: the two secondary couples cancel", () => {
    const { onHub } = shaftForces({ inner: [0, 0, 0], innerAxis: [0, 1, 0], outer: [30, 400, 80], spin: [0, 1, 0] });
    expect(length(onHub)).toBeLessThan(1e-15);
  });

  it("passes a pair of 2 T·tan(β/2)/L across where both joints bend the same way", () => {
    const angle = (10 * Math.PI) / 180;
    const { onHub, innerAngle } = shaftForces({
      inner: [0, 0, 0],
      innerAxis: tilted(-angle),
      outer: [0, 400, 0],
      spin: tilted(angle),
    });
    expect(innerAngle).toBeCloseTo(angle, 12);
    // the couples lie in the plane of the angle, the forces square to it
    expect(Math.abs(onHub[0])).toBeCloseTo((2 * Math.tan(angle / 2)) / 400, 12);
    expect(Math.hypot(onHub[1], onHub[2])).toBeLessThan(1e-15);
  });

  it("is itself in equilibrium and asks nothing along the plunging joint's axis", () => {
    const line = {
      inner: [25, 235, 345] as Vec3,
      innerAxis: normalise([0.02, 1, -0.05]),
      outer: [0, 668, 300] as Vec3,
      spin: normalise([0.01, 1, 0.1]),
    };
    const { onHub, coupleOnHub, coupleOnShaft } = shaftForces(line);
    expect(dot(onHub, line.innerAxis)).toBeCloseTo(0, 15);
    const moment = add(subtract(coupleOnShaft, coupleOnHub), cross(subtract(line.outer, line.inner), scale(onHub, -1)));
    expect(length(moment)).toBeLessThan(1e-12);
    expect(distance(line.outer, line.inner)).toBeGreaterThan(400);
  });
});
