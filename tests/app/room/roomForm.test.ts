import { describe, expect, it } from "vitest";
import {
  askablePoints,
  commonFits,
  limitsOf,
  partWay,
  placesIn,
  questionOf,
  type RoomForm,
  usualForm,
  waysOf,
  withPoint,
  withSecond,
} from "../../../src/app/room/roomForm.ts";
import { InputError } from "../../../src/scene/error.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { PlaceGrid } from "../../../src/studies/room/region.ts";
import { FREE, mapRoom } from "../../../src/studies/room/room.ts";
import { storyCorner } from "../../check/storyCorner.ts";

const document = storyCorner({ bodies: [], clearances: { default_mm: 0 } });
const { damper: _damper, ...open } = document;
const scene = resolveScene(open);
const usual = usualForm(open, scene, null)!;

describe("what is asked unless the builder says otherwise", () => {
  it("is the held point, else a mount whose parts may be cut", () => {
    expect(usualForm(open, scene, "upper.out")!.point).toBe("upper.out");
    expect(usualForm(open, scene, "no such point")!.point).toBe(usual.point);
    expect(commonFits(open, [usual.point])).toContain("cut");
  });

  it("never is the wheel's centre, from which all is told", () => {
    const named = { ...open, points: { ...open.points, hub: open.wheel.centre as [number, number, number] } };
    const wheel = { ...named.wheel, centre: "hub" };
    expect(askablePoints({ ...named, wheel }).map(({ name }) => name)).not.toContain("hub");
  });

  it("holds where the point is now, whatever its rounding", () => {
    const question = questionOf({ ...usual, shape: "line", along: "up" }, open, scene)!;
    const map = mapRoom({ ...question, meshFiles: new Map() });
    const grid = new PlaceGrid(map.region);
    const home = [...map.reason.keys()].find((place) => grid.stepsOf(place).every((step) => step === 0))!;
    expect(map.reason[home]).toBe(FREE);
  });

  it("asks no limit that is switched off, and every one that is on", () => {
    expect(Object.keys(limitsOf(usual)).sort()).toEqual(["camber_deg", "halfTrackChange_mm", "toeChange_deg"]);
    const bare = {
      ...usual,
      toe: { on: false, most: 1 },
      camber: { ...usual.camber, on: false },
      halfTrack: { on: false, most: 1 },
      lengths: { upper: { on: true, least: 200, most: 250 } },
      ratio: { on: true, least: 0.9, most: 1.2 },
    };
    expect(limitsOf(bare)).toEqual({ damperRatio: [0.9, 1.2], memberLength_mm: { upper: [200, 250] } });
  });
});

describe("where to look", () => {
  it.each<[Partial<RoomForm>, number]>([
    [{ shape: "box" }, 11 ** 3],
    [{ shape: "plane" }, 11 ** 2],
    [{ shape: "line" }, 11],
    [{ shape: "line", along: "out", reach: { ...usual.reach, out: { less_mm: 0, more_mm: 9.9 } } }, 3],
  ])("has as many places as the grid itself counts: %j", (change, count) => {
    const form = { ...usual, ...change };
    expect(placesIn(form)).toBe(count);
    expect(new PlaceGrid(questionOf(form, open, scene)!.region).count).toBe(count);
  });

  it("runs along the part from the point to its other end", () => {
    const form = withPoint({ ...usual, shape: "line", along: "part" }, open, "upper.in");
    const [span] = questionOf(form, open, scene)!.region.spans;
    // story corner: upper link from −20/410/425 out to −20/650/430
    const length = Math.hypot(240, 5);
    for (const [k, value] of [0, 240 / length, 5 / length].entries()) expect(span!.along[k]).toBeCloseTo(value, 9);
    const info = askablePoints(open).find(({ name }) => name === "upper.out")!;
    expect(partWay(scene, info)![1]).toBeCloseTo(-240 / length, 9);
  });

  it("leaves out the axis that a plane lies across", () => {
    expect(waysOf({ ...usual, shape: "plane", across: "up" })).toEqual(["forward", "out"]);
  });

  it("is refused with a reason where no step fits", () => {
    expect(() => questionOf({ ...usual, step_mm: 0 }, open, scene)).toThrow(InputError);
  });
});

describe("two points together", () => {
  it("can be made to fit only in a way that both allow", () => {
    const form = withSecond({ ...usual, point: "upper.in", fit: "bolted" }, open, "upper.out");
    // what sits on no chassis cannot be bolted up
    expect(form.fit).toBe("cut");
    expect(questionOf(form, open, scene)!.points).toEqual(["upper.in", "upper.out"]);
    expect(withPoint(form, open, "upper.out").second).toBeNull();
  });
});
