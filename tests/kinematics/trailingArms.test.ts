import { describe, expect, it } from "vitest";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { readCorner, spinAxis } from "../../src/kinematics/readings.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { poseOfTrack, turnByPose } from "../../src/maths/pose.ts";
import { add, scale, type Vec3 } from "../../src/maths/vec3.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { agrees, agreesWithin } from "../truth/agreement.ts";
import { corner, hinge, wheel } from "./corners.ts";

// Closed forms of a wheel on one turning axis (Rodrigues' rotation formula). Axis e = (sin α·cos δ, cos α·cos δ, sin δ);
// wheel centre (−Lx, Ly, 0) from a point of the axis; sin φ = z/R, R = Lx·cos α + Ly·sin α; c = 1 − cos φ:
// toe = atan[sin α·cos α·c/(1 − sin²α·c)], projected camber = −atan[sin α·sin φ/(1 − sin²α·c)], camber = −asin(sin α·sin φ).
const RAD = Math.PI / 180;

function swingCorner(sweep_deg: number, lx: number, ly: number, dihedral_deg = 0): Scene {
  const centre: Vec3 = [0, 715, 300];
  const [a, d] = [sweep_deg * RAD, dihedral_deg * RAD];
  const axis: Vec3 = [Math.sin(a) * Math.cos(d), Math.cos(a) * Math.cos(d), Math.sin(d)];
  const pivot = add(centre, [lx, -ly, 0]);
  return corner([hinge("swing", add(pivot, scale(axis, 60)), add(pivot, scale(axis, -240)))], wheel(centre));
}

function solved(scene: Scene, travel_mm: number) {
  const compiled = compileCorner(scene, "left");
  const outcome = solveCorner(compiled, travel_mm);
  expect(outcome.status).toBe("solved");
  expect(outcome.residual_mm).toBeLessThan(1e-9);
  const spin = turnByPose(outcome.pose, spinAxis(scene.wheel));
  const projected_deg = Math.atan2(-spin[2], Math.abs(spin[1])) / RAD;
  return { ...readCorner(compiled, outcome.pose, "rest"), projected_deg, pose: outcome.pose };
}

describe("pure trailing arm, 450 mm", () => {
  it("turns 10.24035° over 80 mm, shifts the wheel 7.16820 forward and keeps toe and camber at zero", () => {
    const { pose, wheelbaseShift_mm, toe_deg, camber_deg } = solved(swingCorner(0, 450, 0), 80);
    agrees("wheelbaseShift", wheelbaseShift_mm, 7.1682, 5);
    expect(Math.acos(pose[0]!) / RAD).toBeCloseTo(10.24035, 5);
    expect(toe_deg).toBeCloseTo(0, 9);
    expect(camber_deg).toBeCloseTo(0, 9);
  });
});

describe("semi-trailing arm, sweep 15°, Lx 400, Ly 150", () => {
  const scene = swingCorner(15, 400, 150);

  it.each([
    [80, 0.256125, -2.79125],
    [-80, 0.256125, 2.79125],
  ])("at %d mm reads the closed form's toe and projected camber", (travel, toe, projected) => {
    const reading = solved(scene, travel);
    agrees("toe", reading.toe_deg, toe, 5);
    expect(reading.projected_deg).toBeCloseTo(projected, 5);
    const sine = travel / (400 * Math.cos(15 * RAD) + 150 * Math.sin(15 * RAD));
    agrees("camber", reading.camber_deg, -Math.asin(Math.sin(15 * RAD) * sine) / RAD, 9);
  });

  it("shifts the wheel centre (+7.33505, −1.96542)", () => {
    for (const travel of [80, -80]) {
      const { pose, wheelbaseShift_mm } = solved(scene, travel);
      const y = pose[4]! * 0 + pose[5]! * 715 + pose[6]! * 300 + pose[7]!;
      agrees("wheelbaseShift", wheelbaseShift_mm, 7.33505, 5);
      expect(y - 715).toBeCloseTo(-1.96542, 5);
    }
  });

  it("gains camber at −0.0348765°/mm about a front-view arm of 1642.8203 mm at ride height", () => {
    const compiled = compileCorner(scene, "left");
    const rates = compiled.solver.ratesAt(compiled.ridePose)!;
    // with the wheel upright the turn about the forward axis is minus the camber gained
    expect(-rates.turn[0] / RAD).toBeCloseTo(-0.0348765, 7);
    expect(1 / rates.turn[0]).toBeCloseTo(1642.8203, 3);
  });

  it("has a side-view arm of 440.1924 mm", () => {
    const compiled = compileCorner(scene, "left");
    expect(Math.abs(1 / compiled.solver.ratesAt(compiled.ridePose)!.turn[1])).toBeCloseTo(440.1924, 4);
  });

  it("has its roll centre at 130.5681 with the axis 300 high and a half-track of 715", () => {
    // front-view arm 1642.8203 at height 300, read at the centre plane
    const { rollCentre_mm, halfTrack_mm } = solved(scene, 0);
    expect(halfTrack_mm).toBeCloseTo(715, 9);
    expect(rollCentre_mm).toBeCloseTo(130.5681, 4);
  });

  it("locks at φ = 90°: travel R = 425.19319 with camber −15° exactly, projected −15.50409°", () => {
    const compiled = compileCorner(scene, "left");
    const run = runTravel(compiled, { bump_mm: 500, droop_mm: 60, step_mm: 5 });
    agreesWithin("binds", run.bindsAt_mm!, 425.19319, 0.01);
    expect(run.to_mm).toBe(run.bindsAt_mm);
    expect(run.from_mm).toBe(-60);
    const last = poseOfTrack(run.carrier, run.travel_mm.length - 1);
    expect(readCorner(compiled, last, "rest").camber_deg).toBeCloseTo(-15, 4);
    const outcome = solveCorner(compiled, 430);
    expect(outcome.status).toBe("binds");
    expect(Math.abs(outcome.travel_mm - 425.19319)).toBeLessThan(0.01);
    expect(outcome.residual_mm).toBeLessThan(1e-9);
  });

  it("tells the lock nearer to ride height when both ways lock", () => {
    // the pivot 100 above the wheel centre: R above that in bump, R below it in droop
    const high = corner([hinge("swing", [400, 700, 400], [400, 300, 400])], wheel([0, 715, 300]));
    const run = runTravel(compileCorner(high, "left"), { bump_mm: 900, droop_mm: 900, step_mm: 10 });
    const radius = Math.hypot(400, 100);
    expect(Math.abs(run.to_mm - (100 + radius))).toBeLessThan(0.01);
    expect(Math.abs(run.from_mm - (100 - radius))).toBeLessThan(0.01);
    expect(run.bindsAt_mm).toBe(run.from_mm);
  });
});

describe("semi-trailing arm with its axis' outer end raised by 3°", () => {
  // Rodrigues' formula with the axis out of the horizontal plane
  it.each([
    [80, -0.309497, -2.841727],
    [-80, 0.822285, 2.740944],
  ])("at %d mm reads the closed form", (travel, toe, camber) => {
    const reading = solved(swingCorner(15, 400, 150, 3), travel);
    expect(reading.toe_deg).toBeCloseTo(toe, 4);
    expect(reading.projected_deg).toBeCloseTo(camber, 4);
  });
});
