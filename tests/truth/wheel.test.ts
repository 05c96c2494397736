import { describe, expect, it } from "vitest";
import { runSides } from "../../src/check/tracks.ts";
import { readBar } from "../../src/kinematics/antiRollBar.ts";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { derivativesAt } from "../../src/kinematics/derivatives.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { rollAxle } from "../../src/kinematics/roll.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { distance } from "../../src/maths/vec3.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { springStudy } from "../../src/studies/runningGear/spring.ts";
import { judgeTogether } from "../../src/studies/together/together.ts";
import { smallScene } from "../app/smallScene.ts";
import { bar, corner, damper, hinge, wheel } from "../kinematics/corners.ts";
import { agrees } from "./agreement.ts";
import { CENTRE, PIVOT, swung } from "./arms.ts";

const RAD = Math.PI / 180;

const trailing = (more: Partial<Scene> = {}) => corner([hinge("swing", PIVOT, [450, 300, 300])], wheel(CENTRE), more);

const readAt = (scene: Scene, travel_mm: number) => {
  const compiled = compileCorner(scene, "left");
  return readCorner(compiled, solveCorner(compiled, travel_mm).pose, "rest");
};

describe("half a track", () => {
  // a swing axle turns about a fore-aft line; its ground point, the loaded radius down the wheel's own plane, turns with it
  it("of a swing axle is where its ground point has turned to about the pivot (closed form)", () => {
    const [pivotOut, pivotUp] = [150, 320];
    const scene = corner([hinge("half", [200, pivotOut, pivotUp], [-200, pivotOut, pivotUp])], wheel([0, 740, 300]));
    for (const travel_mm of [-60, -15, 0, 40, 75]) {
      const [out, up] = [740 - pivotOut, 300 - pivotUp];
      const angle = Math.asin((up + travel_mm) / Math.hypot(out, up)) - Math.atan2(up, out);
      const wanted = pivotOut + out * Math.cos(angle) + pivotUp * Math.sin(angle);
      agrees("halfTrack", readAt(scene, travel_mm).halfTrack_mm, wanted, 8);
    }
  });
});

describe("the damper on a trailing arm", () => {
  const [top, bottom]: [Vec3, Vec3] = [
    [60, 560, 640],
    [80, 585, 260],
  ];
  const scene = trailing({ damper: damper(top, bottom) });
  const length = (travel_mm: number) => distance(swung(bottom, travel_mm), top);

  it("is as long as its eyes are apart, and shortens by what that changes a mm of travel (closed form)", () => {
    for (const travel_mm of [-65, -20, 0, 30, 78]) {
      const { damper_mm, damperRatio } = readAt(scene, travel_mm);
      agrees("damperLength", damper_mm, length(travel_mm), 9);
      const h = 1e-3;
      agrees("damperRatio", damperRatio, -(length(travel_mm + h) - length(travel_mm - h)) / (2 * h), 7);
    }
  });
});

describe("bump steer", () => {
  // toe of a semi-trailing arm by its travel (tests/kinematics/trailingArms.test.ts): tan toe = sin α cos α c / (1 − sin²α c)
  it("of a semi-trailing arm at 15° is the slope of its toe in closed form", () => {
    const [sine, cosine] = [Math.sin(15 * RAD), Math.cos(15 * RAD)];
    const foot: Vec3 = [400, 590, 300];
    const members = [hinge("swing", foot, [foot[0] - 200 * sine, foot[1] - 200 * cosine, 300])];
    const compiled = compileCorner(corner(members, wheel([0, 740, 300])), "left");
    const toe_deg = (travel_mm: number) => {
      const c = 1 - Math.sqrt(1 - (travel_mm / (400 * cosine + 150 * sine)) ** 2);
      return Math.atan2(sine * cosine * c, 1 - sine * sine * c) / RAD;
    };
    for (const travel_mm of [-70, -30, 20, 80]) {
      const h = 1e-3;
      const slope = (toe_deg(travel_mm + h) - toe_deg(travel_mm - h)) / (2 * h);
      agrees(
        "bumpSteer",
        derivativesAt(compiled, solveCorner(compiled, travel_mm).pose).bumpSteer_deg_per_mm,
        slope,
        8,
      );
    }
  });
});

describe("an axle of semi-trailing arms in roll", () => {
  // spin axis of the outer wheel, raised by z, in the body: e × y turned by φ about e = (sin α, cos α, 0), sin φ = z/R (Rodrigues)
  it("has the toe and camber of either wheel to the tilted ground, in closed form", () => {
    const [sine, cosine] = [Math.sin(15 * RAD), Math.cos(15 * RAD)];
    const foot: Vec3 = [400, 590, 300];
    const members = [hinge("swing", foot, [foot[0] - 200 * sine, foot[1] - 200 * cosine, 300])];
    const compiled = compileCorner(corner(members, wheel([0, 740, 300])), "left");
    const toGround = (travel_mm: number, roll_deg: number) => {
      const swing = travel_mm / (400 * cosine + 150 * sine);
      const c = 1 - Math.sqrt(1 - swing * swing);
      const [x, y, z] = [sine * cosine * c, 1 - sine * sine * c, sine * swing];
      const [s, o] = [Math.sin(roll_deg * RAD), Math.cos(roll_deg * RAD)];
      return { toe: Math.atan2(x, y * o + z * s) / RAD, camber: -Math.asin(z * o - y * s) / RAD };
    };
    for (const roll_deg of [0.7, 2, 3.5]) {
      const axle = rollAxle(compiled, roll_deg)!;
      const [outer, inner] = [toGround(axle.travel_mm, roll_deg), toGround(-axle.travel_mm, -roll_deg)];
      agrees("rollCamber", axle.outerCamber_deg, outer.camber, 8);
      agrees("rollCamber", axle.innerCamber_deg, inner.camber, 8);
      agrees("rollSteer", axle.outerToe_deg, outer.toe, 8);
      agrees("rollSteer", axle.innerToe_deg, inner.toe, 8);
      agrees("rollSteer", axle.rollSteer_deg, (outer.toe - inner.toe) / 2, 8);
    }
  });
});

describe("the anti-roll bar of a trailing arm", () => {
  const [onBar, arm, pickup]: Vec3[] = [
    [250, 500, 320],
    [90, 500, 330],
    [80, 560, 240],
  ];

  /** Four-bar in the side view: the arm's end stays its radius from the bar and the link's length from the pickup (closed form). */
  function turn_deg(travel_mm: number): number {
    const at = swung(pickup!, travel_mm);
    const flat = (a: Vec3, b: Vec3) => Math.hypot(a[0] - b[0], a[2] - b[2]);
    const radius = flat(arm!, onBar!);
    const drop = Math.hypot(arm![0] - pickup![0], arm![2] - pickup![2]);
    const reach = flat(at, onBar!);
    const direction = Math.atan2(at[2] - onBar![2], at[0] - onBar![0]);
    const angle = direction - Math.acos((radius ** 2 + reach ** 2 - drop ** 2) / (2 * radius * reach));
    // right hand about y turns from z to x
    const drawn = Math.atan2(arm![2] - onBar![2], arm![0] - onBar![0]);
    return -Math.atan2(Math.sin(angle - drawn), Math.cos(angle - drawn)) / RAD;
  }
  // the link stands upright in the side view's plane
  const flatPickup: Vec3 = [pickup![0], 500, pickup![2]];

  it("is twisted in roll by the difference of its ends' turns (closed form)", () => {
    const scene = trailing({ antiRollBar: bar(onBar!, [0, 1, 0], arm!, flatPickup) });
    const compiled = compileCorner(scene, "left");
    for (const told of springStudy(scene, runSides(scene)[0]!).bar!.curve) {
      const turn = turn_deg(told.travel_mm);
      agrees("barCurve", told.turn_deg, turn, 7);
      // in the side view: the arm turned so far, the link from its end to the pickup
      const [dx, dz] = [arm![0] - onBar![0], arm![2] - onBar![2]];
      const [s, c] = [Math.sin(turn * RAD), Math.cos(turn * RAD)];
      const [ax, az] = [dx * c + dz * s, dz * c - dx * s];
      const at = swung(flatPickup, told.travel_mm);
      const [lx, lz] = [at[0] - onBar![0] - ax, at[2] - onBar![2] - az];
      const lever = Math.abs(ax * lz - az * lx) / Math.hypot(lx, lz);
      agrees("barCurve", told.lever_mm, lever, 6);
      agrees("barCurve", told.link_deg, Math.asin(lever / Math.hypot(ax, az)) / RAD, 6);
    }
    agrees("barCurve", readBar(compiled, solveCorner(compiled, 40).pose)!.turn_deg, turn_deg(40), 7);
    for (const roll_deg of [1, 2.5]) {
      const axle = rollAxle(compiled, roll_deg)!;
      agrees("barTwist", axle.barTwist_deg, turn_deg(axle.travel_mm) - turn_deg(-axle.travel_mm), 7);
    }
  });

  it("is wound up by the same with one wheel up and one down (closed form)", () => {
    const document = smallScene({
      sides: "both",
      members: [{ id: "swing", kind: "hinge", front: PIVOT, rear: [450, 300, 300], body: null }],
      wheel: { centre: CENTRE, tyre: "205/55R16", rimWidth_in: 7, rimOffset_mm: 42, toe_deg: 0, camber_deg: 0 },
      travel: { bump_mm: 45, droop_mm: 35, step_mm: 5 },
      antiRollBar: { pivot: onBar!, axis: [0, 1, 0], arm: arm!, pickup: flatPickup, on: "carrier", diameter_mm: 20 },
      bodies: [],
    });
    const { bar: wound } = judgeTogether(document, new Map(), "bar");
    expect(wound!.at).toEqual({ left_mm: 45, right_mm: -35 });
    agrees("barWound", wound!.wound_deg, Math.abs(turn_deg(45) - turn_deg(-35)), 7);
  });
});
