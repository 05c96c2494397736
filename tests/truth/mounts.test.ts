import { describe, expect, it } from "vitest";
import { distance, type Vec3 } from "../../src/maths/vec3.ts";
import { withMeasured } from "../../src/scene/measured.ts";
import { judgeAsBuilt } from "../../src/studies/asBuilt/asBuilt.ts";
import { rehearseWeldPull } from "../../src/studies/asBuilt/weldPull.ts";
import { correctMount } from "../../src/studies/jig/inverse.ts";
import { planJig } from "../../src/studies/jig/jig.ts";
import { PlaceGrid } from "../../src/studies/room/region.ts";
import { FREE, mapRoom } from "../../src/studies/room/room.ts";
import { question, studyCorner } from "../studies/studyCorner.ts";
import { agrees, agreesOn, agreesWithin } from "./agreement.ts";

const RAD = Math.PI / 180;
/** Two level lateral links on one upright line, the hub's pivot so far before it: a mm outboard steers by −asin(1/450). */
const BEFORE_mm = 450;
const steer_deg = (out_mm: number) => -Math.asin(out_mm / BEFORE_mm) / RAD;

const planar = studyCorner({
  sides: "both",
  bodies: [],
  points: { pivot: [BEFORE_mm, 640, 300], a: [0, 300, 420], b: [0, 300, 200] },
  members: [
    { id: "arm", kind: "ball", at: "pivot" },
    { id: "upper", kind: "link", inboard: "a", outboard: [0, 660, 420] },
    { id: "lower", kind: "link", inboard: "b", outboard: [0, 660, 200] },
  ],
  wheel: { centre: [0, 740, 300], tyre: "205/55R16", rimWidth_in: 7, rimOffset_mm: 42, toe_deg: 0, camber_deg: 0 },
});

describe("a pivot 450 mm before two level lateral links (closed form)", () => {
  it("may be off sideways by what steers as much as is allowed", () => {
    const { mounts } = planJig({
      document: planar,
      meshFiles: new Map(),
      toeWithin_deg: 0.1,
      camberWithin_deg: 0.25,
      accuracy_mm: 1,
      tolerance_mm: {},
      samples: 1,
      seed: 1,
      withClearances: false,
    });
    const { within_mm, closest_mm } = mounts.find(({ point }) => point === "pivot")!;
    // by the derivative: 450 mm times the allowed angle
    agrees("mountWithin", within_mm.out, BEFORE_mm * 0.1 * RAD, 5);
    agrees("mountWithin", closest_mm, BEFORE_mm * 0.1 * RAD, 5);
  });

  it("steers its wheel, and half of that the car, where it was welded aside", () => {
    for (const out_mm of [-2, 1, 3]) {
      const document = withMeasured(planar, "left", "pivot", { at: [BEFORE_mm, 640 + out_mm, 300] });
      const { sides, thrust_deg } = judgeAsBuilt(document, new Map(), "planar");
      // as the hub turns its links swing a little: second order
      agreesWithin("builtAngles", sides.left!.toe_deg, steer_deg(out_mm), 1e-4);
      agreesWithin("builtAngles", sides.left!.toeError_deg, steer_deg(out_mm), 1e-4);
      agreesWithin("builtAngles", sides.left!.camber_deg, 0, 1e-4);
      agreesWithin("builtAngles", sides.right!.toe_deg, 0, 1e-9);
      agreesWithin("thrustAngle", thrust_deg, steer_deg(out_mm) / 2, 1e-4);
    }
  });

  it("must go where it steers by so much", () => {
    const found = correctMount(planar, "pivot", { toe_deg: 0.2 })!;
    agreesWithin("mountCorrection", found.toe_deg, 0.2, 1e-6);
    agreesWithin("mountCorrection", steer_deg(found.by[1]), 0.2, 1e-4);
    expect(Math.hypot(found.by[0], found.by[2])).toBeLessThan(0.05);
  });

  it("is pulled by welding to either side of where it was, as far as is told", () => {
    const { cases } = rehearseWeldPull({
      document: planar,
      pull_mm: { pivot: 1.5 },
      means: [],
      toeWithin_deg: 0.05,
      camberWithin_deg: 0.15,
    });
    for (const [worst, sign] of [
      ["toe-in", -1],
      ["toe-out", 1],
    ] as const) {
      const found = cases.find((one) => one.worst === worst)!;
      agreesWithin("weldPull", found.toe_deg, steer_deg(sign * 1.5), 1e-4);
      agreesWithin("weldPull", steer_deg(found.pulled[0]!.by[1]), steer_deg(sign * 1.5), 1e-4);
    }
  });
});

describe("the room map of a ball that follows a hard point, beside one on the hub (closed form)", () => {
  const [PEG, KNOB, DIAMETER_mm, REQUIRED_mm]: [Vec3, Vec3, number, number] = [[0, 368, 545], [0, 300, 540], 40, 10];
  const ball = (id: string, on: string, at: Vec3 | { from: string; by: Vec3 }) =>
    ({ id, on, shape: { kind: "sphere", at, diameter_mm: DIAMETER_mm } }) as const;
  const document = {
    ...planar,
    sides: "left" as const,
    travel: { bump_mm: 0, droop_mm: 0, step_mm: 5 },
    bodies: [ball("knob", "chassis", { from: "a", by: [0, 0, 120] }), ball("peg", "carrier", PEG)],
    tessellation_mm: 0.05,
    clearances: { default_mm: REQUIRED_mm },
  };

  it("tells at every place what is left beyond the wanted gap, and refuses those that leave none", () => {
    const region = {
      spans: [
        { along: [0, 1, 0] as Vec3, from_mm: -10, to_mm: 25 },
        { along: [0, 0, 1] as Vec3, from_mm: -10, to_mm: 10 },
      ],
      step_mm: 5,
    };
    const map = mapRoom({ ...question(document, { points: ["a"] }), region });
    const grid = new PlaceGrid(region);
    let [free, refused] = [0, 0];
    for (const place of map.reason.keys()) {
      const [x, y, z] = grid.offsetOf(place);
      const margin = distance(PEG, [KNOB[0] + x, KNOB[1] + y, KNOB[2] + z]) - DIAMETER_mm - REQUIRED_mm;
      // balls are drawn up to 0.05 mm outside the true ones
      if (Math.abs(margin) < 0.2) continue;
      agreesOn("roomPlaces", map.reason[place] === FREE, margin > 0);
      if (margin > 0) free++;
      else refused++;
      if (margin > 0 && margin < map.marginUpTo_mm - 0.2) {
        agreesWithin("roomMargin", map.margin_mm[place], margin, 0.15);
      }
    }
    expect(Math.min(free, refused)).toBeGreaterThan(4);
  });
});
