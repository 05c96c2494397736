import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boxOf, placeUnder, spotOf } from "../../../src/app/room/drawSlice.ts";
import { cloudOf, nearestTo } from "../../../src/app/room/roomCloud.ts";
import type { Way } from "../../../src/app/room/roomForm.ts";
import {
  FIRST_ROOM,
  gridOf,
  homeOf,
  leaveOutName,
  MARKS,
  markOf,
  sliceOf,
  stepFrom,
  sumOf,
} from "../../../src/app/room/roomTold.ts";
import { verdictText } from "../../../src/app/room/roomWords.ts";
import { identityPose, translationPose } from "../../../src/maths/pose.ts";
import type { Vec3 } from "../../../src/maths/vec3.ts";
import { mapRoom } from "../../../src/studies/room/room.ts";
import { question, studyCorner } from "../../studies/studyCorner.ts";

const WAYS: readonly Way[] = ["forward", "out", "up"];
const axes: Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const region = {
  spans: [
    { along: axes[0]!, from_mm: -6, to_mm: 3 },
    { along: axes[1]!, from_mm: 0, to_mm: 15 },
    { along: axes[2]!, from_mm: -12, to_mm: 3 },
  ],
  step_mm: 3,
};
const document = studyCorner();
const map = mapRoom({ ...question(document), region });
const grid = gridOf(map);
const sum = sumOf(map, grid);
const free = [...map.reason.keys()].filter((place) => map.reason[place] === -1);

describe("what is told of a map", () => {
  it("counts every place once, and has the nearest and the roomiest of those with room", () => {
    expect(sum.asked).toBe(grid.count);
    expect(sum.free + sum.refusals.reduce((all, [, places]) => all + places, 0)).toBe(sum.asked);
    expect(sum.free).toBe(free.length);
    expect(free.length).toBeGreaterThan(0);
    const far = (place: number) => Math.hypot(...grid.offsetOf(place));
    expect(Math.min(...free.map(far))).toBe(far(sum.nearest));
    expect(Math.max(...free.map((place) => map.margin_mm[place]!))).toBe(map.margin_mm[sum.roomiest]);
  });

  it("marks a place by its own margin: more room never has a lower mark", () => {
    const sorted = [...free].sort((a, b) => map.margin_mm[a]! - map.margin_mm[b]!);
    const marks = sorted.map((place) => markOf(map, place));
    expect(marks).toEqual([...marks].sort((a, b) => a - b));
    expect(Math.min(...marks)).toBeGreaterThanOrEqual(FIRST_ROOM);
    for (const place of map.reason.keys()) expect(MARKS[markOf(map, place)]).toBeDefined();
  });

  it("names why a place is refused, where and with what the engine does", () => {
    // the pivot 15 outboard touches the sump rail with the tail down (the stories' first)
    const place = grid.numberOf([0, 5, 0]);
    expect(verdictText(map, {}, place, document, "mm")).toMatch(
      /^Sump rail and upper link, left: closer than the 10 mm wanted, at .+ bump, engine .+\.$/,
    );
    // and 10 lower it has room
    const lower = mapRoom({
      ...question(document),
      region: {
        spans: [{ along: [0, 15, -10], from_mm: Math.hypot(15, 10), to_mm: Math.hypot(15, 10) }],
        step_mm: Math.hypot(15, 10),
      },
    });
    expect(verdictText(lower, {}, 0, document, "mm")).toMatch(
      /^Room: 1\.\d mm more than is wanted, least between sump rail/,
    );
  });

  it("leaves out pairs and the scene's own limits, not what the builder asks", () => {
    const limit = (what: string) => leaveOutName({ kind: "limit", side: "left", what });
    expect(limit("shaft-length")).toBe("shaft-length");
    expect(limit("toe-change")).toBeNull();
    expect(limit("member-length upper")).toBeNull();
    expect(leaveOutName({ kind: "clearance", side: "left", a: "sump", b: "upper", required_mm: 10 })).toBe(
      "sump/upper",
    );
    expect(leaveOutName({ kind: "binds" })).toBeNull();
  });
});

describe("slices", () => {
  it.each([0, 1, 2])("through direction %i have every place once, each under its own spot", (through) => {
    const seen = new Set<number>();
    for (let step = 0; step < grid.counts[through]!; step++) {
      const place = stepFrom(grid, 0, through, step);
      const slice = sliceOf(grid, WAYS, through, place);
      const box = boxOf(slice, 300);
      for (let row = 0; row < slice.rows; row++) {
        for (let column = 0; column < slice.columns; column++) {
          const here = slice.placeAt(column, row);
          seen.add(here);
          expect(slice.cellOf(here)).toEqual([column, row]);
          expect(placeUnder(slice, box, ...spotOf(slice, box, here))).toBe(here);
        }
      }
    }
    expect(seen.size).toBe(grid.count);
  });

  it("show a left corner as it is seen: outward and forward to the left, up and forward above", () => {
    const home = homeOf(grid);
    const seen = (through: number) => {
      const slice = sliceOf(grid, WAYS, through, home);
      return [WAYS[slice.across], WAYS[slice.up], grid.offsetOf(slice.placeAt(0, slice.rows - 1))] as const;
    };
    expect(seen(0)).toEqual(["out", "up", [0, 15, 3]]);
    expect(seen(1)).toEqual(["forward", "up", [3, 0, 3]]);
    expect(seen(2)).toEqual(["out", "forward", [3, 15, 0]]);
    expect(sliceOf(grid, ["forward", "out"], -1, home).across).toBe(1);
  });

  it("are never left by stepping", () => {
    fc.assert(
      fc.property(
        fc.nat(grid.count - 1),
        fc.constantFrom(0, 1, 2),
        fc.integer({ min: -20, max: 20 }),
        (place, span, by) => {
          const next = stepFrom(grid, place, span, by);
          expect(next).toBeGreaterThanOrEqual(0);
          expect(next).toBeLessThan(grid.count);
          const [before, after] = [grid.stepsOf(place), grid.stepsOf(next)];
          for (const k of [0, 1, 2]) if (k !== span) expect(after[k]).toBe(before[k]);
        },
      ),
    );
  });
});

describe("the cloud", () => {
  const base: Vec3 = [-20, 410, 425];

  it("has every told place where it is, those with room last, and no refused one where they are hidden", () => {
    const all = cloudOf(map, grid, base, true);
    expect([...all.places].sort((a, b) => a - b)).toEqual([...map.reason.keys()]);
    const firstFree = all.marks.findIndex((mark) => mark >= FIRST_ROOM);
    expect(all.marks.subarray(firstFree).every((mark) => mark >= FIRST_ROOM)).toBe(true);
    expect([...cloudOf(map, grid, base, false).places]).toEqual(free);
    const offset = grid.offsetOf(all.places[7]!);
    for (const k of [0, 1, 2]) expect(all.positions[21 + k]).toBeCloseTo(base[k]! + offset[k]!, 3);
  });

  it("gives the place under a pointer, the one nearer to the eye of two behind each other, wherever its part stands", () => {
    const cloud = cloudOf(map, grid, base, true);
    for (const pose of [identityPose(), translationPose([5, -3, 40])]) {
      const shift: Vec3 = [pose[3]!, pose[7]!, pose[11]!];
      // an eye far out on the left that sees without perspective: x to the right is back, 1 px is 1 mm
      const spotAt = ([x, , z]: Vec3) => ({ x: -x, y: -z });
      const sight = {
        project: spotAt,
        projectAll(points: Float32Array, _: unknown, out: Float32Array) {
          for (let i = 0; i * 3 < points.length; i++) {
            const spot = spotAt([points[3 * i]! + shift[0], 0, points[3 * i + 2]! + shift[2]]);
            out.set([spot.x, spot.y], 2 * i);
          }
        },
        rayAt: () => ({ from: base, way: [0, -1, 0] as Vec3 }),
        mmPerPx: () => 1,
        back: [0, 1, 0] as Vec3,
      };
      const at = { x: -(base[0] + shift[0]) + 0.4, y: -(base[2] + shift[2]) };
      const hit = nearestTo(cloud, pose, sight, at, 10)!;
      expect(grid.offsetOf(hit)).toEqual([0, 15, 0]);
      expect(nearestTo(cloud, pose, sight, { x: at.x + 400, y: at.y }, 10)).toBeNull();
    }
  });
});
