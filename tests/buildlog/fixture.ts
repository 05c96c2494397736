import { type CardInput, makeCard } from "../../src/buildlog/make.ts";
import type { CheckResult, CurvePoint, PairVerdict } from "../../src/check/result.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import type { Scene } from "../../src/scene/scene.ts";

/** An eight-byte signature is all that tells a PNG from something else here. */
export const PNG = Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10, 200, 0, 255);

export function pair(over: Partial<PairVerdict> = {}): PairVerdict {
  return {
    side: "left",
    a: "ear",
    b: "upper",
    required_mm: 10,
    clearance_mm: -6.2,
    verdict: "clash",
    measure: "convex",
    at: { travel_mm: 38, pose: "overrun" },
    pointA: [139.6, 536, 467.2],
    pointB: [139.6, 536, 461],
    clashTravel_mm: [[-6, 80]],
    partingOfA: [0, 0, 1],
    profile: [
      [-70, 12],
      [38, -6.2],
      [80, -1],
    ],
    byPose: { rest: -5.3, overrun: -6.2 },
    keys: ["ear", "upper@left"],
    ...over,
  };
}

export function curvePoint(travel_mm: number, over: Partial<CurvePoint> = {}): CurvePoint {
  return {
    travel_mm,
    toe_deg: 0.1,
    camber_deg: -1,
    halfTrack_mm: 740,
    wheelbaseShift_mm: 0,
    rollCentre_mm: 90,
    damper_mm: 370,
    damperRatio: 1,
    shaft_mm: 436,
    innerAngle_deg: 8,
    outerAngle_deg: 9,
    ...over,
  };
}

export function result(over: Partial<CheckResult> = {}): CheckResult {
  return {
    scene: "Wren rear end",
    sides: {
      left: {
        curve: [
          curvePoint(-70, { toe_deg: -0.1, camber_deg: 0.2, halfTrack_mm: 725, shaft_mm: 442.1 }),
          curvePoint(0, { toe_deg: 0, camber_deg: -1, halfTrack_mm: 740, shaft_mm: 436 }),
          curvePoint(80, { toe_deg: 0.13, camber_deg: -3.02, halfTrack_mm: 741.7, shaft_mm: 438 }),
        ],
        bindsAt_mm: null,
      },
    },
    pairs: [
      pair({ a: "sump", b: "upper", side: "left", verdict: "clear", clearance_mm: 40, clashTravel_mm: [] }),
      pair({ a: "end-cover", b: "upper", verdict: "tight", clearance_mm: 2.8, clashTravel_mm: [] }),
      pair(),
      pair({ a: "arch", b: "tyre", side: "right", required_mm: 15, clearance_mm: -3.1 }),
    ],
    limits: [
      {
        side: "left",
        what: "shaft-length",
        verdict: "clear",
        value: 442.1,
        limit: 447,
        at: { travel_mm: -70, pose: "rest" },
        passedAt_mm: null,
      },
    ],
    summary: { clash: 2, tight: 1, clear: 1, accepted: 0 },
    ...over,
  };
}

export function scene(points: Record<string, Vec3>): Scene {
  return {
    title: "Wren rear end",
    sides: ["left", "right"],
    points: new Map(
      Object.entries(points).map(([name, at]) => [name, { at, boltedUpAt: null, tolerance_mm: null, how: null }]),
    ),
    travel: { bump_mm: 80, droop_mm: 70, step_mm: 5 },
    powertrain: { place: null, poses: [{ id: "rest" }, { id: "overrun" }] },
  } as unknown as Scene;
}

export const POINTS: Record<string, Vec3> = {
  "upper.in": [150, 392, 440],
  "upper.out": [62, 646, 456],
  "lower.in": [-70, 260, 200],
  "arm.front": [430, 640, 330],
};

export function document(points: Record<string, Vec3> = POINTS, over: Partial<SceneDocument> = {}): SceneDocument {
  return {
    format: "elbowroom.scene",
    version: 1,
    title: "Wren rear end",
    sides: "both",
    points: { "arm.front": [430, 640, 330], ...points },
    wheel: { centre: [0, 740, 300], tyre: "205/55R16", rimWidth_in: 7, rimOffset_mm: 42, toe_deg: 0, camber_deg: -1 },
    travel: { bump_mm: 80, droop_mm: 70, step_mm: 5 },
    members: [
      { id: "arm", kind: "ball", at: "arm.front", stock: "donor" },
      { id: "upper", kind: "link", inboard: "upper.in", outboard: "upper.out" },
      { id: "lower", kind: "link", inboard: "lower.in", outboard: [-70, 660, 205] },
    ],
    bodies: [],
    clearances: { default_mm: 10 },
    ...over,
  };
}

export const USERS: Record<string, string[]> = {
  "upper.in": ["upper"],
  "upper.out": ["upper"],
  "lower.in": ["lower"],
  "arm.front": ["arm"],
};

export function cardInput(over: Partial<CardInput> & { points?: Record<string, Vec3> } = {}): CardInput {
  const { points = POINTS, ...rest } = over;
  return {
    document: document(points),
    scene: scene(points),
    result: result(),
    fileName: "wren-rear.json",
    title: "Donor mounts in",
    note: "Don’t weld the inboard brackets yet.",
    unit: "mm",
    travel_mm: { left: 38, right: 38 },
    pose: "overrun",
    picture: { png: PNG, width: 1600, height: 1000 },
    made: new Date("2026-11-12T21:15:00Z"),
    number: 12,
    usersOfPoint: (name) => USERS[name] ?? [],
    ...rest,
  };
}

export const card = (over: Parameters<typeof cardInput>[0] = {}) => makeCard(cardInput(over));
