import type { CheckResult, PairVerdict } from "../../src/check/result.ts";
import type { SceneDocument } from "../../src/scene/document.ts";

/** A double wishbone corner with a toe link, one engine pose beside rest, and a rail on the chassis. Invented. */
export function smallScene(change: Partial<SceneDocument> = {}): SceneDocument {
  return {
    format: "elbowroom.scene",
    version: 1,
    title: "Small corner",
    sides: "both",
    points: {
      "upper.out": [-5, 660, 440],
      "upper.front": [90, 420, 425],
      "upper.rear": [-90, 420, 425],
      "lower.out": [5, 690, 195],
      "toe.in": [-150, 330, 225],
      "toe.out": [-150, 670, 230],
    },
    wheel: {
      centre: [0, 740, 300],
      tyre: "205/55R16",
      rimWidth_in: 7,
      rimOffset_mm: 42,
      toe_deg: 0.15,
      camber_deg: -1,
    },
    travel: { bump_mm: 60, droop_mm: 70, step_mm: 5 },
    members: [
      { id: "upper", kind: "wishbone", front: "upper.front", rear: "upper.rear", outboard: "upper.out" },
      { id: "lower", kind: "wishbone", front: [150, 300, 200], rear: [-130, 300, 200], outboard: "lower.out" },
      { id: "toe", kind: "link", inboard: "toe.in", outboard: "toe.out" },
    ],
    powertrain: { poses: [{ id: "pulling", about: [150, 0, 400], axis: [0, 1, 0], angle_deg: 3 }] },
    bodies: [
      { id: "gearbox-mount-ear", on: "powertrain", shape: { kind: "box", size_mm: [60, 40, 20], at: [0, 500, 480] } },
      { id: "rail", on: "chassis", shape: { kind: "box", size_mm: [400, 40, 40], at: [0, 300, 600] } },
    ],
    clearances: { default_mm: 10 },
    ...change,
  };
}

export function pairVerdict(change: Partial<PairVerdict> = {}): PairVerdict {
  return {
    side: "left",
    a: "gearbox-mount-ear",
    b: "upper",
    required_mm: 10,
    clearance_mm: -6.2,
    verdict: "clash",
    measure: "convex",
    at: { travel_mm: 38, pose: "pulling" },
    pointA: [0, 500, 470],
    pointB: [0, 500, 464],
    clashTravel_mm: [[-6, 60]],
    partingOfA: [0, 0, 1],
    profile: [
      [-70, 26],
      [-6, 0],
      [38, -6.2],
      [60, -3],
    ],
    byPose: { rest: -5.3, pulling: -6.2 },
    keys: ["gearbox-mount-ear", "upper@left"],
    ...change,
  };
}

export function checkResult(pairs: readonly PairVerdict[], limits: CheckResult["limits"] = []): CheckResult {
  const summary = { clash: 0, tight: 0, clear: 0, accepted: 0 };
  for (const { verdict } of pairs) summary[verdict]++;
  return { scene: "Small corner", sides: {}, pairs, limits, summary };
}
