import { describe, expect, it } from "vitest";
import { assembleModel } from "../../src/check/assemble.ts";
import { gripsOfBody } from "../../src/check/bodyGrips.ts";
import {
  type DistanceReading,
  type MeasuredState,
  type MeasureReading,
  readMeasure,
} from "../../src/check/measures.ts";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import type { Measure, NewMeasure } from "../../src/scene/measures.ts";
import { ridesOfPoints } from "../../src/scene/pointRide.ts";
import { withPoint } from "../../src/scene/points.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { smallScene } from "../app/smallScene.ts";
import { agrees } from "../truth/agreement.ts";

function stateOf(document: SceneDocument, travel_mm = 0, pose = "rest"): MeasuredState {
  const scene = resolveScene(document);
  const mounts = new Map(
    scene.sides.map((side) => {
      const corner = compileCorner(scene, side);
      return [side, mountPoses(corner, solveCorner(corner, travel_mm).pose, pose)] as const;
    }),
  );
  const poses = new Map(
    assembleModel(scene).map((body) => [
      body.key,
      mounts.get(body.side === "right" ? "right" : "left")!.get(body.mount)!,
    ]),
  );
  return { scene, poses, mounts, rides: ridesOfPoints(document) };
}

const read = (measure: NewMeasure, state: MeasuredState) =>
  readMeasure({ id: "1", ...measure } as Measure, state, null);

const angleOf = (reading: MeasureReading | null) => (reading && "angle_deg" in reading ? reading.angle_deg : null);

/** A box of 200 × 100 × 60 on the chassis about (100, 300, 600), and a rod through the air at 30° to level. */
const bench = smallScene({
  bodies: [
    { id: "block", on: "chassis", shape: { kind: "box", size_mm: [200, 100, 60], at: [100, 300, 600] } },
    {
      id: "rod",
      on: "chassis",
      shape: {
        kind: "cylinder",
        from: [0, 500, 700],
        to: [100 * Math.cos(Math.PI / 6), 500, 700 + 100 * Math.sin(Math.PI / 6)],
        diameter_mm: 20,
      },
    },
    { id: "ear", on: "powertrain", shape: { kind: "box", size_mm: [60, 40, 20], at: [0, 500, 480] } },
  ],
});
const corner = (u: number, v: number, w: number) => ({ part: "block", grip: 0, at: [u, v, w], is: "corner" }) as const;

describe("a pinned distance", () => {
  it("is the diagonal of the box, with its parts forward, out and up", () => {
    const state = stateOf(bench);
    const reading = read({ kind: "distance", from: corner(-1, -1, -1), to: corner(1, 1, 1) }, state) as DistanceReading;
    agrees("pinnedLength", reading.distance_mm, Math.sqrt(200 ** 2 + 100 ** 2 + 60 ** 2), 9);
    expect(reading.way.forward_mm).toBeCloseTo(200, 9);
    expect(reading.way.out_mm).toBeCloseTo(100, 9);
    expect(reading.way.up_mm).toBeCloseTo(60, 9);
    expect(reading.isAcross).toBe(false);
  });

  it("between the ends of a link stays the link's length at every travel, on both sides", () => {
    const drawn_mm = Math.hypot(0, 340, 5);
    for (const travel_mm of [-70, -31, 0, 18.5, 60]) {
      const state = stateOf(smallScene(), travel_mm);
      for (const side of ["left", "right"] as const) {
        const ends = { from: { point: "toe.in", side }, to: { point: "toe.out", side } };
        const reading = read({ kind: "distance", ...ends }, state) as DistanceReading;
        expect(reading.distance_mm).toBeCloseTo(drawn_mm, 6);
        expect(reading.way.out_mm).toBeGreaterThan(300);
      }
    }
  });

  it("from side to side is twice the half track, told as across", () => {
    const hub = (side: "left" | "right") => ({ part: "tyre", side, grip: 0, at: [0, 0, 0], is: "centre" }) as const;
    const reading = read(
      { kind: "distance", from: hub("left"), to: hub("right") },
      stateOf(smallScene()),
    ) as DistanceReading;
    agrees("pinnedLength", reading.distance_mm, 2 * 740, 9);
    expect(reading.isAcross).toBe(true);
  });

  it("follows the wheel: a hub's centre rises by the travel", () => {
    const measure = {
      kind: "distance",
      from: corner(1, 1, 1),
      to: { part: "tyre", side: "left", grip: 0, at: [0, 0, 0], is: "centre" },
    } as const;
    const [here, there] = [0, 40].map((travel_mm) => read(measure, stateOf(bench, travel_mm)) as DistanceReading);
    expect(there!.way.up_mm - here!.way.up_mm).toBeCloseTo(40, 6);
  });

  it("follows edits: a corner stays the corner of a box that is moved and made larger, a point where it is moved to", () => {
    const measure = { kind: "distance", from: { point: "toe.in" }, to: corner(1, 1, 1) } as const;
    const larger = { kind: "box", size_mm: [20, 30, 40], at: [1000, 2000, 3000] } as const;
    const edited: SceneDocument = {
      ...withPoint(bench, "toe.in", [10, 15, 20]),
      bodies: [{ id: "block", on: "chassis", shape: larger }],
    };
    const reading = read(measure, stateOf(edited)) as DistanceReading;
    expect(reading.from).toEqual([10, 15, 20]);
    expect(reading.to).toEqual([1010, 2015, 3020]);
    expect(read(measure, stateOf({ ...edited, bodies: [] }))).toBeNull();
  });
});

describe("a pinned angle", () => {
  it("at a box's corner between two edges is a right one, and that of a half square 45°", () => {
    const state = stateOf(bench);
    const right = read(
      { kind: "angle", from: corner(1, -1, -1), at: corner(-1, -1, -1), to: corner(-1, 1, -1) },
      state,
    );
    agrees("pinnedAngle", angleOf(right), 90, 9);
    // 100 along Y against 200 along X: tan = 1/2
    const half = read({ kind: "angle", from: corner(1, -1, -1), at: corner(-1, -1, -1), to: corner(1, 1, -1) }, state);
    agrees("pinnedAngle", angleOf(half), (Math.atan(0.5) * 180) / Math.PI, 9);
    const none = read({ kind: "angle", from: corner(1, 1, 1), at: corner(1, 1, 1), to: corner(1, -1, 1) }, state);
    expect(none).toMatchObject({ angle_deg: null });
  });

  it("between a rod's axis and a face is how far the rod leans from the face", () => {
    const axis = { part: "rod", grip: 0, at: [0, 0, 0.5], way: [0, 0, 1], is: "axis" } as const;
    const top = { part: "block", grip: 0, at: [0, 0, 1], way: [0, 0, 1], is: "face" } as const;
    const front = { part: "block", grip: 0, at: [1, 0, 0], way: [1, 0, 0], is: "face" } as const;
    const state = stateOf(bench);
    agrees("pinnedAngle", angleOf(read({ kind: "lines", a: axis, b: top }, state)), 30, 9);
    expect(read({ kind: "lines", a: top, b: front }, state)).toMatchObject({ angle_deg: expect.closeTo(90, 9) });
    expect(read({ kind: "lines", a: axis, b: axis }, state)).toMatchObject({ angle_deg: expect.closeTo(0, 6) });
  });

  it("between the engine and the frame is the pose's own turn", () => {
    const face = (part: string) => ({ part, grip: 0, at: [0, 0, 1], way: [0, 0, 1], is: "face" }) as const;
    const reading = read({ kind: "lines", a: face("ear"), b: face("block") }, stateOf(bench, 0, "pulling"));
    expect(reading).toMatchObject({ angle_deg: expect.closeTo(3, 9) });
  });
});

describe("grips of bodies", () => {
  it("are there for everything the scene brings, its own parts too", () => {
    const scene = resolveScene(bench);
    for (const { id, key } of assembleModel(scene)) {
      const piece = /#(\w+)/.exec(key)?.[1] ?? "";
      expect(gripsOfBody(scene, id, piece).length, key).toBeGreaterThan(0);
    }
    expect(gripsOfBody(scene, "nobody")).toEqual([]);
  });
});
