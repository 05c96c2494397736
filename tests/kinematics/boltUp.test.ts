import { describe, expect, it } from "vitest";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { applyPose, identityPose, poseOfTrack } from "../../src/maths/pose.ts";
import { distance, mix, type Vec3 } from "../../src/maths/vec3.ts";
import { ball, corner, hinge, link, strut, wheel, wishbone } from "./corners.ts";

const at = wheel([0, 740, 300], 0.15, -1);

describe("mounts moved with every part keeping its length", () => {
  it("steers a planar corner by −asin(Δy/L): −0.127324° for 1 mm outboard at L 450 (closed form)", () => {
    // level lateral links on one vertical line, 450 behind the front mount
    const scene = corner(
      [
        ball("arm", [430, 640, 300], [430, 641, 300]),
        link("upper", [-20, 400, 430], [-20, 650, 430]),
        link("lower", [-20, 260, 200], [-20, 660, 200]),
      ],
      wheel([0, 740, 300]),
    );
    const compiled = compileCorner(scene, "left");
    expect(readCorner(compiled, compiled.ridePose, "rest").toe_deg).toBeCloseTo(-0.127324, 5);
  });

  it("keeps the wheel's height at travel 0 and every length through the travel", () => {
    const members = [
      wishbone("lower", [150, 300, 200], [-130, 300, 200], [5, 690, 195], [152, 303, 198], [-128, 304, 199]),
      link("toe", [-150, 330, 225], [-150, 670, 230], [-147, 333, 230]),
      link("upper", [-20, 410, 425], [-20, 650, 430], [-22, 415, 420]),
      link("high", [480, 600, 440], [30, 680, 400], [478, 604, 437]),
    ];
    const compiled = compileCorner(corner(members, at), "left");
    const run = runTravel(compiled, { bump_mm: 60, droop_mm: 60, step_mm: 10 });
    expect(run.bindsAt_mm).toBeNull();
    for (let knot = 0; knot < run.travel_mm.length; knot++) {
      const pose = poseOfTrack(run.carrier, knot);
      expect(applyPose(pose, at.centre)[2] - 300).toBeCloseTo(run.travel_mm[knot]!, 9);
      for (const member of members) {
        const out = applyPose(pose, member.outboard);
        if (member.kind === "link")
          expect(distance(out, member.inboardMounted)).toBeCloseTo(distance(member.outboard, member.inboard), 8);
        else {
          // the line was turned a little: the arm keeps its distance from the middle of its two bushes
          const middles = [mix(member.front, member.rear, 0.5), mix(member.frontMounted, member.rearMounted, 0.5)];
          expect(distance(out, middles[1]!)).toBeCloseTo(distance(member.outboard, middles[0]!), 8);
        }
      }
    }
    expect(distance(applyPose(compiled.ridePose, at.centre), at.centre)).toBeGreaterThan(0.5);
  });

  it("shifts the whole corner when every mount shifts alike", () => {
    const by = (p: Vec3): Vec3 => [p[0] + 7, p[1] - 4, p[2]];
    const points: Record<string, Vec3> = { arm: [430, 640, 330], upper: [-20, 410, 425], lower: [-70, 260, 200] };
    const scene = corner(
      [
        ball("arm", points.arm!, by(points.arm!)),
        link("upper", points.upper!, [-20, 650, 430], by(points.upper!)),
        link("lower", points.lower!, [-70, 660, 205], by(points.lower!)),
      ],
      at,
    );
    for (const side of ["left", "right"] as const) {
      const compiled = compileCorner(scene, side);
      const poses = mountPoses(compiled, compiled.ridePose, "rest");
      const shift = [7, side === "left" ? -4 : 4, 0];
      for (const mount of ["carrier", "arm", "upper", "lower"])
        for (const [i, value] of identityPose().entries()) {
          const wanted = i % 4 === 3 ? shift[(i / 4) | 0]! : value;
          expect(poses.get(mount)![i], `${side} ${mount} ${i}`).toBeCloseTo(wanted, 8);
        }
      expect([...poses.get("chassis")!]).toEqual([...identityPose()]);
    }
  });

  it("turns a hinge's part onto the moved bushes and leaves its height to the travel", () => {
    const scene = corner([hinge("swing", [380, 590, 300], [300, 230, 310], [380, 590, 304])], at);
    const compiled = compileCorner(scene, "left");
    const middle = mix([380, 590, 300], [300, 230, 310], 0.5);
    expect(distance(applyPose(compiled.ridePose, middle), mix([380, 590, 304], [300, 230, 310], 0.5))).toBeLessThan(
      1e-8,
    );
    // each bush is off by half of what the eyes' distance differs, 0.03 mm
    expect(distance(applyPose(compiled.ridePose, [380, 590, 300]), [380, 590, 304])).toBeLessThan(0.1);
    expect(applyPose(compiled.ridePose, at.centre)[2]).toBeCloseTo(300, 9);
  });

  it("keeps a strut's top on the strut's own line", () => {
    const moved: Vec3 = [-28, 552, 650];
    const scene = corner(
      [
        strut("leg", [-20, 560, 640], [0, 640, 260], moved),
        wishbone("lower", [150, 300, 200], [-130, 300, 200], [5, 690, 195]),
        link("toe", [-150, 330, 225], [-150, 670, 230]),
      ],
      at,
    );
    const compiled = compileCorner(scene, "left");
    for (const travel of [-40, 0, 40]) {
      const { pose } = solveCorner(compiled, travel);
      const [top, bottom] = [applyPose(pose, [-20, 560, 640]), applyPose(pose, [0, 640, 260])];
      const [a, b, c] = [distance(top, bottom), distance(moved, bottom), distance(moved, top)];
      // three points on one line: the longest side is the sum of the others
      expect(Math.max(a, b, c) * 2).toBeCloseTo(a + b + c, 8);
    }
  });

  it("refuses a mount that the parts cannot reach, and says how far they come", () => {
    const scene = corner(
      [
        ball("arm", [430, 640, 330]),
        link("upper", [-20, 410, 425], [-20, 650, 430], [-20, -200, 425]),
        link("lower", [-70, 260, 200], [-70, 660, 205]),
      ],
      at,
    );
    expect(() => compileCorner(scene, "left")).toThrow(/lock after \d+ % of the way to the moved mounts/);
  });
});
