import { describe, expect, it } from "vitest";
import { runAsBuilt } from "../../src/cli/asBuiltVerb.ts";
import { runJig } from "../../src/cli/jigVerb.ts";
import { runLoadsVerb } from "../../src/cli/loadsVerb.ts";
import { runRoom } from "../../src/cli/roomVerb.ts";
import { runTogether } from "../../src/cli/togetherVerb.ts";
import { distance, length, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { withMeasured } from "../../src/scene/measured.ts";
import { judgeAsBuilt } from "../../src/studies/asBuilt/asBuilt.ts";
import { rehearseWeldPull } from "../../src/studies/asBuilt/weldPull.ts";
import { fullCheck } from "../../src/studies/fullCheck.ts";
import { correctMount } from "../../src/studies/jig/inverse.ts";
import { planJig } from "../../src/studies/jig/jig.ts";
import { findMoves } from "../../src/studies/moves/moves.ts";
import { priceOf } from "../../src/studies/price.ts";
import { PlaceGrid } from "../../src/studies/room/region.ts";
import { FREE, mapRoom } from "../../src/studies/room/room.ts";
import { toldRoom } from "../../src/studies/room/told.ts";
import { judgeTogether } from "../../src/studies/together/together.ts";
import { loadedScene } from "../app/loads/loadedScene.ts";
import { smallScene } from "../app/smallScene.ts";
import { question, studyCorner } from "../studies/studyCorner.ts";
import { agrees, agreesEach, agreesOn, agreesWithin } from "./agreement.ts";
import { PIVOT, swung, WHEEL } from "./arms.ts";
import { terminal, toldAt } from "./verbs.ts";

const { says } = terminal();
const RAD = Math.PI / 180;
const ball = (id: string, on: string, at: Vec3 | { from: string; by: Vec3 }, diameter_mm = 40) =>
  ({ id, on, shape: { kind: "sphere", at, diameter_mm } }) as const;

/** Two level lateral links on one upright line, the hub's pivot so far before it: a mm outboard steers by −asin(1/450). */
const BEFORE_mm = 450;
const steer_deg = (out_mm: number) => -Math.asin(out_mm / BEFORE_mm) / RAD;
const planar: SceneDocument = studyCorner({
  sides: "both",
  bodies: [],
  points: { pivot: [BEFORE_mm, 640, 300], a: [0, 300, 420], b: [0, 300, 200] },
  members: [
    { id: "arm", kind: "ball", at: "pivot", body: null },
    { id: "upper", kind: "link", inboard: "a", outboard: [0, 660, 420], body: null },
    { id: "lower", kind: "link", inboard: "b", outboard: [0, 660, 200], body: null },
  ],
  wheel: WHEEL,
});
/** Of its left corner at ride height alone. */
const still = (more: Partial<SceneDocument>): SceneDocument => {
  const { driveshaft: _, ...rest } = planar;
  return {
    ...rest,
    sides: "left",
    travel: { bump_mm: 0, droop_mm: 0, step_mm: 5 },
    powertrain: { poses: [] },
    tessellation_mm: 0.05,
    ...more,
  };
};

describe("a pivot 450 mm before two level lateral links (closed form)", () => {
  const jig = (document: SceneDocument, samples: number, withClearances: boolean) =>
    planJig({
      document,
      meshFiles: new Map(),
      toeWithin_deg: 0.05,
      camberWithin_deg: 0.25,
      accuracy_mm: 1,
      tolerance_mm: { pivot: 1, a: 0, b: 0 },
      samples,
      seed: 5,
      withClearances,
    });

  it("spreads the toe by its one tolerance of 1 mm: evenly drawn, so that nine tenths lie within nine tenths of it", () => {
    const { angles, shareWithin, notTogether } = jig(still({}), 2000, false);
    const most = Math.asin(1 / BEFORE_mm) / RAD;
    agreesEach("oneTolerance", angles.toe_deg, { worst: most, rootSumSquares: most }, 1e-5);
    // 2000 draws: a share of 5 % is known to 0.5 %, a half to 1.1 %
    agreesEach("drawnTolerance", angles.toe_deg, { sampled: [-most, -0.9 * most, 0, 0.9 * most, most] }, 0.05 * most);
    agreesWithin("shareWithin", shareWithin, 0.05 / most, 0.05);
    agreesOn("notTogether", notTogether, 0);
  });

  it("spreads the gap of a ball halfway along by half of it", () => {
    const bodies = [ball("peg", "carrier", [225, 660, 560]), ball("knob", "chassis", [225, 660 + 40 + 12, 560])];
    const { clearances } = jig(still({ bodies, clearances: { default_mm: 10 } }), 600, true);
    const found = clearances.find(({ a, b }) => [a, b].includes("peg") && [a, b].includes("knob"))!;
    agreesWithin("gapSpread", found.clearance_mm, 12, 0.11);
    agreesWithin("gapSpread", found.worst_mm, 0.5, 0.02);
    agreesWithin("gapSpread", found.rootSumSquares_mm, 0.5, 0.02);
    for (const [i, wanted] of [11.5, 11.55, 12, 12.45, 12.5].entries())
      agreesWithin("gapSpread", found.sampled_mm[i], wanted, 0.17);
  });

  it("is told by the terminal: 450 mm times the allowed angle sideways, and by slanted links fore and aft and up", async () => {
    const written = await says(runJig, still({}), { "toe-within": "0.05", samples: "5" });
    const mounts = (written as { mounts: { point: string }[] }).mounts.filter(({ point }) => point === "pivot");
    agrees("toldWithinMount", toldAt({ mounts }, "jigVerb.mounts.within_mm.out")[0], BEFORE_mm * 0.05 * RAD, 5);
    const slanted = async (x_mm: number, inboard: { x_mm: number; z_mm: number }) => {
      const links = [420, 200].map((z, i) => ({
        id: ["upper", "lower"][i]!,
        kind: "link" as const,
        inboard: [inboard.x_mm, 300, z + inboard.z_mm] as Vec3,
        outboard: [x_mm, 660, z] as Vec3,
        body: null,
      }));
      const scene = still({ members: [planar.members[0]!, ...links], points: { pivot: planar.points.pivot! } });
      const told = (await says(runJig, scene, { "toe-within": "0.05", samples: "5" })) as typeof written;
      return { mounts: (told as { mounts: { point: string }[] }).mounts.filter(({ point }) => point === "pivot") };
    };
    // Long links hold the hub along themselves only. Slanted by 30° in plan, of d forward d·sin 30° is to be made up for by the hub's
    // turn about its pivot, 450 mm before and 20 mm inboard of the links.
    const plan = await slanted(0, { x_mm: -360 * Math.tan(30 * RAD), z_mm: 0 });
    const lever_mm = (450 * Math.cos(30 * RAD) + 20 * Math.sin(30 * RAD)) / Math.sin(30 * RAD);
    agreesWithin("slantedMount", toldAt(plan, "jigVerb.mounts.within_mm.forward")[0], lever_mm * 0.05 * RAD, 0.002);
    // 200 mm behind the wheel's centre and slanted by 30° as seen from behind: of d up the hub tips by d / 450, which lifts the links'
    // ends by 200 d / 450; what slides them sideways turns the hub over 650 mm.
    const behind = await slanted(-200, { x_mm: -200, z_mm: -360 * Math.tan(30 * RAD) });
    const up_mm = (450 * 650) / (200 * Math.tan(30 * RAD));
    agreesWithin("slantedMount", toldAt(behind, "jigVerb.mounts.within_mm.up")[0], up_mm * 0.05 * RAD, 0.01);
  });

  it("keeps its camber whatever is done sideways", () => {
    const built = judgeAsBuilt(
      withMeasured(planar, "left", "pivot", { at: [BEFORE_mm, 642, 300] }),
      new Map(),
      "planar",
    );
    agreesEach("builtCamber", built.sides.left!, { camber_deg: 0, camberError_deg: 0 }, 1e-4);
    agreesWithin("correctedCamber", correctMount(planar, "pivot", { toe_deg: 0.2 })!.camber_deg, 0, 1e-3);
    const pulls = { document: planar, pull_mm: { pivot: 1.5 }, means: [], toeWithin_deg: 0.05, camberWithin_deg: 0.15 };
    for (const { camber_deg, worst } of rehearseWeldPull(pulls).cases)
      if (worst.startsWith("toe")) agreesWithin("pulledCamber", camber_deg, 0, 1e-3);
  });

  it("is brought back by a slot as far as it was welded off: thrust half its steer before, none after", async () => {
    const welded = withMeasured(planar, "left", "pivot", { at: [BEFORE_mm, 642, 300] });
    const slot = { kind: "slot", point: "pivot", along: "out", from_mm: -5, to_mm: 5, step_mm: 1 } as const;
    const within = { means: [slot], toeWithin_deg: 0.05, camberWithin_deg: 0.1 };
    const { sides, thrust_deg, thrustAfter_deg } = judgeAsBuilt(welded, new Map(), "planar", undefined, within);
    agreesWithin("slotThrust", thrust_deg, steer_deg(2) / 2, 1e-4);
    agreesWithin("slotThrust", thrustAfter_deg, 0, 1e-4);
    const { recovery } = sides.left!;
    agreesEach("slotAngles", recovery!, { toe_deg: 0, camber_deg: 0 }, 1e-4);
    agreesEach("slotSetting", recovery!.settings[0]!, { by_mm: -2 }, 1e-9);
    const written = await says(runAsBuilt, welded, { slot: ["pivot=out:-5:5:1"], "toe-within": "0.05" });
    agreesWithin("toldThrust", toldAt(written, "asBuiltVerb.thrust_deg")[0], steer_deg(2) / 2, 1e-4);
    agreesWithin("toldThrust", toldAt(written, "asBuiltVerb.thrustAfter_deg")[0], 0, 1e-4);
  });
});

describe("balls beside each other (closed form)", () => {
  const [PEG, KNOB]: Vec3[] = [
    [-60, 560, 520],
    [-60, 530, 530],
  ];
  const document = still({
    points: { ...planar.points, k: KNOB! },
    members: planar.members,
    bodies: [ball("knob", "chassis", { from: "a", by: subtract(KNOB!, [0, 300, 420]) }), ball("peg", "carrier", PEG!)],
    clearances: { default_mm: 10 },
  });

  it("are cleared by the shortest move of one: straight away from the other until the gap is there", () => {
    const request = {
      meshFiles: new Map(),
      points: ["a"],
      fits: ["cut" as const],
      limits: {},
      travelStep_mm: 10,
      proved: 0,
    };
    const { moves } = findMoves({ document, pair: "knob/peg", within_mm: 30, ...request });
    const apart = subtract(KNOB!, PEG!);
    const way_mm = 50 - length(apart);
    const free = moves.find(({ kind }) => kind === "free")!;
    agreesWithin("shortestMove", free.way_mm, way_mm, 0.6);
    const by = scale(normalise(apart), way_mm);
    for (const k of [0, 1, 2] as const) agreesWithin("shortestMoveBy", free.moves[0]!.by[k], by[k], 3);
    agreesWithin("shortestMove", length(free.moves[0]!.by), way_mm, 0.6);
    // and there they are as far apart as is wanted
    agreesWithin(
      "shortestMoveBy",
      distance(
        [KNOB![0] + free.moves[0]!.by[0], KNOB![1] + free.moves[0]!.by[1], KNOB![2] + free.moves[0]!.by[2]],
        PEG!,
      ),
      50,
      0.6,
    );
  });

  it("are told at a place as they were and as they are there", async () => {
    const by: Vec3 = [0, -15, 5];
    const [was, is] = [
      length(subtract(KNOB!, PEG!)) - 40,
      distance([KNOB![0], KNOB![1] + by[1], KNOB![2] + by[2]], PEG!) - 40,
    ];
    const written = await says(runRoom, document, { point: ["a"], place: by.join() });
    const pairs = (written as { pairs: { a: string; b: string }[] }).pairs.filter(
      ({ a, b }) => a === "knob" && b === "peg",
    );
    agreesWithin("toldPlace", toldAt({ pairs }, "roomVerb.pairs.clearance_mm")[0], is, 0.11);
    agreesWithin("toldPlace", toldAt({ pairs }, "roomVerb.pairs.before_mm")[0], was, 0.2);
    const moved = { ...document, points: { ...document.points, a: [by[0], 300 + by[1], 420 + by[2]] as Vec3 } };
    const { open } = priceOf(fullCheck(document, new Map(), "before"), fullCheck(moved, new Map(), "after"));
    const [price] = open.filter(({ a, b }) => a === "knob" && b === "peg");
    agreesEach("pricedPair", price!, { before_mm: was, after_mm: is }, 0.2);
  });

  it("make the room map: margin, pair and state at every place, in the file as in the map", () => {
    const region = {
      spans: [
        { along: [0, 1, 0] as Vec3, from_mm: -40, to_mm: 0 },
        { along: [0, 0, 1] as Vec3, from_mm: -10, to_mm: 20 },
      ],
      step_mm: 10,
    };
    const told = toldRoom(mapRoom({ ...question(document, { points: ["a"] }), region }), "balls");
    const grid = new PlaceGrid(region);
    let [free, refused] = [0, 0];
    for (const [place, reason] of told.reason.entries()) {
      const [x, y, z] = grid.offsetOf(place);
      const margin = distance(PEG!, [KNOB![0] + x, KNOB![1] + y, KNOB![2] + z]) - 50;
      if (Math.abs(margin) < 0.3) continue;
      agreesOn("toldPlaces", [told.reason[place]! === FREE, reason === FREE], [margin > 0, margin > 0]);
      if (margin > 0) {
        free++;
        if (margin < told.marginUpTo_mm - 0.3) agreesWithin("toldMargin", told.margin_mm[place], margin, 0.2);
        continue;
      }
      refused++;
      const why = told.reasons[reason]!;
      expect(why).toMatchObject({ kind: "clearance", a: "knob", b: "peg" });
      agreesOn("toldPair", told.reasons[told.pair[place]!], why);
      agreesOn("toldState", told.states[told.state[place]!], { travel_mm: 0, pose: "rest" });
    }
    expect(Math.min(free, refused)).toBeGreaterThan(3);
  });
});

it("a place refused by a rod end tells how far that would lean: asin of the rise over the length (closed form)", () => {
  const joints = [{ joint: "upper.inboard", kind: "rod end" as const, axis: [0, 0, 1] as Vec3, tilt_deg: 1.2 }];
  const region = { spans: [{ along: [0, 0, 1] as Vec3, from_mm: 0, to_mm: 30 }], step_mm: 10 };
  const map = mapRoom({ ...question(still({ joints }), { points: ["a"], fit: "cut" }), region });
  const told = toldRoom(map, "lean");
  expect(told.reason[0]).toBe(FREE);
  // outboard end at 660/420, 360 from the drawn mount
  for (const place of [1, 2, 3]) {
    agreesWithin("toldValue", told.value[place], Math.asin((10 * place) / Math.hypot(360, 10 * place)) / RAD, 1e-6);
    expect(told.reasons[told.reason[place]!]).toMatchObject({ kind: "limit" });
  }
});

describe("a block on the powertrain that comes down in a pose of its own, over a ball on a trailing arm (closed form)", () => {
  const [BALL, UNDERSIDE_mm, DOWN_mm, TO_mm]: [Vec3, number, number, number] = [[-40, 540, 420], 497, 12, 20];
  const top = (travel_mm: number) => swung(BALL, travel_mm)[2] + 30;
  const document = smallScene({
    sides: "left",
    members: [{ id: "swing", kind: "hinge", front: PIVOT, rear: [450, 300, 300], body: null }],
    wheel: WHEEL,
    travel: { bump_mm: 40, droop_mm: 30, step_mm: 5 },
    powertrain: {
      poses: [
        {
          id: "low",
          about: [0, 0, 0],
          axis: [0, 1, 0],
          angle_deg: 0,
          shift_mm: [0, 0, -DOWN_mm],
          within_mm: [-30, TO_mm],
        },
      ],
    },
    bodies: [
      ball("ball", "carrier", BALL, 60),
      {
        id: "block",
        on: "powertrain",
        shape: { kind: "box", size_mm: [200, 60, 40], at: [-20, 540, UNDERSIDE_mm + 20] },
      },
    ],
    tessellation_mm: 0.02,
    clearances: { default_mm: 5 },
  });
  // full bump at rest against the band's end lowered
  const mustClear = Math.min(UNDERSIDE_mm - top(40), UNDERSIDE_mm - DOWN_mm - top(TO_mm));

  it("tells what cannot be and what must clear", async () => {
    const { cannotHappen } = judgeTogether(document, new Map(), "band");
    const told = cannotHappen.find(({ what }) => what === "ball/block" || what === "block/ball")!;
    agreesWithin("cannotBe", told.value, UNDERSIDE_mm - DOWN_mm - top(40), 0.1);
    agreesWithin("cannotBe", told.mustClear!.clearance_mm, mustClear, 0.1);
    const written = (await says(runTogether, document)) as { mustClear: { a: string; b: string }[] };
    const pairs = written.mustClear.filter(({ a, b }) => [a, b].includes("ball") && [a, b].includes("block"));
    agreesWithin(
      "toldMustClear",
      toldAt({ mustClear: pairs }, "togetherVerb.mustClear.clearance_mm")[0],
      mustClear,
      0.1,
    );
  });
});

describe("a link that a ball stands 1 mm over, which wants 6 (closed form)", () => {
  const document = still({
    members: planar.members.map((member) =>
      member.id === "upper"
        ? { id: "upper", kind: "link", inboard: "a", outboard: [0, 660, 420], diameter_mm: 30 }
        : member,
    ),
    bodies: [ball("ball", "chassis", [0, 480, 420 + 15 + 20 + 1])],
    tessellation_mm: 0.2,
    clearances: { default_mm: 0, rules: [{ a: "ball", b: "upper", mm: 6 }] },
  });

  it("is bent down by the 5 that are lacking, or made thinner by twice that", () => {
    const request = {
      meshFiles: new Map(),
      points: [],
      fits: ["cut" as const],
      limits: {},
      travelStep_mm: 10,
      proved: 0,
    };
    const { alterations } = findMoves({ document, pair: "ball/upper", within_mm: 8, ...request });
    const of = (kind: string) => alterations.find(({ alteration }) => alteration.kind === kind)!;
    const bent = of("bent");
    if (bent.alteration.kind !== "bent") throw new Error("another kind");
    agreesWithin("bentArm", bent.alteration.bow_mm, 5, 0.5);
    agreesWithin("bentArm", bent.way_mm, 5, 0.5);
    for (const [k, part] of [0, 0, -1].entries()) agreesWithin("bentArm", bent.alteration.toward[k], part, 0.3);
    // drawn so: as a bent bar of its own diameter with that bow
    agreesOn("bentMade", [bent.alteration.made.bow_mm, bent.alteration.made.diameter_mm], [bent.alteration.bow_mm, 30]);
    agreesWithin("bentArm", of("thinner").way_mm, 5, 0.5);
  });
});

describe("the terminal's loads", () => {
  it("leave nothing over in any state, and screen what was given", async () => {
    const scene = loadedScene({
      cornerMass_kg: 250,
      tubes: [{ member: "toe", diameter_mm: 20, wall_mm: 2, material: "E235+N" }],
    });
    const written = await says(runLoadsVerb, scene);
    for (const left_N of toldAt(written, "loadsVerb.residual_N")) agreesWithin("toldResidual", left_N, 0, 1e-6);
    for (const left of toldAt(written, "loadsVerb.residual_Nmm")) agreesWithin("toldResidual", left, 0, 1e-3);
    const inputs = toldAt(written, "loadsVerb.screening.rows.inputs") as unknown as Record<string, number>[];
    expect(inputs.length).toBeGreaterThan(0);
    for (const took of inputs) agreesOn("toldInputs", [took.D_mm, took.wall_mm, took.Sy_MPa], [20, 2, 235]);
  });
});
