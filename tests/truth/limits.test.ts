import { beforeAll, describe, expect, it } from "vitest";
import { digestOf } from "../../src/buildlog/digest.ts";
import { makeCard } from "../../src/buildlog/make.ts";
import type { CheckResult, LimitName } from "../../src/check/result.ts";
import { runCheck } from "../../src/cli/checkVerb.ts";
import { distance, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { smallScene } from "../app/smallScene.ts";
import { cardInput } from "../buildlog/fixture.ts";
import { checkDocument, pairOf } from "../check/checkDocument.ts";
import { agreesOn, agreesWithin } from "./agreement.ts";
import { ARM_mm, BOTTOM, CENTRE, INNER, OUTER, PIVOT, rootBetween, swung, TOP } from "./arms.ts";
import { terminal, toldAt } from "./verbs.ts";

const { says } = terminal();
const RAD = Math.PI / 180;
const [BUMP, DROOP] = [70, 60];
/** A ball of 60 mm on the hub under a block whose underside lies level. */
const [BALL, RADIUS_mm, UNDERSIDE_mm]: [Vec3, number, number] = [[-40, 640, 420], 30, 490];

/** Another that comes to 0.5 mm under it at full bump. */
const LOW: Vec3 = [-40, 580, lowestUnder(UNDERSIDE_mm - RADIUS_mm - 0.5)];

/** How high a place 40 behind the wheel centre must be drawn to stand so high at full bump. */
function lowestUnder(up_mm: number): number {
  return rootBetween(300, 500, (z) => swung([-40, 580, z], BUMP)[2] - up_mm);
}

// everything on a trailing arm of 450 mm that turns about a crosswise line: lengths and angles in closed form (arms.ts)
const damper = (travel_mm: number) => distance(swung(BOTTOM, travel_mm), TOP);
const shaft = (travel_mm: number) => distance(swung(OUTER, travel_mm), INNER);
/** Both joints' axes lie crosswise at any travel. */
const shaftAngle = (travel_mm: number) => Math.acos((OUTER[1] - INNER[1]) / shaft(travel_mm)) / RAD;
const swing = (travel_mm: number) => Math.asin(Math.abs(travel_mm) / ARM_mm) / RAD;
/** A bush on the arm's axis, its bolt 10° off that: cos tilt = cos² 10° + sin² 10° · cos of the swing (spherical cosine rule). */
const OFF_deg = 10;
const tilt = (travel_mm: number) => {
  const [s, c] = [Math.sin(OFF_deg * RAD), Math.cos(OFF_deg * RAD)];
  return Math.acos(c * c + s * s * Math.cos(swing(travel_mm) * RAD)) / RAD;
};
/** The spring is so much shorter than the damper between its eyes. */
const SHORTER_mm = 150;

interface Wanted {
  readonly what: Exclude<LimitName, "binds">;
  /** What is held against the limit, by travel. */
  of(travel_mm: number): number;
  readonly limit: number;
  /** The end of the travel at which it is worst. */
  readonly worstAt: number;
}

const WANTED: readonly Wanted[] = [
  { what: "damper-length", of: damper, limit: damper(BUMP - 6), worstAt: BUMP },
  { what: "stop", of: damper, limit: damper(BUMP - 20), worstAt: BUMP },
  { what: "strap", of: damper, limit: damper(12 - DROOP), worstAt: -DROOP },
  {
    what: "coil-bind",
    of: (travel_mm) => damper(travel_mm) - SHORTER_mm,
    limit: damper(50) - SHORTER_mm,
    worstAt: BUMP,
  },
  { what: "shaft-length", of: shaft, limit: shaft(7 - DROOP), worstAt: -DROOP },
  { what: "inner-angle", of: shaftAngle, limit: shaftAngle(10 - DROOP), worstAt: -DROOP },
  { what: "outer-angle", of: shaftAngle, limit: shaftAngle(20 - DROOP), worstAt: -DROOP },
  { what: "joint-tilt", of: tilt, limit: tilt(60), worstAt: BUMP },
  { what: "joint-twist", of: swing, limit: swing(55), worstAt: BUMP },
];

describe("limits on a trailing arm", () => {
  let document: SceneDocument;
  let result: CheckResult;
  beforeAll(async () => {
    const limit = (what: LimitName) => WANTED.find((wanted) => wanted.what === what)!.limit;
    document = smallScene({
      sides: "left",
      members: [{ id: "swing", kind: "hinge", front: PIVOT, rear: [450, 300, 300], body: null }],
      wheel: { centre: CENTRE, tyre: "205/55R16", rimWidth_in: 7, rimOffset_mm: 42, toe_deg: 0, camber_deg: 0 },
      travel: { bump_mm: BUMP, droop_mm: DROOP, step_mm: 5 },
      damper: {
        top: TOP,
        bottom: BOTTOM,
        on: "carrier",
        closed_mm: limit("damper-length"),
        open_mm: 600,
        body_mm: 40,
        stopSolid_mm: limit("stop"),
        strapTight_mm: limit("strap"),
        springAtRide_mm: damper(0) - SHORTER_mm,
        springSolid_mm: limit("coil-bind"),
      },
      driveshaft: {
        inner: INNER,
        innerAxis: [0, 1, 0],
        outer: OUTER,
        diameter_mm: 26,
        shortest_mm: 300,
        longest_mm: limit("shaft-length"),
        innerAngleLimit_deg: limit("inner-angle"),
        outerAngleLimit_deg: limit("outer-angle"),
      },
      joints: [
        {
          joint: "swing.front",
          kind: "bush",
          axis: [Math.sin(OFF_deg * RAD), Math.cos(OFF_deg * RAD), 0],
          tilt_deg: limit("joint-tilt"),
        },
        { joint: "swing.rear", kind: "bush", axis: [0, 1, 0], tilt_deg: 5, twist_deg: limit("joint-twist") },
      ],
      powertrain: { poses: [] },
      bodies: [
        { id: "low", on: "carrier", shape: { kind: "sphere", at: LOW, diameter_mm: 2 * RADIUS_mm } },
        { id: "ball", on: "carrier", shape: { kind: "sphere", at: BALL, diameter_mm: 2 * RADIUS_mm } },
        {
          id: "block",
          on: "chassis",
          shape: { kind: "box", size_mm: [200, 200, 40], at: [-20, 640, UNDERSIDE_mm + 20] },
        },
      ],
      tessellation_mm: 0.02,
      clearances: { default_mm: 1 },
    });
    result = await checkDocument(document);
  }, 120_000);

  it.each(WANTED)(
    "$what is worst where its closed form is, and passed where that says",
    ({ what, of, limit, worstAt }) => {
      const found = result.limits.find((one) => one.what === what && Math.abs(one.limit - limit) < 1e-6)!;
      expect(found.verdict).toBe("clash");
      agreesOn(`limit ${what}`, found.at.travel_mm, worstAt);
      agreesWithin(`limit ${what}`, found.value, of(worstAt), 1e-6);
      const passed = rootBetween(0, worstAt, (travel_mm) => of(travel_mm) - limit);
      agreesWithin("limitPassed", found.passedAt_mm, passed, 0.002);
    },
  );

  it("touch of a ball on the hub and a level block begins where its top reaches that (closed form)", () => {
    const { clashTravel_mm, clearance_mm, at, byPose, profile, partingOfA, verdict } = pairOf(result, "ball", "block");
    const top = (travel_mm: number) => swung(BALL, travel_mm)[2] + RADIUS_mm;
    const touches = rootBetween(-DROOP, BUMP, (travel_mm) => top(travel_mm) - UNDERSIDE_mm);
    expect(clashTravel_mm).toHaveLength(1);
    // told to 0.1 mm, of surfaces that stand up to 0.02 mm outside the true ones
    agreesWithin("clashTravel", clashTravel_mm[0]![0], touches, 0.15);
    agreesWithin("clashTravel", clashTravel_mm[0]![1], BUMP, 1e-9);
    agreesWithin("sweptClearance", clearance_mm, UNDERSIDE_mm - top(BUMP), 0.05);
    agreesWithin("sweptClearance", byPose.rest, UNDERSIDE_mm - top(BUMP), 0.05);
    for (const [travel_mm, told] of profile) agreesWithin("sweptClearance", told, UNDERSIDE_mm - top(travel_mm), 0.1);
    expect(at).toEqual({ travel_mm: BUMP, pose: "rest" });
    // down out of the block, the shortest way
    for (const [k, part] of [0, 0, -1].entries()) agreesWithin("toldParting", partingOfA[k], part, 0.01);
    expect(verdict).toBe("clash");
  });

  it("nearest places of a ball that stays 0.5 mm under the block are its top and the place over it (closed form)", () => {
    const { clearance_mm, pointA, pointB, verdict } = pairOf(result, "block", "low");
    const top = swung(LOW, BUMP);
    agreesWithin("sweptClearance", clearance_mm, UNDERSIDE_mm - top[2] - RADIUS_mm, 0.05);
    for (const k of [0, 1] as const) {
      agreesWithin("toldPoints", pointA[k], top[k], 1.5);
      agreesWithin("toldPoints", pointB[k], top[k], 1.5);
    }
    agreesWithin("toldPoints", pointA[2], UNDERSIDE_mm, 0.05);
    agreesWithin("toldPoints", pointB[2], top[2] + RADIUS_mm, 0.05);
    agreesOn("verdictOfClearance", verdict, clearance_mm < 1 ? "tight" : "clear");
    expect(clearance_mm).toBeGreaterThan(0.3);
  });

  it("tells a card's list the same: the value of the limit, the clearance of the pair (closed form)", () => {
    const found = digestOf(makeCard(cardInput({ result }))).findings.map(({ of }) => of);
    const strap = found.find((one) => one.kind === "limit" && one.what === "strap");
    if (strap?.kind !== "limit") throw new Error("no strap");
    agreesWithin("cardFinds", strap.value, damper(-DROOP), 1e-6);
    const touch = found.find((one) => one.kind === "pair" && one.a === "ball");
    if (touch?.kind !== "pair") throw new Error("no touch");
    agreesWithin("cardFinds", touch.clearance_mm, UNDERSIDE_mm - swung(BALL, BUMP)[2] - RADIUS_mm, 0.05);
  });

  it("counts its verdicts as anybody would who goes through them", async () => {
    const written = (await says(runCheck, document)) as {
      pairs: { verdict: string; clearance_mm: number; required_mm: number }[];
    };
    const count = (wanted: string) => written.pairs.filter(({ verdict }) => verdict === wanted).length;
    agreesOn("summary", toldAt(written, "checkVerb.summary.clash"), [count("clash")]);
    agreesOn("summary", toldAt(written, "checkVerb.summary.tight"), [count("tight")]);
    agreesOn("summary", toldAt(written, "checkVerb.summary.clear"), [count("clear")]);
    agreesOn("summary", toldAt(written, "checkVerb.summary.accepted"), [count("accepted")]);
    expect(count("clash")).toBeGreaterThan(0);
    // each pair's verdict is that of its clearance: clash below 0, tight below what is required, clear from there
    for (const { verdict, clearance_mm, required_mm } of result.pairs) {
      agreesOn(
        "verdictOfClearance",
        [clearance_mm, verdict],
        [clearance_mm, clearance_mm < 0 ? "clash" : clearance_mm < required_mm ? "tight" : "clear"],
      );
    }
  });
});
