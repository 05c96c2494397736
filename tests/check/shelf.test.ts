import { describe, expect, it } from "vitest";
import { type PreparedCheck, prepareCheck } from "../../src/check/check.ts";
import { fingerprint } from "../../src/check/fingerprint.ts";
import { nearestFirst } from "../../src/check/nearestFirst.ts";
import { CheckShelf, Kept } from "../../src/check/shelf.ts";
import type { Motion } from "../../src/clearance/types.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { storyCorner } from "./storyCorner.ts";

const prepare = (document: SceneDocument, shelf?: CheckShelf) => prepareCheck(resolveScene(document), new Map(), shelf);

/** All that a check is made of, as far as it can be written down. */
function written({ bodies, pairs, runs }: PreparedCheck) {
  return {
    bodies: bodies.map(({ solid, ...body }) => ({ ...body, positions: [...solid.positions] })),
    pairs: pairs.map((pair) => [pair.side, pair.acrossCar, pair.sweep.a, pair.sweep.b, fingerprint(pair)]),
    bounds: pairs.map(({ sweep }) => sweep.variants.map(({ rock }) => rock && [rock.content, rock.a, rock.b])),
    runs: runs.map(({ side, run }) => [side, run]),
  };
}

const corner = storyCorner({ sides: "both", tessellation_mm: 2 });
const moved = (y: number) => ({ ...corner, points: { ...corner.points, "upper.in": [-20, y, 425] as never } });
const edits: SceneDocument[] = [
  corner,
  moved(411),
  { ...moved(411), clearances: { default_mm: 12, rules: [{ a: "tyre", b: "*", mm: 20 }] } },
  { ...moved(411), powertrain: { poses: [{ ...corner.powertrain!.poses![0]!, angle_deg: 2 }] } },
  { ...corner, sides: "right" },
  corner,
];

describe("a shelf kept from check to check", () => {
  it("changes nothing of a check", () => {
    const shelf = new CheckShelf();
    for (const document of edits) {
      const [warm, cold] = [prepare(document, shelf), prepare(document)];
      expect(written(warm)).toEqual(written(cold));
      expect(nearestFirst(warm)).toEqual(nearestFirst(cold));
    }
  });

  it("leaves what an edit does not move the very same thing", () => {
    const shelf = new CheckShelf();
    const [before, after] = [prepare(corner, shelf), prepare(moved(412), shelf)];
    const motions = ({ pairs }: PreparedCheck) =>
      new Map<string, Motion>(
        pairs.flatMap(({ side, first, second, sweep }) =>
          sweep.variants.flatMap(({ pose, a, b }) => [
            [`${side} ${first.mount} ${pose}`, a] as const,
            [`${side} ${second.mount} ${pose}`, b] as const,
          ]),
        ),
      );
    const [was, is] = [motions(before), motions(after)];
    for (const name of ["left powertrain tail-up", "right powertrain rest"]) {
      expect(was.get(name), name).toBeDefined();
      expect(is.get(name), name).toBe(was.get(name));
    }
    expect(is.get("left upper rest")).not.toBe(was.get("left upper rest"));
    // both sides hang on one run, and what no pose moves has one motion for all of them
    expect(after.runs[1]!.run).toBe(after.runs[0]!.run);
    expect(is.get("left carrier tail-up")).toBe(is.get("left carrier rest"));
    const solidOf = (check: PreparedCheck, key: string) => check.bodies.find((body) => body.key === key)!.solid;
    expect(solidOf(after, "tyre@right")).toBe(solidOf(before, "tyre@right"));
    expect(solidOf(after, "upper@right")).not.toBe(solidOf(before, "upper@right"));
  });

  it("keeps what was asked for in this turn and the one before", () => {
    const kept = new Kept<number>();
    let made = 0;
    const ask = (name: string) => kept.recall(name, () => ++made);
    expect([ask("a"), ask("a"), ask("b")]).toEqual([1, 1, 2]);
    kept.turn();
    expect(ask("a")).toBe(1);
    kept.turn();
    expect([ask("a"), ask("b")]).toEqual([1, 3]);
  });
});
