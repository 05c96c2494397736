import { describe, expect, it } from "vitest";
import { barState } from "../../src/kinematics/antiRollBar.ts";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { applyPose } from "../../src/maths/pose.ts";
import { distance, type Vec3 } from "../../src/maths/vec3.ts";
import { agrees } from "../truth/agreement.ts";
import { bar, corner, hinge, wheel } from "./corners.ts";

// A trailing arm on the axle line's height turns in the side view, and so does the bar: together a planar four-bar with
// the arm as crank (pivot to pickup) and the bar's arm as rocker, whose closed form is Freudenstein's.
const RAD = Math.PI / 180;
const PIVOT: Vec3 = [450, 600, 300];
const BAR: Vec3 = [150, 600, 500];
const ARM: Vec3 = [-30, 600, 500];
const PICKUP: Vec3 = [-20, 600, 320];

const scene = (drop: Partial<{ arm: Vec3; pickup: Vec3 }> = {}) =>
  corner([hinge("swing", PIVOT, [450, 300, 300])], wheel([0, 740, 300]), {
    antiRollBar: bar(BAR, [0, 1, 0], drop.arm ?? ARM, drop.pickup ?? PICKUP),
  });

describe("anti-roll bar", () => {
  it.each([60, 25, -25, -60])("turns as the four-bar's closed form says at %d mm", (travel) => {
    const compiled = compileCorner(scene(), "left");
    const { pose } = solveCorner(compiled, travel);
    // positive turns about y lower what is behind the pivot's front: rise z = 450·sin φ means a turn of +φ about y
    const phi = Math.asin(travel / 450);
    const turn = (p: Vec3, about: Vec3, angle: number): [number, number] => {
      const [x, z] = [p[0] - about[0], p[2] - about[2]];
      return [
        about[0] + x * Math.cos(angle) + z * Math.sin(angle),
        about[2] - x * Math.sin(angle) + z * Math.cos(angle),
      ];
    };
    const [px, pz] = turn(PICKUP, PIVOT, phi);
    const radius = distance(ARM, BAR);
    const drop = distance(ARM, PICKUP);
    const reach = Math.hypot(px - BAR[0], pz - BAR[2]);
    const atBar = Math.acos((radius ** 2 + reach ** 2 - drop ** 2) / (2 * radius * reach));
    const direction = Math.atan2(pz - BAR[2], px - BAR[0]);
    // the arm lies above the line from bar to pickup, as drawn
    const angle = direction - atBar;
    const [x, z] = [BAR[0] + radius * Math.cos(angle), BAR[2] + radius * Math.sin(angle)];
    const state = barState(compiled, pose)!;
    const end = applyPose(state.bar, ARM);
    expect(end[0]).toBeCloseTo(x, 8);
    expect(end[2]).toBeCloseTo(z, 8);
    expect(distance(applyPose(state.link, PICKUP), applyPose(pose, PICKUP))).toBeLessThan(1e-9);
    const about = Math.atan2(-(z - BAR[2]), x - BAR[0]) - Math.atan2(-(ARM[2] - BAR[2]), ARM[0] - BAR[0]);
    agrees("barTurn", state.angle_deg, Math.atan2(Math.sin(about), Math.cos(about)) / RAD, 7);
  });

  it("locks where its drop link and arm come into line: the run ends there and says so", () => {
    // the link's reach is used up in droop: |bar to pickup| = arm + link
    const short = scene({ pickup: [-20, 600, 420], arm: [0, 600, 470] });
    const compiled = compileCorner(short, "left");
    const run = runTravel(compiled, { bump_mm: 60, droop_mm: 200, step_mm: 5 });
    expect(run.bindsAt_mm).toBe(run.from_mm);
    const most = distance([0, 600, 470], BAR) + distance([0, 600, 470], [-20, 600, 420]);
    const reachAt = (travel: number) => distance(applyPose(solveCorner(compiled, travel).pose, [-20, 600, 420]), BAR);
    expect(reachAt(run.from_mm)).toBeLessThanOrEqual(most);
    expect(reachAt(run.from_mm - 0.01)).toBeGreaterThan(most);
    const beyond = solveCorner(compiled, run.from_mm - 1).pose;
    expect(barState(compiled, beyond)).toBeNull();
    expect(mountPoses(compiled, beyond, "rest").has("bar")).toBe(false);
    expect(mountPoses(compiled, beyond, "rest").has("carrier")).toBe(true);
  });
});

describe("a drop link drawn in line with its arm", () => {
  it("reaches where it is drawn, whatever rounding makes of the line", () => {
    // of such places rounding alone told a third to be out of reach
    for (let i = 0; i < 200; i++) {
      const [x, z] = [-Math.cos(0.1 + 0.03 * i), -Math.sin(0.1 + 0.03 * i)];
      const far = 100 * (1.3 + 0.01 * i);
      const [arm, pickup]: Vec3[] = [
        [BAR[0] + 100 * x, 600, BAR[2] + 100 * z],
        [BAR[0] + far * x, 600, BAR[2] + far * z],
      ];
      const compiled = compileCorner(scene({ arm: arm!, pickup: pickup! }), "left");
      expect(barState(compiled, compiled.ridePose)?.angle_deg, `case ${i}`).toBeCloseTo(0, 4);
    }
  });
});

describe("a mount that was moved farther than the drop link reaches", () => {
  it("is refused, and so is a pivot of the bar", () => {
    // the drop link is 180 long and the arm too: 800 more between them is out of reach
    const drawn = scene();
    const moved = corner([hinge("swing", PIVOT, [450, 300, 300], [1250, 600, 300], [1250, 300, 300])], drawn.wheel, {
      antiRollBar: drawn.antiRollBar,
    });
    expect(() => compileCorner(moved, "left")).toThrow(/drop link .* does not reach/);
    const pivotMounted: Vec3 = [BAR[0] + 800, BAR[1], BAR[2]];
    const away = { ...drawn, antiRollBar: { ...drawn.antiRollBar!, pivotMounted } };
    expect(() => compileCorner(away, "left")).toThrow(/drop link .* does not reach/);
  });
});
