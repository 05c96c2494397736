import { describe, expect, it } from "vitest";
import { makeCard } from "../../src/buildlog/make.ts";
import { runSides, type SideRun } from "../../src/check/tracks.ts";
import { runLoads } from "../../src/loads/runLoads.ts";
import { distance, dot, normalise, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { jointsStudy } from "../../src/studies/runningGear/joints.ts";
import { shaftStudy } from "../../src/studies/runningGear/shaft.ts";
import { springStudy } from "../../src/studies/runningGear/spring.ts";
import { travelEnds } from "../../src/studies/runningGear/travelEnds.ts";
import { smallScene } from "../app/smallScene.ts";
import { cardInput } from "../buildlog/fixture.ts";
import { checkDocument } from "../check/checkDocument.ts";
import { agrees, agreesEach, agreesOn, agreesWithin } from "./agreement.ts";
import {
  BOTTOM,
  CENTRE,
  FAR_FOOT,
  FOOT,
  INNER,
  OUTER,
  SWEPT,
  sweptGround,
  sweptPlace,
  sweptWay,
  TOP,
  WHEEL,
} from "./arms.ts";

const RAD = Math.PI / 180;
const GRAVITY = 9.80665;
const [BUMP, DROOP] = [70, 60];

// everything on one semi-trailing arm: a turn about its axis (arms.ts), so that each length and angle has a closed form
const damper = (travel_mm: number) => distance(sweptPlace(BOTTOM, travel_mm), TOP);
const ratio = (travel_mm: number) => -(damper(travel_mm + 1e-3) - damper(travel_mm - 1e-3)) / 2e-3;
const ratioRate = (travel_mm: number) => (ratio(travel_mm + 0.05) - ratio(travel_mm - 0.05)) / 0.1;
const shaft = (travel_mm: number) => subtract(sweptPlace(OUTER, travel_mm), INNER);
const shaft_mm = (travel_mm: number) => Math.hypot(...shaft(travel_mm));
const angle_deg = (a: Vec3, b: Vec3) => Math.acos(dot(normalise(a), normalise(b))) / RAD;
const inner_deg = (travel_mm: number) => angle_deg(shaft(travel_mm), [0, 1, 0]);
const outer_deg = (travel_mm: number) => angle_deg(shaft(travel_mm), sweptWay([0, 1, 0], travel_mm));
const swing_deg = (travel_mm: number) => Math.asin(travel_mm / (400 * SWEPT[1] + 150 * SWEPT[0])) / RAD;
/** A bolt 10° off the arm's axis. */
const OFF_rad = 10 * RAD;
const [RATE, FREE, OPEN, SPRUNG_kg] = [40, 280, 500, 260];

const document: SceneDocument = smallScene({
  sides: "left",
  members: [{ id: "swing", kind: "hinge", front: FOOT, rear: FAR_FOOT, body: null }],
  wheel: WHEEL,
  travel: { bump_mm: BUMP, droop_mm: DROOP, step_mm: 5 },
  damper: {
    top: TOP,
    bottom: BOTTOM,
    on: "carrier",
    closed_mm: 300,
    open_mm: OPEN,
    body_mm: 40,
    springRate_N_per_mm: RATE,
    springFree_mm: FREE,
  },
  driveshaft: {
    inner: INNER,
    innerAxis: [0, 1, 0],
    outer: OUTER,
    diameter_mm: 26,
    shortest_mm: 420,
    longest_mm: 445,
    bar_mm: 372,
    innerJoint: "universal",
    outerJoint: "universal",
  },
  joints: [
    {
      joint: "swing.front",
      kind: "bush",
      axis: [SWEPT[0] * Math.cos(OFF_rad), SWEPT[1] * Math.cos(OFF_rad), Math.sin(OFF_rad)],
      tilt_deg: 5,
    },
    { joint: "swing.rear", kind: "bush", axis: SWEPT, tilt_deg: 5, twist_deg: 20 },
  ],
  powertrain: { poses: [] },
  bodies: [],
  loads: { cornerMass_kg: 300, unsprung_kg: 300 - SPRUNG_kg },
});

function ran(of: SceneDocument): [Scene, SideRun] {
  const scene = resolveScene(of);
  return [scene, runSides(scene)[0]!];
}

describe("a semi-trailing arm in closed form", () => {
  it("has the curves of the check at every step", async () => {
    const { sides } = await checkDocument(document);
    expect(sides.left!.curve.length).toBe(27);
    for (const point of sides.left!.curve) {
      const z = point.travel_mm;
      const [x, y, up] = sweptWay([0, 1, 0], z);
      const ground = sweptGround(z);
      // Milliken and Milliken, chapter 17 (from memory): square to the ground point's way, at the car's middle
      const [above, below] = [sweptGround(z + 1e-3), sweptGround(z - 1e-3)];
      const slope = (above[1] - below[1]) / (above[2] - below[2]);
      const wanted = {
        toe_deg: Math.atan2(x, y) / RAD,
        camber_deg: -Math.asin(up) / RAD,
        halfTrack_mm: ground[1],
        wheelbaseShift_mm: sweptPlace(CENTRE, z)[0],
        rollCentre_mm: ground[1] * slope,
        damper_mm: damper(z),
        damperRatio: ratio(z),
        shaft_mm: shaft_mm(z),
        innerAngle_deg: inner_deg(z),
        outerAngle_deg: outer_deg(z),
      };
      agreesEach("curves", point, wanted, 2e-6);
    }
  });

  it("has damper, spring and wheel rate of the study at every step", () => {
    const study = springStudy(...ran(document));
    const rideForce = (SPRUNG_kg * GRAVITY) / ratio(0);
    for (const state of study.curve) {
      const z = state.travel_mm;
      const force = RATE * (FREE - (FREE - rideForce / RATE + damper(z) - damper(0)));
      const [ofSpring, ofRatio] = [RATE * ratio(z) ** 2, force * ratioRate(z)];
      agreesEach("springStudy", state, { damper_mm: damper(z), spring_mm: FREE - force / RATE }, 1e-5);
      agreesEach("springStudy", state, { ratio: ratio(z), ratioRate_per_mm: ratioRate(z) }, 1e-7);
      agreesEach("springStudy", state, { springForce_N: force, wheelForce_N: force * ratio(z) }, 1e-3);
      // Milliken and Milliken, Race Car Vehicle Dynamics, chapter 16 (from memory): K·IR² and F·dIR/dz
      const rates = { ofSpring_N_per_mm: ofSpring, ofRatio_N_per_mm: ofRatio, wheelRate_N_per_mm: ofSpring + ofRatio };
      agreesEach("springStudy", state, rates, 1e-4);
    }
    const pressed = rideForce / RATE;
    const rate = RATE * ratio(0) ** 2 + rideForce * ratioRate(0);
    agreesEach("springAtRide", study, { sprungMass_kg: SPRUNG_kg, staticLoad_N: 300 * GRAVITY }, 1e-9);
    agreesEach("springAtRide", study, { frequency_Hz: Math.sqrt((1000 * rate) / SPRUNG_kg) / (2 * Math.PI) }, 1e-6);
    const open = { pressedAtRide_mm: pressed, pressedOpen_mm: pressed - (OPEN - damper(0)) };
    agreesEach("springAtRide", study, open, 1e-5);
  });

  it("has the driveshaft's length, plunge and angles in every state, and its extremes", () => {
    const study = shaftStudy(...ran(document))!;
    for (const state of study.plot) {
      const z = state.at.travel_mm;
      const lengths = { shaft_mm: shaft_mm(z), plunge_mm: shaft_mm(z) - shaft_mm(0) };
      const angles = {
        innerAngle_deg: inner_deg(z),
        outerAngle_deg: outer_deg(z),
        difference_deg: inner_deg(z) - outer_deg(z),
      };
      agreesEach("shaftStudy", state, { ...lengths, ...angles }, 1e-6);
    }
    const dense = Array.from({ length: 13001 }, (_, i) => i / 100 - DROOP);
    const [least, most] = [Math.min(...dense.map(shaft_mm)), Math.max(...dense.map(shaft_mm))];
    for (const [{ value }, wanted] of [
      [study.shortest, least],
      [study.longest, most],
      [study.innerAngle, Math.max(...dense.map(inner_deg))],
      [study.outerAngle, Math.max(...dense.map(outer_deg))],
    ] as const)
      agreesWithin("shaftExtremes", value, wanted, 1e-4);
    // as much to spare at either end of a stroke of 25; 3 mm of spare at least
    const [from, to] = [most + 3 - 445, least - 3 - 420];
    const order = { used_mm: most - least, stroke_mm: 25, change_mm: (from + to) / 2, bar_mm: 372 + (from + to) / 2 };
    agreesEach("shaftToOrder", study.order, order, 1e-4);
    const ranges = { changeRange_mm: [from, to], barRange_mm: [372 + from, 372 + to] };
    agreesEach("shaftToOrder", study.order, ranges, 1e-4);
    const lag = (beta: number) => Math.atan((1 - Math.cos(beta * RAD)) / (2 * Math.sqrt(Math.cos(beta * RAD)))) / RAD;
    agreesEach("crossesLag", study.crosses!.lag_deg, { inner: lag(inner_deg(0)), outer: lag(outer_deg(0)) }, 1e-9);
  });

  it("tilts and twists its bushes: spherical cosine rule, and its swing", () => {
    const { joints } = jointsStudy(...ran(document));
    const [front, rear] = ["swing.front", "swing.rear"].map((id) => joints.find(({ joint }) => joint === id)!);
    const tilt = (z: number) => {
      const [s, c] = [Math.sin(OFF_rad), Math.cos(OFF_rad)];
      return Math.acos(c * c + s * s * Math.cos(swing_deg(z) * RAD)) / RAD;
    };
    agrees("jointStudy", front!.tilt_deg!.value, tilt(BUMP), 6);
    agrees("jointStudy", front!.tiltAtRide_deg, 0, 6);
    agrees("jointStudy", Math.abs(rear!.twist_deg!.value), swing_deg(BUMP), 6);
  });
});

it("a link between rod ends is left at ride what its lean leaves it: cos φ = cos limit / cos lean, at both ends", () => {
  const rodEnd = (joint: string) => ({ joint, kind: "rod end", axis: [0, 0, 1], tilt_deg: 13 }) as const;
  const small = smallScene({
    sides: "left",
    travel: { bump_mm: 0, droop_mm: 0, step_mm: 5 },
    joints: [rodEnd("toe.inboard"), rodEnd("toe.outboard")],
  });
  const [link] = jointsStudy(...ran(small)).links;
  // from −150/330/225 to −150/670/230, its bolts upright
  const lean = Math.asin(5 / Math.hypot(340, 5));
  agrees("linkStudy", link!.room_deg, (2 * Math.acos(Math.cos(13 * RAD) / Math.cos(lean))) / RAD, 6);
});

it("a trailing arm of 150 mm binds upright, and nothing is looked for beyond", async () => {
  const short = smallScene({
    sides: "left",
    members: [{ id: "swing", kind: "hinge", front: [150, 600, 300], rear: [150, 300, 300], body: null }],
    wheel: WHEEL,
    travel: { bump_mm: 160, droop_mm: 160, step_mm: 5 },
    powertrain: { poses: [] },
    bodies: [],
  });
  const { sides, limits } = await checkDocument(short);
  agreesWithin("bindsInCheck", sides.left!.bindsAt_mm, 150, 0.01);
  const [binds] = limits.filter(({ what }) => what === "binds");
  agreesWithin("limit binds", binds!.value, 150, 0.01);
  agreesOn("limit binds", binds!.verdict, "clash");
  const [card] = makeCard(cardInput({ result: await checkDocument(short), scene: resolveScene(short) })).wheels;
  agreesWithin("bindsInCheck", card!.bindsAt_mm, 150, 0.01);
  const loaded = { damper: { ...document.damper!, top: [-60, 560, 740] as Vec3, open_mm: 700 }, loads: document.loads };
  const [side] = runLoads(resolveScene({ ...short, ...loaded })).sides;
  agreesWithin("bindsInCheck", side!.bindsAt_mm, 150, 0.01);
  agreesEach("lookedThrough", travelEnds(resolveScene(short), "left"), { lookedFrom_mm: -150, lookedTo_mm: 150 }, 0.01);
});
