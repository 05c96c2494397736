import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mirror, type Vec3 } from "../../src/maths/vec3.ts";
import { comparedSides, measuredPoint, rightAsMeasured, withMeasured } from "../../src/scene/measured.ts";
import { listPoints } from "../../src/scene/points.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { writeScene } from "../../src/scene/write.ts";
import { smallScene } from "../app/smallScene.ts";

const scene = smallScene({ datums: [{ id: "rail", at: [100, 300, 200], forward: [1, 0.2, 0] }] });
const datum = resolveScene(scene).datums[0]!;

describe("points measured on the car", () => {
  it("are written to the file and read back, version 1, and leave the drawing as it is", () => {
    const tapes = { accuracy_mm: 1, lines: [{ stud: "stud 1", at: [0, 0, 0] as Vec3, length_mm: 838.7 }] };
    const measured = withMeasured(scene, "right", "toe.in", { at: [-150, -332, 222], tolerance_mm: 1, tapes });
    const back = readScene(writeScene(measured), "a.json");
    expect(back).toEqual(measured);
    expect(back.version).toBe(1);
    expect(listPoints(back)).toEqual(listPoints(scene));
    expect(measuredPoint(back, "right", "toe.in")?.tapes).toEqual(tapes);
    expect(measuredPoint(back, "left", "toe.in")).toBeNull();
  });

  it("leave nothing behind when taken out", () => {
    const both = withMeasured(
      withMeasured(scene, "right", "toe.in", { at: [0, -1, 2] }),
      "left",
      "toe.in",
      { at: [0, 1, 2] }, // biome-ignore format: one measured point a line
    );
    expect(withMeasured(withMeasured(both, "left", "toe.in", null), "right", "toe.in", null)).toEqual(scene);
  });

  it("must be points of the scene", () => {
    const wrong = withMeasured(scene, "right", "toe.inn", { at: [0, -1, 2] });
    expect(() => resolveScene(wrong, "a.json")).toThrow(
      'a.json: measured.right["toe.inn"]: there is no point named "toe.inn"; wanted: toe.in?',
    );
  });
});

describe("left against right", () => {
  it("differs by nothing where the right is the left one's image, read from any datum", () => {
    const points = listPoints(scene);
    const mirrored = points.reduce(
      (document, { name, at }) => withMeasured(document, "right", name, { at: mirror(at) }),
      scene,
    );
    for (const from of [null, datum]) {
      const pairs = comparedSides(mirrored, from);
      expect(pairs.map(({ name }) => name)).toEqual(points.map(({ name }) => name));
      for (const { difference } of pairs) for (const mm of Object.values(difference)) expect(mm).toBeCloseTo(0, 9);
    }
  });

  it("reads right less left, outwards positive on either side", () => {
    const one = withMeasured(scene, "right", "toe.in", { at: [-148, -333, 221] });
    expect(comparedSides(one, null)[0]!.difference).toEqual({ forward_mm: 2, out_mm: 3, up_mm: -4 });
  });

  it("gives the right corner as measured: mounts moved, lengths kept, the wheel side left alone", () => {
    const by = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(by, by, by, (x, y, z) => {
        const inboard: Vec3 = [-150 + x, 330 + y, 225 + z];
        const document = withMeasured(
          withMeasured(scene, "right", "toe.in", { at: mirror(inboard) }),
          "right",
          "toe.out",
          { at: [0, -1, 2] }, // biome-ignore format: one measured point a line
        );
        const resolved = resolveScene(rightAsMeasured(document));
        const toe = resolved.members.find(({ id }) => id === "toe")!;
        expect(toe).toMatchObject({ inboard: [-150, 330, 225], inboardMounted: inboard, outboard: [-150, 670, 230] });
      }),
      { seed: 51, numRuns: 50 },
    );
  });
});
