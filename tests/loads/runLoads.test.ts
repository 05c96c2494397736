import { describe, expect, it } from "vitest";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { STANDARD_GRAVITY } from "../../src/kinematics/spring.ts";
import { barStiffness_Nmm, barTorque_Nmm, dropLink_N, USUAL_CASES } from "../../src/loads/cases.ts";
import { runLoads } from "../../src/loads/runLoads.ts";
import { standCorner } from "../../src/loads/stand.ts";
import { worstLoads } from "../../src/loads/worst.ts";
import { applyPose } from "../../src/maths/pose.ts";
import {
  add,
  cross,
  distance,
  dot,
  length,
  mirror,
  normalise,
  scale,
  subtract,
  type Vec3,
} from "../../src/maths/vec3.ts";
import { InputError } from "../../src/scene/error.ts";
import { type LoadCase, type Loads, NO_LOADS } from "../../src/scene/loadRecords.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { ball, bar, corner, damper, hinge, link, shaft, wheel, wishbone } from "../kinematics/corners.ts";
import { SCENE_FILES } from "../scenes/files.ts";
import { agrees, agreesOn, agreesWithin } from "../truth/agreement.ts";

const WITH_MASS: Loads = { ...NO_LOADS, cornerMass_kg: { left: 300, right: 300 } };

const one = (change: Partial<LoadCase>): LoadCase => ({
  id: "one",
  timesStatic: [0, 0, 0],
  force_N: [0, 0, 0],
  torque: null,
  roll_deg: 0,
  ...change,
});

/** Two wishbones and a toe link, the damper halfway out on the lower one. */
function wishbones(more: Partial<Scene> = {}): Scene {
  return corner(
    [
      wishbone("upper", [90, 420, 425], [-90, 420, 425], [-5, 660, 440]),
      wishbone("lower", [150, 300, 200], [-130, 300, 200], [0, 700, 200]),
      link("toe", [-150, 330, 225], [-150, 670, 230]),
    ],
    wheel([0, 740, 300], 0.15, -1),
    { damper: damper([0, 470, 560], [0, 500, 200], "lower"), loads: WITH_MASS, ...more },
  );
}

const refusal = (act: () => unknown): InputError => {
  try {
    act();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
};

describe("all cases over the whole travel", () => {
  it("are the usual ones where the scene has none, no driving among them without a driveshaft", () => {
    const bare = runLoads(wishbones());
    expect(bare.usualCases).toBe(true);
    expect(bare.sides[0]!.cases.map(({ id }) => id)).not.toContain("drive");
    const driven = runLoads(wishbones({ driveshaft: shaft([0, 240, 320], [0, 1, 0], [0, 680, 300]) }));
    expect(driven.sides[0]!.cases.map(({ id }) => id)).toEqual(USUAL_CASES.map(({ id }) => id));
    // 151 mm of travel in steps of 5, both ends in
    expect(driven.sides[0]!.states.length).toBe(31 * USUAL_CASES.length);
    expect(driven.residual_N).toBeLessThan(1e-8);
  });

  it("count in the static load of each wheel, 9.80665 m/s² times what the scale under it reads", () => {
    const scene = wishbones({ loads: { ...WITH_MASS, cornerMass_kg: { left: 300, right: 330 } } });
    const [left, right] = runLoads(scene).sides;
    agrees("sideStatic", left!.static_N, 300 * 9.80665, 9);
    for (const [i, state] of left!.states.entries()) {
      const there = right!.states[i]!;
      expect(there.at).toEqual({ ...state.at, side: "right" });
      expect(there.loads.damper_N).toBeCloseTo(1.1 * state.loads.damper_N, 6);
      for (const [k, joint] of state.loads.joints.entries()) {
        expect(distance(there.loads.joints[k]!.force_N, scale(mirror(joint.force_N), 1.1))).toBeLessThan(1e-6);
      }
    }
  });

  it("hold a braked wheel where the brakes sit, a driven one at the differential", () => {
    const driveshaft = shaft([0, 240, 320], [0, 1, 0], [0, 680, 300]);
    const torques = (loads: Loads) =>
      Object.fromEntries(
        runLoads(wishbones({ driveshaft, loads })).sides[0]!.cases.map(({ id, torque }) => [id, torque]),
      );
    expect(torques(WITH_MASS)).toMatchObject({ brake: "carrier", drive: "shaft", pothole: "free" });
    expect(torques({ ...WITH_MASS, brakes: "inboard" })).toMatchObject({ brake: "shaft", drive: "shaft" });
  });

  it("take a case by the whole of its force: what pushes on and what holds back add up", () => {
    const driveshaft = shaft([0, 240, 320], [0, 1, 0], [0, 680, 300]);
    const cases = [one({ timesStatic: [-1, 0, 1], force_N: [5000, 0, 0] })];
    const { cases: told } = runLoads(wishbones({ driveshaft, loads: { ...WITH_MASS, cases } })).sides[0]!;
    agreesOn("caseForce", told[0]!.force_N, [5000 - 300 * STANDARD_GRAVITY, 0, 300 * STANDARD_GRAVITY]);
    expect(told[0]!.torque).toBe("shaft");
  });

  it.each(SCENE_FILES.map((file) => [file.name, file.scene] as const))("balance in every state of %s", (_, drawn) => {
    const scene = { ...drawn, loads: { ...drawn.loads, cornerMass_kg: { left: 285, right: 270 } } };
    const { sides, residual_N, residual_Nmm } = runLoads(scene);
    agreesWithin("runResidual", residual_N, 0, 1e-6);
    agreesWithin("runResidualMoment", residual_Nmm, 0, 1e-3);
    for (const { states, cases, withoutLever_mm } of sides) {
      expect(withoutLever_mm).toEqual([]);
      // 130 mm in steps of 5
      expect(states.length).toBe(27 * cases.length);
      // standing at ride height: virtual work, but for the little that the ground point rises beside the wheel centre
      const standing = states.find(({ at }) => at.case === "standing" && at.travel_mm === 0)!;
      const corner = compileCorner(scene, standing.at.side);
      const { damperRatio } = readCorner(corner, corner.ridePose, "rest");
      const static_N = scene.loads.cornerMass_kg[standing.at.side]! * STANDARD_GRAVITY;
      expect(Math.abs((standing.loads.damper_N * damperRatio!) / static_N - 1)).toBeLessThan(0.02);
    }
  });

  it("refuse what cannot be loaded, by its path", () => {
    expect(refusal(() => runLoads(wishbones({ loads: NO_LOADS }))).path).toBe("loads.cornerMass_kg");
    expect(refusal(() => runLoads(wishbones({ damper: null }))).path).toBe("damper");
    const inNewtons = { ...NO_LOADS, cases: [one({ force_N: [0, 0, 3000] })] };
    expect(runLoads(wishbones({ loads: inNewtons })).sides[0]!.states[0]!.loads.damper_N).toBeGreaterThan(3000);
    const rolled = { ...WITH_MASS, cases: [one({ roll_deg: 12, timesStatic: [0, 0, 1] })] };
    const antiRollBar = bar([-300, 350, 250], [0, 1, 0], [-120, 450, 250], [-20, 600, 205], "lower");
    expect(refusal(() => runLoads(wishbones({ loads: rolled, antiRollBar }))).wrong).toMatch(/roll of 12/);
    expect(refusal(() => runLoads(wishbones(), "tail-up")).code).toBe("missing-id");
  });

  it("give no force where the damper has no lever on the wheel", () => {
    const scene = corner([hinge("swing", [300, 600, 300], [300, 200, 300])], wheel([0, 740, 300]), {
      damper: damper([300, 650, 900], [300, 640, 300], "swing"),
      loads: WITH_MASS,
      travel: { bump_mm: 0, droop_mm: 0, step_mm: 5 },
    });
    const { states, withoutLever_mm } = runLoads(scene).sides[0]!;
    expect(states).toEqual([]);
    expect(withoutLever_mm).toEqual([0]);
  });

  it("have their worst on each part told with the state it is met in", () => {
    const { states } = runLoads(wishbones()).sides[0]!;
    const worst = worstLoads(states);
    const damperPush = worst.find(({ part, kind }) => part === "damper" && kind === "compression")!;
    agreesOn("worstLoad", damperPush.value, Math.max(...states.map(({ loads }) => loads.damper_N)));
    const there = states.find(({ at }) => at.case === damperPush.at.case && at.travel_mm === damperPush.at.travel_mm)!;
    expect(there.loads.damper_N).toBe(damperPush.value);
    expect(worst.every(({ value }) => value > 0)).toBe(true);
  });
});

describe("inside the members", () => {
  const ride = (scene: Scene, force_N: Vec3) => {
    const compiled = compileCorner(scene, "left");
    return standCorner(compiled, compiled.ridePose)!.balance({ force_N, torque: "carrier", dropLink_N: 0 });
  };
  const jointForce = (loads: ReturnType<typeof ride>, id: string) =>
    loads.joints.find((joint) => joint.id === id)!.force_N;

  it("a wishbone's two legs together take its outboard joint's force, as pinned bars (statics of a triangle)", () => {
    const scene = wishbones();
    const loads = ride(scene, [-2000, -3000, 4000]);
    const [front, rear] = loads.members[0]!.sections;
    const outboard: Vec3 = [-5, 660, 440];
    const ways = (
      [
        [90, 420, 425],
        [-90, 420, 425],
      ] as Vec3[]
    ).map((bush) => normalise(subtract(outboard, bush)));
    const ofLegs = add(scale(ways[0]!, -front!.axial_N), scale(ways[1]!, -rear!.axial_N));
    expect(distance(ofLegs, jointForce(loads, "upper.outboard"))).toBeLessThan(1e-9);
    expect(front!.bending_Nmm).toBe(0);
  });

  it("an arm with the damper halfway out is bent there by its outboard joint's force across, times that half", () => {
    const loads = ride(wishbones(), [0, 0, 3000]);
    // the lower arm is level, 400 long; its damper pushes down at 200
    const up_N = -jointForce(loads, "lower.outboard")[2];
    agrees("bending", loads.members[1]!.sections[0]!.bending_Nmm, Math.abs(up_N) * 200, 6);
    const push = jointForce(loads, "damper.bottom");
    expect(up_N * 400 + push[2] * 200).toBeCloseTo(0, 6);
  });

  it("two bushes on a line share the thrust along it equally", () => {
    const loads = ride(wishbones(), [-3000, 0, 3000]);
    expect(jointForce(loads, "upper.front")[0]).toBeCloseTo(jointForce(loads, "upper.rear")[0], 9);
    const thrust = jointForce(loads, "upper.front")[0] + jointForce(loads, "upper.rear")[0];
    agrees("thrust", Math.abs(loads.members[0]!.thrust_N!), Math.abs(thrust), 9);
  });

  it("an arm in one piece with the hub is bent at a cut by its mount's force about it", () => {
    const members = [
      ball("arm", [430, 640, 330]),
      link("upper", [-20, 410, 425], [-20, 650, 430]),
      link("lower", [-70, 260, 200], [-70, 660, 205]),
    ];
    const cut: Vec3 = [250, 650, 320];
    const tube = { member: "arm", diameter_mm: 60, wall_mm: 4, material: "S355", cut };
    const scene = corner(members, wheel([0, 740, 300]), {
      damper: damper([-15, 548, 600], [-45, 600, 235]),
      loads: { ...WITH_MASS, tubes: [tube] },
    });
    const loads = ride(scene, [-2000, 500, 3000]);
    const force = jointForce(loads, "arm.at");
    const [section] = loads.members[0]!.sections;
    expect(section).toMatchObject({ name: "cut 1", axial_N: length(force) });
    agrees("bending", section!.bending_Nmm, length(cross(subtract([430, 640, 330], cut), force)), 6);
  });
});

describe("the anti-roll bar", () => {
  const antiRollBar = bar([-300, 350, 250], [0, 1, 0], [-100, 500, 250], [-100, 500, 150], "carrier");
  const scene = wishbones({ antiRollBar });
  const compiled = compileCorner(scene, "left");

  const pull = (roll_deg: number) => dropLink_N(compiled, compiled.ridePose, barTorque_Nmm(compiled, roll_deg));

  it("is as stiff as a straight solid rod between its pivots: G·J/L", () => {
    expect(barStiffness_Nmm(20, [-300, 350, 250])).toBeCloseTo((81_000 * Math.PI * 20 ** 4) / 32 / 700, 6);
  });

  it("does nothing without roll, and pushes down the wheel that roll pushes up", () => {
    expect(pull(0)).toBe(0);
    const up = pull(2);
    expect(up).toBeLessThan(0);
    expect(pull(-2)).toBeCloseTo(-up, 9);
    const { joints } = standCorner(compiled, compiled.ridePose)!.balance({
      force_N: [0, 0, 3000],
      torque: "carrier",
      dropLink_N: up,
    });
    const pickup = joints.find(({ id }) => id === "bar.pickup")!.force_N;
    expect(pickup[2]).toBeLessThan(0);
    expect(length(pickup)).toBeCloseTo(-up, 9);
  });

  it("balances the torque of its twist with the drop link's force at the arm's end", () => {
    const roll = 2;
    const rise = 740 * Math.tan((roll * Math.PI) / 180);
    // the arm is level and the link upright at ride height: its end rises nearly as the pickup does
    const pickupRise = (travel: number) => applyPose(solveCorner(compiled, travel).pose, antiRollBar.pickup)[2] - 150;
    const twist = (pickupRise(rise) - pickupRise(-rise)) / 200;
    const wanted = (barStiffness_Nmm(20, antiRollBar.pivot) * twist) / 200;
    expect(-pull(roll) / wanted).toBeCloseTo(1, 1);
    expect(dot(antiRollBar.axis, [0, 1, 0])).toBe(1);
  });
});
