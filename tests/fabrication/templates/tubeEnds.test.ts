import { describe, expect, it } from "vitest";
import { templatesOf, USUAL_WISHES } from "../../../src/fabrication/templates/templates.ts";
import type { SceneDocument, ShapeDocument } from "../../../src/scene/document.ts";
import { InputError } from "../../../src/scene/error.ts";
import { agrees, agreesOn } from "../../truth/agreement.ts";
import { sceneOf } from "./bench.ts";

const empty = sceneOf([]);

function frameOf(shapes: Readonly<Record<string, ShapeDocument>>, mirror = false): SceneDocument {
  return {
    ...empty,
    bodies: Object.entries(shapes).map(([id, shape]) => ({ id, on: "chassis", role: "frame", mirror, shape })),
  };
}

const tube = (path: [number, number, number][], diameter_mm: number, wall_mm = 2): ShapeDocument => ({
  kind: "tube",
  path,
  diameter_mm,
  wall_mm,
});
const RAIL = tube(
  [
    [-300, 300, 500],
    [300, 300, 500],
  ],
  40,
);

describe("tube ends to wrap", () => {
  it("finds what a tube ends at, and cuts a square T to the depth of its saddle", () => {
    const { wraps, square } = templatesOf(
      frameOf({
        rail: RAIL,
        post: tube(
          [
            [0, 300, 200],
            [0, 300, 500],
          ],
          30,
        ),
      }),
    );
    expect(square).toEqual([]);
    expect(wraps.map(({ id, fittedTo }) => [id, fittedTo])).toEqual([
      ["post last end", [{ of: "rail", angle_deg: 90 }]],
    ]);
    const alongs = wraps[0]!.cut.map(([, along]) => along);
    // bore 13, outside 15 in a cylinder of 20: deepest where the outside stands beside it, √(20² − 15²) from its axis. At the crown the
    // wall's innermost and outermost reach it at once, 20 from the axis
    expect(Math.max(...alongs)).toBeCloseTo(-Math.sqrt(400 - 13 ** 2), 6);
    expect(Math.min(...alongs)).toBeCloseTo(-20, 6);
    // whoever stands before the car's front and looks at the upright post has the car's left to the right
    expect(wraps[0]!.lines).toEqual(["front", "left", "back", "right"]);
    // once round the outside
    expect(wraps[0]!.cut.at(-1)![0]).toBeCloseTo(Math.PI * 30, 9);
  });

  it("fits the thinner of two tubes that end at each other, and of equals the later", () => {
    const meeting = (a: number, b: number) =>
      templatesOf(
        frameOf({
          a: tube(
            [
              [-300, 300, 500],
              [0, 300, 500],
            ],
            a,
          ),
          b: tube(
            [
              [0, 300, 200],
              [0, 300, 500],
            ],
            b,
          ),
        }),
      ).wraps.map(({ of }) => of);
    expect(meeting(30, 40)).toEqual(["a"]);
    expect(meeting(40, 30)).toEqual(["b"]);
    expect(meeting(30, 30)).toEqual(["b"]);
  });

  it("tells both ends of a tube how far apart their papers lie", () => {
    const other = tube(
      [
        [-300, -300, 500],
        [300, -300, 500],
      ],
      40,
    );
    const { wraps } = templatesOf(
      frameOf({
        rail: RAIL,
        other,
        cross: tube(
          [
            [0, 300, 500],
            [100, -300, 500],
          ],
          30,
        ),
      }),
    );
    const [first, last] = wraps as [(typeof wraps)[0], (typeof wraps)[0]];
    expect(wraps).toHaveLength(2);
    agrees("wrapEdges", first.edgesApart_mm, Math.hypot(100, 600) + first.edge_mm + last.edge_mm, 9);
    expect(last.edgesApart_mm).toBe(first.edgesApart_mm);
    expect(Number.isInteger(first.edge_mm)).toBe(true);
    // the paper's edge stands beyond the whole cut, by no more than a centimetre and its rounding
    for (const { cut, edge_mm } of [first, last])
      agreesOn(
        "wrapEdge",
        cut.every(([, along]) => along >= edge_mm),
        true,
      );
  });

  it("gives the right side a paper of its own where the cut is not alike both ways round", () => {
    const slant = {
      rail: RAIL,
      stay: tube(
        [
          [200, 150, 250],
          [0, 300, 500],
        ],
        28,
      ),
    };
    const [left, right] = templatesOf(frameOf(slant, true)).wraps;
    expect([left!.side, right!.side]).toEqual(["left", "right"]);
    for (const [i, [, along]] of left!.cut.entries()) expect(right!.cut.at(-1 - i)![1]).toBeCloseTo(along, 9);
    expect(left!.lines[1]).toBe(right!.lines[3]);
    // drawn in the mirror, the right side's tube has the same cut
    const image = {
      rail: tube(
        [
          [-300, -300, 500],
          [300, -300, 500],
        ],
        40,
      ),
      stay: tube(
        [
          [200, -150, 250],
          [0, -300, 500],
        ],
        28,
      ),
    };
    const [drawn] = templatesOf(frameOf(image)).wraps;
    for (const [i, [, along]] of right!.cut.entries()) expect(drawn!.cut[i]![1]).toBeCloseTo(along, 9);
  });

  it("wraps nothing for a saw cut, and says where that is", () => {
    const { wraps, square } = templatesOf(sceneOf([{ id: "cross", made: { as: "cross tube", plate_mm: 5 } }]));
    expect(wraps).toEqual([]);
    // the end plates are 5 thick and the tube is drawn through them
    expect(square.map(({ id, along_mm }) => [id, along_mm])).toEqual([
      ["cross first end", -5],
      ["cross last end", -5],
    ]);
  });

  it("warns of a tube that is wider than what it meets, and of one that reaches past its edge", () => {
    const wide = templatesOf(
      frameOf({
        rod: tube(
          [
            [-300, 300, 500],
            [300, 300, 500],
          ],
          20,
        ),
        post: tube(
          [
            [0, 300, 200],
            [0, 300, 500],
          ],
          30,
        ),
      }),
    );
    // of the rod and the post that ends within it
    expect(wide.wraps.find(({ of }) => of === "post")!.warnings).toEqual(["passes"]);
    const short = templatesOf(
      frameOf({
        stub: tube(
          [
            [-10, 300, 500],
            [5, 300, 500],
          ],
          60,
        ),
        post: tube(
          [
            [0, 300, 200],
            [0, 300, 500],
          ],
          30,
        ),
      }),
    );
    expect(short.wraps.find(({ of }) => of === "post")!.warnings).toContain("overhangs");
  });

  it("says which part is not there, and which has nothing to cut", () => {
    const ask = (id: string) => () => templatesOf(frameOf({ rail: RAIL }), { ...USUAL_WISHES, parts: [id] });
    expect(ask("nothing")).toThrow(InputError);
    expect(ask("nothing")).toThrow(/no part with a shape of its own is called "nothing"/);
    expect(ask("rail")).toThrow(/rail has neither a plate nor a tube that ends at another part/);
  });
});
