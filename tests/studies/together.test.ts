// What may happen together: wheels at different heights against spheres placed by kinematics alone, and engine poses only within their travel.
import { describe, expect, it } from "vitest";
import { CheckShelf } from "../../src/check/shelf.ts";
import { ridingTracks, runSides, tracksOf } from "../../src/check/tracks.ts";
import { poseOfMotion } from "../../src/clearance/motion.ts";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { applyPose, POSE_SIZE } from "../../src/maths/pose.ts";
import { distance, length, mix, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { fullCheck } from "../../src/studies/fullCheck.ts";
import { StudyStopped } from "../../src/studies/stopped.ts";
import { travelReach } from "../../src/studies/together/reach.ts";
import { judgeTogether } from "../../src/studies/together/together.ts";
import { agreesWithin } from "../truth/agreement.ts";
import { studyCorner } from "./studyCorner.ts";

/** Balls on tails of the upper links that reach to the car's middle: one low, one 100 mm above it. */
const KNOB: Vec3 = [-20, 30, 425];
const PEG: Vec3 = [-20, 24, 525];
const ball = (id: string, at: Vec3, diameter_mm = 40) =>
  ({ id, on: "upper", shape: { kind: "sphere", at, diameter_mm } }) as const;
const tailed = (more: Partial<SceneDocument> = {}): SceneDocument => {
  const { driveshaft: _, powertrain: __, ...corner } = studyCorner({ sides: "both" });
  return {
    ...corner,
    bodies: [ball("knob", KNOB), ball("peg", PEG)],
    clearances: { default_mm: 10 },
    travel: { bump_mm: 20, droop_mm: 25, step_mm: 5 },
    ...more,
  };
};

function placeAt(document: SceneDocument, at: Vec3, travel_mm: number): Vec3 {
  const corner = compileCorner(resolveScene(document), "left");
  return applyPose(mountPoses(corner, solveCorner(corner, travel_mm).pose, "rest").get("upper")!, at);
}

/** Where a ball of either side is at a travel. */
function placesOf(document: SceneDocument, at: Vec3): { travel_mm: number; left: Vec3; right: Vec3 }[] {
  const corner = compileCorner(resolveScene(document), "left");
  return Array.from({ length: 91 }, (_, k) => {
    const travel_mm = -25 + k / 2;
    const left = applyPose(mountPoses(corner, solveCorner(corner, travel_mm).pose, "rest").get("upper")!, at);
    return { travel_mm, left, right: [left[0], -left[1], left[2]] as const };
  });
}

describe("one wheel up while the other is down", () => {
  const { crossing } = judgeTogether(tailed(), new Map(), "tails");
  const found = (left: string, right: string) => crossing.find((pair) => pair.left === left && pair.right === right)!;

  // as large as to come near without touching, and so large that they do
  it.each([56, 64])("balls of %d mm come as near as all pairs of heights tried one by one say", (diameter_mm) => {
    const bodies = [ball("knob", KNOB, diameter_mm), ball("peg", PEG, diameter_mm)];
    const { crossing } = judgeTogether(tailed({ bodies }), new Map(), "large tails");
    for (const [a, b, atA, atB] of [
      ["knob", "peg", KNOB, PEG],
      ["peg", "knob", PEG, KNOB],
      ["knob", "knob", KNOB, KNOB],
    ] as const) {
      let best_mm = Infinity;
      for (const { left } of placesOf(tailed(), atA)) {
        for (const { right } of placesOf(tailed(), atB))
          best_mm = Math.min(best_mm, distance(left, right) - diameter_mm);
      }
      const told = crossing.find((pair) => pair.left === a && pair.right === b)!;
      // the balls are drawn up to 0.2 mm outside the true ones; depths to 2 %
      agreesWithin("crossing", told.clearance_mm, best_mm, 0.5 + 0.02 * Math.abs(best_mm), `${a} and ${b}`);
      expect(told.verdict).toBe(diameter_mm === 64 ? "clash" : "tight");
      if (told.verdict === "clash") continue;
      // apart: each point on its own ball, the two as far apart as is told
      agreesWithin("crossingPoints", distance(told.pointLeft, told.pointRight), told.clearance_mm, 0.01);
      const [ours, theirs] = [placeAt(tailed(), atA, told.at.left_mm), placeAt(tailed(), atB, told.at.right_mm)];
      agreesWithin("crossingPoints", distance(told.pointLeft, ours), diameter_mm / 2, 0.3);
      agreesWithin(
        "crossingPoints",
        distance(told.pointRight, [theirs[0], -theirs[1], theirs[2]]),
        diameter_mm / 2,
        0.3,
      );
    }
  });

  it("is worst with the two far apart in height for what stands above the other, and the same seen from the other side", () => {
    const told = found("knob", "peg");
    expect(told.at.left_mm).toBeLessThan(-20);
    expect(told.at.right_mm).toBeGreaterThan(15);
    const image = found("peg", "knob");
    expect(image.clearance_mm).toBeCloseTo(told.clearance_mm, 1);
    expect(image.at.left_mm).toBeCloseTo(told.at.right_mm, 0);
  });

  it("is nothing that the check of one height tells, and says nothing of parts that stay far apart", () => {
    expect(fullCheck(tailed(), new Map(), "tails").pairs.some(({ a, b }) => a === "knob" && b === "peg")).toBe(false);
    expect(crossing.every(({ left, right }) => ["knob", "peg"].includes(left) && ["knob", "peg"].includes(right))).toBe(
      true,
    );
    expect(judgeTogether({ ...tailed(), sides: "left" }, new Map(), "one side").crossing).toEqual([]);
  });

  it("respects what is left out with a reason, and stops", () => {
    const left = tailed({ clearances: { default_mm: 10, accept: [{ a: "knob", b: "peg", why: "rubber" }] } });
    const accepted = judgeTogether(left, new Map(), "tails").crossing.find(
      (pair) => pair.right === "peg" && pair.left === "knob",
    );
    expect(accepted).toMatchObject({ verdict: "accepted", why: "rubber" });
    expect(() => judgeTogether(tailed(), new Map(), "tails", () => true)).toThrow(StudyStopped);
  });
});

it("no point of a part strays from its chord, or goes faster, than its reach says", () => {
  const scene = resolveScene(tailed({ travel: { bump_mm: 60, droop_mm: 70, step_mm: 5 } }));
  const runs = runSides(scene);
  const shelf = new CheckShelf();
  const motion = tracksOf(runs[1]!, ridingTracks(runs, shelf).get("right")!, "rest", shelf).get("upper")!;
  const corners: Vec3[] = [
    [-40, -650, 400],
    [0, -650, 400],
    [-40, 0, 545],
    [0, 0, 545],
  ];
  const reach = travelReach(motion, corners);
  const at = (travel: number, p: Vec3) => applyPose(poseOfMotion(motion, travel, new Float64Array(POSE_SIZE)), p);
  let nearest = 0;
  for (let from = -70; from < 60; from += 3.7) {
    for (const width of [1, 4, 13, 40]) {
      if (from + width > 60) continue;
      for (const p of corners) {
        const [start, end] = [at(from, p), at(from + width, p)];
        expect(distance(start, end)).toBeLessThanOrEqual(reach.speed_mm * width + 1e-9);
        for (const share of [0.25, 0.5, 0.75]) {
          const off = length(subtract(at(from + share * width, p), mix(start, end, share)));
          const most = (reach.bend_mm * width * width) / 8;
          expect(off).toBeLessThanOrEqual(most + 1e-9);
          nearest = Math.max(nearest, off / most);
        }
      }
    }
  }
  // and it is no wild guess
  expect(nearest).toBeGreaterThan(0.05);
});

describe("engine poses only within their travel", () => {
  const banded = (within_mm: readonly [number, number], more: Partial<SceneDocument> = {}): SceneDocument => {
    const corner = studyCorner({ tessellation_mm: 0.05, ...more });
    const poses = corner.powertrain!.poses!.map((pose) => ({ ...pose, within_mm }));
    return { ...corner, powertrain: { poses } };
  };
  const rail = (pairs: readonly { what: string; at: { pose: string } }[]) =>
    pairs.find(({ what, at }) => what === "sump-rail/upper" && at.pose === "tail-down");

  it("tells both answers: 8.4 mm where it must be clear, 0.1 mm where the pose cannot be (worked for these checks)", () => {
    const { check, cannotHappen } = judgeTogether(banded([-70, 0]), new Map(), "band");
    const must = check.pairs.find(({ a, b }) => a === "sump-rail" && b === "upper")!;
    expect(Math.abs(must.clearance_mm - 8.4)).toBeLessThanOrEqual(0.3);
    const cannot = rail(cannotHappen)!;
    expect(cannot).toMatchObject({ verdict: "tight", within_mm: [-70, 0], at: { pose: "tail-down" } });
    const told = cannotHappen.find((each) => each === cannot)!;
    expect(Math.abs(told.value - 0.1)).toBeLessThanOrEqual(0.3);
    expect(told.at.travel_mm).toBeGreaterThan(59);
    expect(told.mustClear!.clearance_mm).toBe(must.clearance_mm);
    // without the band it is what the check tells
    const free = fullCheck(studyCorner({ tessellation_mm: 0.05 }), new Map(), "free").pairs;
    expect(free.find(({ a, b }) => a === "sump-rail" && b === "upper")!.clearance_mm).toBeCloseTo(told.value, 1);
  });

  it("says nothing where no band leaves anything out", () => {
    expect(judgeTogether(studyCorner(), new Map(), "free").cannotHappen).toEqual([]);
    expect(judgeTogether(banded([-100, 100]), new Map(), "wide").cannotHappen).toEqual([]);
  });

  it("tells limits too: a driveshaft 6 mm short lets go beyond −45 only with the engine rocked (worked for these checks)", () => {
    const driveshaft = { ...studyCorner().driveshaft!, shortest_mm: 413, longest_mm: 441 };
    const { check, cannotHappen } = judgeTogether(banded([-44, 60], { driveshaft }), new Map(), "short");
    expect(check.limits.find(({ what, verdict }) => what === "shaft-length" && verdict === "clash")).toBeUndefined();
    expect(cannotHappen.find(({ what }) => what === "shaft-length")).toMatchObject({ kind: "limit", verdict: "clash" });
  });
});

it("a bar is wound up by the difference of its ends' turns, one wheel up and one down", () => {
  const antiRollBar = {
    pivot: [-200, 500, 300],
    axis: [0, 1, 0],
    arm: [-60, 500, 300],
    pickup: [-60, 600, 220],
    on: "carrier",
    diameter_mm: 20,
  } as const;
  const { bar } = judgeTogether(tailed({ antiRollBar }), new Map(), "bar");
  expect(bar!.at).toEqual({ left_mm: 20, right_mm: -25 });
  // the arm of 140 mm follows a pickup near the wheel over 45 mm of travel
  expect(bar!.wound_deg).toBeGreaterThan(10);
  expect(bar!.wound_deg).toBeLessThan(25);
  expect(judgeTogether(tailed(), new Map(), "none").bar).toBeNull();
});
