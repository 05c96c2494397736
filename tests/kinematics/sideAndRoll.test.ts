import { describe, expect, it } from "vitest";
import { readBar } from "../../src/kinematics/antiRollBar.ts";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { damperRatioRate_per_mm, derivativesAt } from "../../src/kinematics/derivatives.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { rollAxle } from "../../src/kinematics/roll.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { NO_LOADS } from "../../src/scene/loadRecords.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { agrees } from "../truth/agreement.ts";
import { ball, bar, corner, damper, hinge, link, wheel, wishbone } from "./corners.ts";

const RAD = Math.PI / 180;

/** A pure trailing arm whose axis lies crosswise 440 ahead and 380 high. */
const trailing = (more: Partial<Scene> = {}) =>
  corner([hinge("swing", [440, 600, 380], [440, 300, 380])], wheel([0, 740, 310]), {
    vehicle: { wheelbase_mm: 2600, cgHeight_mm: 500, rearBrakeShare: 1 },
    ...more,
  });

const atRide = (scene: Scene) => {
  const compiled = compileCorner(scene, "left");
  return derivativesAt(compiled, compiled.ridePose);
};

describe("side view", () => {
  // Milliken & Milliken, Race Car Vehicle Dynamics, chapter 17 (from memory): wheelbase 2600, centre of gravity 500 high,
  // wheel centre 310, instant centre 380 high and 440 ahead
  it("has 82.727 % anti-squat with the torque at the chassis, 449.09 % anti-lift with brakes on the hub", () => {
    const read = atRide(trailing());
    agrees("antiSquat", read.antiSquat_percent, (((380 - 310) / 440) * 2600 * 100) / 500, 9);
    expect(read.antiSquat_percent).toBeCloseTo(82.727, 3);
    agrees("antiLift", read.antiLift_percent, 449.09, 2);
    expect(read.sideArm_mm).toBeCloseTo(440, 9);
    expect(read.frontArm_mm).toBeNull();
  });

  it("counts the rear wheels' share of braking, and the wheel centre's slope with brakes at the differential", () => {
    const vehicle = { wheelbase_mm: 2600, cgHeight_mm: 500, rearBrakeShare: 0.3 };
    expect(atRide(trailing({ vehicle })).antiLift_percent).toBeCloseTo(0.3 * 449.0909, 3);
    expect(atRide(trailing({ loads: { ...NO_LOADS, brakes: "inboard" } })).antiLift_percent).toBeCloseTo(82.727, 3);
  });

  it("tells nothing that hangs on what the scene does not tell", () => {
    expect(atRide(trailing({ vehicle: null }))).toMatchObject({ antiSquat_percent: null, antiLift_percent: null });
    const vehicle = { wheelbase_mm: 2600, cgHeight_mm: 500, rearBrakeShare: null };
    expect(atRide(trailing({ vehicle })).antiLift_percent).toBeNull();
  });

  it("has the arms 1642.8203 and 440.1924 and −0.0348765 °/mm of a semi-trailing arm at 15° (closed forms)", () => {
    // axis (sin 15°, cos 15°, 0), the wheel centre 400 behind and 150 out of a point on it
    const axis: Vec3 = [Math.sin(15 * RAD), Math.cos(15 * RAD), 0];
    const foot: Vec3 = [400, 590, 300];
    const scene = corner(
      [hinge("swing", foot, [foot[0] - 200 * axis[0], foot[1] - 200 * axis[1], 300])],
      wheel([0, 740, 300]),
    );
    const read = atRide(scene);
    agrees("frontArm", read.frontArm_mm, 150 + 400 / Math.tan(15 * RAD), 6);
    expect(read.frontArm_mm).toBeCloseTo(1642.8203, 3);
    agrees("sideArm", read.sideArm_mm, 440.1924, 4);
    agrees("camberGain", read.camberGain_deg_per_mm, -0.0348765, 7);
    expect(read.bumpSteer_deg_per_mm).toBeCloseTo(0, 9);
  });
});

describe("the rate of the damper ratio", () => {
  it("is the second derivative of the damper's closed-form length on a trailing arm", () => {
    const [pivot, top, bottom] = [
      [450, 600, 300],
      [60, 560, 640],
      [80, 560, 260],
    ] as const;
    const scene = corner([hinge("swing", pivot as Vec3, [450, 300, 300])], wheel([0, 740, 300]), {
      damper: damper(top, bottom),
    });
    const compiled = compileCorner(scene, "left");
    const length = (travel_mm: number): number => {
      // behind the pivot a rise is a turn from +x to −z about y
      const angle = Math.asin(travel_mm / 450);
      const [x, z] = [bottom[0] - pivot[0], bottom[2] - pivot[2]];
      const at = [
        pivot[0] + x * Math.cos(angle) + z * Math.sin(angle),
        pivot[2] - x * Math.sin(angle) + z * Math.cos(angle),
      ];
      return Math.hypot(at[0]! - top[0], at[1]! - top[2]);
    };
    for (const travel_mm of [-60, 0, 45]) {
      const h = 0.5;
      const second = (length(travel_mm + h) - 2 * length(travel_mm) + length(travel_mm - h)) / (h * h);
      agrees("ratioRate", damperRatioRate_per_mm(compiled, travel_mm), -second, 6);
    }
    expect(damperRatioRate_per_mm(compileCorner(trailing(), "left"), 0)).toBeNull();
  });
});

describe("the axle in roll", () => {
  it("with pure trailing arms leans its wheels with the body, steers nothing and has its roll centre on the ground", () => {
    const compiled = compileCorner(trailing(), "left");
    for (const roll_deg of [0.5, 2, 4]) {
      const axle = rollAxle(compiled, roll_deg)!;
      expect(axle.outerCamber_deg).toBeCloseTo(roll_deg, 9);
      expect(axle.innerCamber_deg).toBeCloseTo(-roll_deg, 9);
      expect(axle.rollSteer_deg).toBeCloseTo(0, 9);
      expect(axle.rollCentre_mm!).toBeCloseTo(0, 0);
    }
  });

  it("of a swing axle has its roll centre where the lines from the ground through the pivots cross (closed form)", () => {
    const [pivotOut, pivotUp, out] = [150, 320, 740];
    const scene = corner([hinge("half", [200, pivotOut, pivotUp], [-200, pivotOut, pivotUp])], wheel([0, out, 300]));
    const axle = rollAxle(compileCorner(scene, "left"), 0)!;
    agrees("axleRollCentre", axle.rollCentre_mm, (pivotUp * out) / (out - pivotOut), 4);
    agrees("axleRollCentre", axle.rollCentreAside_mm, 0, 6);
  });

  // by the instant centre at (−1683.333, 150): Milliken & Milliken, chapter 17 (from memory), worked out for this project
  it("of two wishbones in one plane is 46.2329 high, as the readings of one wheel have it", () => {
    const scene = corner(
      [
        wishbone("upper", [100, 400, 400], [-100, 400, 400], [0, 650, 430]),
        wishbone("lower", [100, 300, 150], [-100, 300, 150], [0, 700, 150]),
        link("toe", [-150, 300, 150], [-150, 700, 150]),
      ],
      wheel([0, 750, 300]),
    );
    const compiled = compileCorner(scene, "left");
    expect(readCorner(compiled, compiled.ridePose, "rest").rollCentre_mm).toBeCloseTo(46.2329, 3);
    expect(rollAxle(compiled, 0)!.rollCentre_mm).toBeCloseTo(46.2329, 3);
  });

  it("begins as the wheel's own derivatives say: camber by the lean less the gain over half the track", () => {
    const scene = corner(
      [
        ball("arm", [430, 640, 330]),
        link("upper", [-20, 410, 425], [-20, 650, 430]),
        link("lower", [-70, 260, 200], [-70, 660, 205]),
      ],
      wheel([0, 740, 300]),
    );
    const compiled = compileCorner(scene, "left");
    const { camberGain_deg_per_mm, bumpSteer_deg_per_mm } = derivativesAt(compiled, compiled.ridePose);
    const roll_deg = 0.02;
    const rise_mm = 740 * Math.tan(roll_deg * RAD);
    const axle = rollAxle(compiled, roll_deg)!;
    expect((axle.outerCamber_deg - axle.innerCamber_deg) / 2).toBeCloseTo(
      roll_deg + camberGain_deg_per_mm * rise_mm,
      3,
    );
    expect(axle.rollSteer_deg / roll_deg).toBeCloseTo((bumpSteer_deg_per_mm * rise_mm) / roll_deg, 1);
    agrees("rollTravel", axle.travel_mm, rise_mm, 2);
  });

  it("rolled the other way is the same with outer and inner wheel exchanged; beyond its reach there is none", () => {
    const compiled = compileCorner(trailing(), "left");
    const [one, other] = [rollAxle(compiled, 3)!, rollAxle(compiled, -3)!];
    expect(other.outerCamber_deg).toBeCloseTo(one.innerCamber_deg, 9);
    expect(other.rollSteer_deg).toBeCloseTo(-one.rollSteer_deg, 9);
    expect(rollAxle(compiled, 60)).toBeNull();
  });
});

describe("the bar's drop link", () => {
  it("stands at 90° to an arm that it is square to, and loses its lever as it comes in line", () => {
    // arm 100 behind the pivot; a link straight down has the whole lever, one along the arm none
    const scene = (pickup: Vec3) => trailing({ antiRollBar: bar([200, 500, 500], [0, 1, 0], [100, 500, 500], pickup) });
    const read = (pickup: Vec3) => {
      const compiled = compileCorner(scene(pickup), "left");
      return readBar(compiled, compiled.ridePose)!;
    };
    expect(read([100, 500, 350])).toMatchObject({ turn_deg: 0 });
    expect(read([100, 500, 350]).link_deg).toBeCloseTo(90, 9);
    agrees("barLever", read([100, 500, 350]).lever_mm, 100, 9);
    agrees("barLink", read([0, 500, 400]).link_deg, 45, 9);
    const compiled = compileCorner(scene([100, 500, 350]), "left");
    expect(readBar(compiled, solveCorner(compiled, 60).pose)!.link_deg).toBeLessThan(90);
    expect(readBar(compileCorner(trailing(), "left"), compiled.ridePose)).toBeNull();
  });
});
