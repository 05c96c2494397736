import { describe, expect, it } from "vitest";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { shaftDesign } from "../../src/kinematics/shaft.ts";
import { applyPose } from "../../src/maths/pose.ts";
import { distance, type Vec3 } from "../../src/maths/vec3.ts";
import type { Powertrain, PowertrainPose } from "../../src/scene/scene.ts";
import { agrees } from "../truth/agreement.ts";
import { corner, hinge, rest, shaft, wheel } from "./corners.ts";

const still = { about: [0, 0, 0], axis: [0, 1, 0], angle_deg: 0, within_mm: null } as const;

function withPoses(...poses: PowertrainPose[]): Powertrain {
  return { place: null, poses: [...rest.poses, ...poses] };
}

const members = [hinge("swing", [450, 600, 300], [450, 300, 300])];

describe("plunge and joint angles", () => {
  it("from a span of 360 and a rise of 105 is 375 long at 16.26020°, 15 of plunge (3-4-5 triangle)", () => {
    const powertrain = withPoses({ ...still, id: "low", shift_mm: [0, 0, -105] });
    const scene = corner(members, wheel([0, 740, 300]), {
      driveshaft: shaft([0, 300, 300], [0, 1, 0], [0, 660, 300]),
      powertrain,
    });
    const compiled = compileCorner(scene, "left");
    const drawn = readCorner(compiled, compiled.ridePose, "rest");
    const lowered = readCorner(compiled, compiled.ridePose, "low");
    agrees("shaftLength", lowered.shaft_mm, 375, 9);
    expect(lowered.shaft_mm! - drawn.shaft_mm!).toBeCloseTo(15, 9);
    agrees("innerAngle", lowered.innerAngle_deg, 16.2602, 5);
  });

  it("from offset (30,400,0) to (30,400,80) plunges 7.89980; inner 4.28915° to 12.05719°, outer 10.08791° (closed forms)", () => {
    const powertrain = withPoses({ ...still, id: "low", shift_mm: [0, 0, -80] });
    const scene = corner(members, wheel([0, 740, 300], 0.3, -2), {
      driveshaft: shaft([-30, 260, 300], [0, 1, 0], [0, 660, 300]),
      powertrain,
    });
    for (const side of ["left", "right"] as const) {
      const compiled = compileCorner(scene, side);
      const drawn = readCorner(compiled, compiled.ridePose, "rest");
      const lowered = readCorner(compiled, compiled.ridePose, "low");
      expect(drawn.shaft_mm).toBeCloseTo(401.12342, 5);
      agrees("shaftLength", lowered.shaft_mm, 409.02323, 5);
      expect(lowered.shaft_mm! - drawn.shaft_mm!).toBeCloseTo(7.8998, 5);
      expect(drawn.innerAngle_deg).toBeCloseTo(4.28915, 5);
      agrees("innerAngle", lowered.innerAngle_deg, 12.05719, 5);
      agrees("outerAngle", lowered.outerAngle_deg, 10.08791, 5);
    }
  });
});

describe("one powertrain, two sides", () => {
  const drawn: Vec3 = [25, 235, 345];

  it("rolled about the fore-aft axis raises one inner joint and lowers the other", () => {
    const powertrain = withPoses({ ...still, id: "roll", axis: [1, 0, 0], angle_deg: 3, shift_mm: [0, 0, 0] });
    const scene = corner(members, wheel([0, 740, 300]), {
      driveshaft: shaft(drawn, [0, 1, 0], [0, 668, 300]),
      powertrain,
    });
    const [s, c] = [Math.sin(Math.PI / 60), Math.cos(Math.PI / 60)];
    // rotation about x: (y, z) → (y·c − z·s, y·s + z·c)
    const inner = {
      left: [25, 235 * c - 345 * s, 235 * s + 345 * c],
      right: [25, -235 * c - 345 * s, -235 * s + 345 * c],
    };
    for (const side of ["left", "right"] as const) {
      const compiled = compileCorner(scene, side);
      const outer: Vec3 = [0, side === "left" ? 668 : -668, 300];
      const { shaft_mm } = readCorner(compiled, compiled.ridePose, "roll");
      expect(shaft_mm).toBeCloseTo(distance(outer, inner[side] as unknown as Vec3), 9);
      const pose = mountPoses(compiled, compiled.ridePose, "roll").get("powertrain")!;
      const seen = applyPose(pose, side === "left" ? drawn : [25, -235, 345]);
      for (let i = 0; i < 3; i++) expect(seen[i]).toBeCloseTo(inner[side][i]!, 9);
    }
  });

  it("takes each side's own inner joint and lays a shaft of its length on the line of its joints", () => {
    const scene = corner(members, wheel([0, 740, 300]), {
      driveshaft: shaft(drawn, [0, 1, 0], [0, 668, 300], { at: [40, -180, 345] }),
    });
    for (const side of ["left", "right"] as const) {
      const compiled = compileCorner(scene, side);
      const pose = mountPoses(compiled, compiled.ridePose, "rest").get("driveshaft")!;
      const design = shaftDesign(scene, side)!;
      const mirrored = (p: Vec3): Vec3 => (side === "left" ? p : [p[0], -p[1], p[2]]);
      const wanted = side === "left" ? drawn : ([40, -180, 345] as Vec3);
      expect(distance(applyPose(pose, mirrored(design.inner)), wanted)).toBeLessThan(1e-9);
      expect(distance(applyPose(pose, mirrored(design.outer)), mirrored([0, 668, 300]))).toBeLessThan(1e-9);
      expect(readCorner(compiled, compiled.ridePose, "rest").shaft_mm).toBeCloseTo(
        distance(wanted, mirrored([0, 668, 300])),
        9,
      );
    }
  });

  it("is placed first and posed after", () => {
    const powertrain: Powertrain = {
      place: { shift_mm: [10, 0, 0], turn_deg: [0, 0, 90], about: [0, 0, 0] },
      poses: [...rest.poses, { ...still, id: "rock", axis: [0, 1, 0], angle_deg: 90, shift_mm: [0, 0, 5] }],
    };
    const scene = corner(members, wheel([0, 740, 300]), { powertrain });
    const compiled = compileCorner(scene, "left");
    const at = (pose: string) => applyPose(mountPoses(compiled, compiled.ridePose, pose).get("powertrain")!, [1, 2, 3]);
    // 90° about up: (1,2,3) → (−2,1,3), 10 forward → (8,1,3); 90° about y: (x,z) → (z,−x) → (3,1,−8), 5 up
    expect(at("rest").map((v) => Math.round(v * 1e9) / 1e9)).toEqual([8, 1, 3]);
    expect(at("rock").map((v) => Math.round(v * 1e9) / 1e9)).toEqual([3, 1, -3]);
  });
});
