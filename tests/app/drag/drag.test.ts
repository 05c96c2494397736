import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ALL_FREE, axesOf, inFree, pointedAt } from "../../../src/app/points/drag/constrain.ts";
import { onGrid, type SnapKind, type SnapSurroundings, snapped } from "../../../src/app/points/drag/snap.ts";
import { DIRECTIONS, type Direction, readPlace } from "../../../src/app/points/usePointMove.ts";
import type { Ray, Sight } from "../../../src/app/viewport/sight.ts";
import type { ModelBody } from "../../../src/check/model.ts";
import { add, cross, distance, dot, normalise, scale, subtract, type Vec3 } from "../../../src/maths/vec3.ts";
import type { Datum } from "../../../src/scene/scene.ts";

const size = fc.double({ min: -1, max: 1, noNaN: true });
const vector = fc.tuple(size, size, size) as fc.Arbitrary<Vec3>;
const free = fc.subarray([...DIRECTIONS], { minLength: 1 }).map((open) => new Set<Direction>(open));
const RAIL: Datum = {
  id: "rail",
  at: [100, 300, 200],
  forward: normalise([1, 0.3, 0]),
  up: normalise(cross(normalise([1, 0.3, 0]), cross([0, 0.2, 1], normalise([1, 0.3, 0])))),
};

/** An eye far off that sees without perspective: 1 px is 1 mm, x to the right is back to front, y down. */
function sideways(): Sight {
  return {
    project: ([x, , z]) => ({ x, y: -z }),
    rayAt: (x, y) => ({ from: [x, 10_000, -y], way: [0, -1, 0] }),
    projectAll() {},
    mmPerPx: () => 1,
    back: [0, 1, 0],
  };
}

describe("a drag", () => {
  it("moves in the free directions only, and lies on the line of sight where it can", () => {
    fc.assert(
      fc.property(vector, vector, vector, free, fc.boolean(), (s, e, w, open, isRail) => {
        fc.pre(Math.hypot(...w) > 0.2);
        const axes = axesOf(isRail ? RAIL : null);
        const start = scale(s, 500);
        const ray: Ray = { from: scale(e, 3000), way: normalise(w) };
        const back = scale(ray.way, -1);
        const at = pointedAt(ray, start, open, axes, back);
        if (at === null) return;
        const moved = subtract(at, start);
        for (const direction of DIRECTIONS)
          if (!open.has(direction)) expect(dot(moved, axes[direction]) / (1 + distance(at, start))).toBeCloseTo(0, 6);
        const off = cross(subtract(at, ray.from), ray.way);
        if (open.size > 1) expect(Math.hypot(...off) / (1 + distance(at, ray.from))).toBeCloseTo(0, 6);
        else {
          // nearest point of two lines: what parts them is square to both
          const [only] = open;
          const t = dot(subtract(at, ray.from), ray.way);
          const apart = subtract(at, add(ray.from, scale(ray.way, t)));
          expect(dot(apart, axes[only!]) / (1 + distance(at, start))).toBeCloseTo(0, 6);
        }
      }),
      { seed: 71, numRuns: 1000 },
    );
  });

  it("is refused along an axis that is seen end on, and in a plane that is seen edge on", () => {
    const ray: Ray = { from: [0, 1000, 0], way: normalise([0.01, -1, 0]) };
    const axes = axesOf(null);
    expect(pointedAt(ray, [0, 0, 0], new Set(["out"]), axes, [0, 1, 0])).toBeNull();
    expect(pointedAt(ray, [0, 0, 0], new Set(["out", "up"]), axes, [0, 1, 0])).toBeNull();
    expect(pointedAt(ray, [0, 0, 0], new Set(["forward"]), axes, [0, 1, 0])).not.toBeNull();
  });

  it("takes of a target what may move", () => {
    const axes = axesOf(null);
    expect(inFree([1, 2, 3], [10, 20, 30], new Set(["up"]), axes)).toEqual([10, 20, 3]);
    expect(inFree([1, 2, 3], [10, 20, 30], new Set(["forward", "out"]), axes)).toEqual([1, 2, 30]);
  });

  it("stands on whole steps of the datum in the free directions, within half a step", () => {
    fc.assert(
      fc.property(vector, free, fc.constantFrom(0.1, 1, 5, 25.4 / 16), (p, open, step_mm) => {
        const at = scale(p, 700);
        const held = readPlace(onGrid(at, open, RAIL, step_mm), RAIL);
        const was = readPlace(at, RAIL);
        for (const direction of DIRECTIONS) {
          if (!open.has(direction)) expect(held[direction]).toBeCloseTo(was[direction], 6);
          else {
            expect(Math.abs(held[direction] / step_mm - Math.round(held[direction] / step_mm))).toBeLessThan(1e-6);
            expect(Math.abs(held[direction] - was[direction])).toBeLessThanOrEqual(step_mm / 2 + 1e-6);
          }
        }
      }),
      { seed: 72, numRuns: 500 },
    );
  });
});

describe("what holds a dragged point", () => {
  // a plate seen square on: 100 wide, 60 high, its near face at y = 5
  const plate: ModelBody = {
    key: "plate",
    id: "plate",
    side: "both",
    mount: "chassis",
    group: "chassis",
    role: null,
    look: null,
    content: "plate",
    solid: {
      positions: Float32Array.of(0, 5, 0, 100, 5, 0, 100, 5, 60, 0, 5, 60),
      indices: Uint32Array.of(0, 2, 1, 0, 3, 2),
      shells: [],
      convexPieces: null,
    },
  };
  const around = (change: Partial<SnapSurroundings> = {}): SnapSurroundings => ({
    targets: [
      { kind: "points", name: "upper.out", at: [300, 40, 200] },
      { kind: "mirror", name: "upper.out", at: [400, -40, 200] },
    ],
    bodies: [plate],
    poses: new Map(),
    kinds: new Set<SnapKind>(["points", "mirror", "parts"]),
    datum: null,
    axes: axesOf(null),
    sight: sideways(),
    reach_px: 10,
    ...change,
  });
  const drag = (at: Vec3, open: ReadonlySet<Direction> = ALL_FREE, change: Partial<SnapSurroundings> = {}) =>
    snapped(at, [0, 0, 0], open, at[0], -at[2], around(change));

  it("is a point or a mirror image within reach in the picture, else nothing", () => {
    expect(drag([303, 0, 204])).toEqual({ at: [300, 40, 200], by: "on upper.out" });
    expect(drag([403, 0, 204])).toEqual({ at: [400, -40, 200], by: "on mirror of upper.out" });
    expect(drag([311, 0, 200])).toEqual({ at: [311, 0, 200], by: null });
    expect(drag([303, 0, 204], ALL_FREE, { kinds: new Set() }).by).toBeNull();
  });

  it("is only as far as it may go when a direction is held", () => {
    expect(drag([303, 0, 0], new Set(["forward"]), { reach_px: 400 })).toEqual({
      at: [300, 0, 0],
      by: "level with upper.out",
    });
  });

  it("is the corner before the edge before the surface of a part", () => {
    expect(drag([97, 0, 57])).toEqual({ at: [100, 5, 60], by: "corner of plate" });
    expect(drag([97, 0, 30])).toEqual({ at: [100, 5, 30], by: "edge of plate" });
    expect(drag([50, 0, 30]).by).toBe("on plate");
    expect(drag([50, 0, 30]).at[1]).toBeCloseTo(5, 6);
  });

  it("is a surface that an arm meets within reach", () => {
    const out = snapped([50, 2, 30], [50, 0, 30], new Set(["out"]), 50, -30, around());
    expect(out.by).toBe("on plate");
    expect(distance(out.at, [50, 5, 30])).toBeLessThan(1e-3);
    expect(snapped([50, -20, 30], [50, 0, 30], new Set(["out"]), 50, -30, around()).by).toBeNull();
  });
});
