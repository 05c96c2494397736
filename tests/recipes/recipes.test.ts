import { describe, expect, it } from "vitest";
import { bounds, isClosedManifold, shellVolume_mm3, volume_mm3 } from "../../src/geometry/measure.ts";
import { transformSolid } from "../../src/geometry/rearrange.ts";
import { applyPose, invertPose, rotationPose, turnByPose } from "../../src/maths/pose.ts";
import { mirror, normalise, type Vec3 } from "../../src/maths/vec3.ts";
import { isVector } from "../../src/scene/pointResolver.ts";
import { type MadeDocument, made as madeSchema, RECIPES } from "../../src/scene/recipes/made.ts";
import { makeShape, mapMade, pointsOfMade, sizeHandles, usualMade } from "../../src/scene/recipes/makeShape.ts";
import { refusal } from "../scene/fixture.ts";
import { drawMade, drawShape, type Points, placeIn } from "./draw.ts";
import { MIRROR_MM } from "./tolerances.ts";

/** The usual part hung on named points instead of places. */
function named(name: string): { made: MadeDocument; points: Points } {
  const points: Record<string, Vec3> = {};
  const made = mapMade(usualMade(name), (point) => {
    const key = `p${Object.keys(points).length}`;
    points[key] = point as Vec3;
    return key;
  });
  return { made, points };
}

const names = RECIPES.map(({ name }) => name);
const moved = (points: Points, by: Vec3): Points =>
  Object.fromEntries(Object.entries(points).map(([key, [x, y, z]]) => [key, [x + by[0], y + by[1], z + by[2]]]));

describe.each(names)("the recipe %s", (name) => {
  it("passes its own schema, and its fields have the units that their keys say", () => {
    expect(madeSchema.safeParse(usualMade(name)).error).toBeUndefined();
    const { fields } = RECIPES.find((recipe) => recipe.name === name)!;
    for (const [key, field] of Object.entries(fields)) {
      expect(key.endsWith("_mm")).toBe(field.kind === "length");
      expect(key.endsWith("_deg")).toBe(field.kind === "angle");
    }
  });

  it("is a closed, outward, manifold solid in every piece", () => {
    const solid = drawMade(usualMade(name));
    expect(isClosedManifold(solid)).toBe(true);
    for (const shell of solid.shells) {
      expect(shell.closed).toBe(true);
      expect(shellVolume_mm3(solid, shell)).toBeGreaterThan(0);
    }
    expect(solid.convexPieces).not.toBeNull();
  });

  it("follows its points: drawn on the same record when all of them move alike", () => {
    const { made, points } = named(name);
    const shape = makeShape(made, placeIn(points));
    const by: Vec3 = [13, -7, 29];
    const [before, after] = [bounds(drawShape(shape, points)), bounds(drawShape(shape, moved(points, by)))];
    for (const i of [0, 1, 2] as const) {
      expect(after.min[i] - before.min[i]).toBeCloseTo(by[i], 3);
      expect(after.max[i] - before.max[i]).toBeCloseTo(by[i], 3);
    }
  });

  it("is the same part in any attitude", () => {
    const made = usualMade(name);
    const turn = rotationPose(normalise([1, 2, -1]), 0.7, [10, 20, 30]);
    const turned = mapMade(
      made,
      (point) => applyPose(turn, point as Vec3),
      (direction) => turnByPose(turn, direction),
    );
    const [before, after] = [drawMade(made), transformSolid(drawMade(turned), invertPose(turn))];
    expect(Math.abs(volume_mm3(after) / volume_mm3(before) - 1)).toBeLessThan(2e-3);
    for (const end of ["min", "max"] as const) {
      for (const i of [0, 1, 2] as const) {
        expect(Math.abs(bounds(after)[end][i] - bounds(before)[end][i])).toBeLessThan(MIRROR_MM);
      }
    }
  });

  it("is its own mirror image when its points and directions are mirrored", () => {
    const made = usualMade(name);
    const image = mapMade(made, (point) => mirror(point as Vec3), mirror);
    const [left, right] = [bounds(drawMade(made)), bounds(drawMade(image))];
    expect(Math.abs(right.min[0] - left.min[0])).toBeLessThan(MIRROR_MM);
    expect(Math.abs(right.max[2] - left.max[2])).toBeLessThan(MIRROR_MM);
    expect(Math.abs(right.min[1] + left.max[1])).toBeLessThan(MIRROR_MM);
    expect(Math.abs(right.max[1] + left.min[1])).toBeLessThan(MIRROR_MM);
  });

  it("has handles that stand at its surface and grow the size they name", () => {
    const made = usualMade(name);
    const place = (point: unknown) => point as Vec3;
    for (const handle of sizeHandles(made, place)) {
      expect(typeof made[handle.key]).toBe("number");
      expect(Math.hypot(...handle.along)).toBeCloseTo(1, 9);
      const grown = { ...made, [handle.key]: (made[handle.key] as number) + 2 * handle.perPull };
      const after = sizeHandles(grown, place).find(({ key }) => key === handle.key)!;
      const along = [0, 1, 2].reduce((sum, i) => sum + (after.at[i]! - handle.at[i]!) * handle.along[i]!, 0);
      // pulled by 2 mm, the handle goes with the finger
      expect(along).toBeCloseTo(2, 6);
    }
  });

  it("hangs every point of its shape on its own points", () => {
    const { made, points } = named(name);
    const shape = makeShape(made, placeIn(points));
    const used = [...JSON.stringify(shape).matchAll(/"(p\d+)"/g)].map((found) => found[1]);
    expect(used.every((key) => key! in points)).toBe(true);
    expect(pointsOfMade(made).every(({ point }) => !isVector(point))).toBe(true);
    expect(new Set(used).size).toBeGreaterThan(0);
  });
});

describe("sizes as asked, measured on the mesh", () => {
  const extent = (made: MadeDocument, axis: 0 | 1 | 2) => {
    const { min, max } = bounds(drawMade(made));
    return max[axis] - min[axis];
  };
  const expectExtent = (made: MadeDocument, axis: 0 | 1 | 2, wanted_mm: number) => {
    const found = extent(made, axis);
    expect(found).toBeGreaterThanOrEqual(wanted_mm - 1e-3);
    expect(found).toBeLessThanOrEqual(wanted_mm + 0.21);
  };
  const of = (as: string, sizes: Record<string, unknown>) => ({ ...usualMade(as), ...sizes }) as MadeDocument;

  it("clevis: gap, lugs, reach and width", () => {
    const clevis = of("clevis", { at: [0, 0, 0], gap_mm: 32, plate_mm: 6, reach_mm: 50, width_mm: 44, base_mm: 8 });
    expectExtent(clevis, 0, 32 + 12);
    expectExtent(clevis, 1, 22 + 50 + 8);
    expectExtent(clevis, 2, 44);
  });

  it("tube with eyes: over the eyes", () => {
    const link = of("tube with eyes", { a: [0, 0, 0], b: [0, 300, 0], eye_mm: 40, eyeWidth_mm: 30 });
    expectExtent(link, 1, 340);
    expectExtent(link, 0, 30);
    expectExtent(link, 2, 40);
  });

  it("cranked arm: steps aside by the bow", () => {
    const arm = of("cranked arm", { a: [0, 0, 0], b: [0, 400, 0], bow_mm: 50, diameter_mm: 25, eye_mm: 38 });
    const { min, max } = bounds(drawMade(arm));
    expect(max[2]).toBeGreaterThanOrEqual(62.5 - 1e-3);
    expect(max[2]).toBeLessThan(62.7);
    expect(min[2]).toBeCloseTo(-19, 0);
  });

  it("disc and caliper: disc, face and caliper", () => {
    const brake = of("disc and caliper", { centre: [0, 0, 0], disc_mm: 300, bridge_mm: 25 });
    const { min, max } = bounds(drawMade(brake));
    expect(max[0]).toBeCloseTo(150, 0);
    expect(min[0]).toBeCloseTo(-175, 0);
    // the disc's middle lies 4 mm outboard of the centre: 42 − 48 + 20 / 2
    expect(max[1]).toBeCloseTo(4 + 110 / 2, 0);
  });

  it("tank, sump, gearbox, hub: over all", () => {
    expectExtent(of("tank", { seam_mm: 0, neck_mm: 0, length_mm: 400 }), 0, 400);
    expectExtent(of("sump", { length_mm: 400, railWidth_mm: 20 }), 0, 440);
    expectExtent(of("sump", { depth_mm: 100, rail_mm: 8, plugReach_mm: 12 }), 2, 120);
    expectExtent(of("gearbox", { bellLength_mm: 100, caseLength_mm: 200, tailLength_mm: 150 }), 0, 450);
    expectExtent(of("joint housing", { flange_mm: 110 }), 2, 110);
    expectExtent(of("joint boot", { at: [0, 0, 0], along: [0, 500, 0], length_mm: 90 }), 1, 90);
    // its clamp's ear stands 5 mm out all round as the shaft turns
    expectExtent(of("joint boot", { at: [0, 0, 0], along: [0, 500, 0], wide_mm: 80 }), 2, 90);
    expectExtent(of("plate with gusset", { plate_mm: 6, gussetDepth_mm: 50 }), 0, 56);
    expectExtent(of("bar clamp", { feet_mm: 100 }), 0, 100);
    expectExtent(of("casing", { family: "engine block", height_mm: 300 }), 2, 300);
    expectExtent(of("casing", { family: "transfer case", length_mm: 300 }), 0, 300);
    expectExtent(of("casing", { family: "final drive", width_mm: 240 }), 1, 240);
  });
});

describe("volumes against closed forms and tables", () => {
  const volume = (as: string, sizes: Record<string, unknown>) =>
    volume_mm3(drawMade({ ...usualMade(as), ...sizes } as MadeDocument, {}, 0.01));

  it("frame rail: the section of EN 10219-2 Table B.3, 50 x 50 x 3, 5.41 cm² (table value from memory)", () => {
    const rail = volume("frame rail", { a: [0, 0, 0], b: [1000, 0, 0], height_mm: 50, width_mm: 50, wall_mm: 3 });
    expect(rail / 1000 / 100).toBeCloseTo(5.41, 1);
    // its own formula: A = 2T(B + H − 2T) − (4 − π)(ro² − ri²), ro = 2T, ri = T
    const area = 2 * 3 * (50 + 50 - 6) - (4 - Math.PI) * (36 - 9);
    expect(rail / 1000).toBeGreaterThanOrEqual(area);
    expect(rail / 1000).toBeLessThan(area + 0.05 * 200);
  });

  it("clevis: two lugs less their holes, and the base", () => {
    const sizes = { gap_mm: 32, plate_mm: 6, reach_mm: 50, width_mm: 44, base_mm: 8, pin_mm: 12 };
    const lugs = 2 * 6 * (44 * 50 + (Math.PI * 22 ** 2) / 2 - Math.PI * 6 ** 2);
    const found = volume("clevis", sizes);
    expect(found / (lugs + 8 * 44 * 44)).toBeGreaterThanOrEqual(1);
    expect(found / (lugs + 8 * 44 * 44)).toBeLessThan(1.002);
  });

  it("boxed arm: a prismatoid, L/6·(A1 + 4·Am + A2), and its eyes", () => {
    const sizes = { a: [0, 0, 0], b: [0, 400, 0], heightA_mm: 60, widthA_mm: 50, heightB_mm: 40, widthB_mm: 30 };
    const box = (400 / 6) * (60 * 50 + 4 * 50 * 40 + 40 * 30);
    const eyes = 2 * (Math.PI / 4) * 38 ** 2 * 36;
    expect(volume("boxed arm", sizes) / (box + eyes)).toBeCloseTo(1, 3);
  });

  it("gearbox: a frustum and two cylinders", () => {
    const sizes = { bell_mm: 300, bellLength_mm: 120, case_mm: 200, caseLength_mm: 250, tail_mm: 100 };
    const frustum = ((Math.PI * 120) / 12) * (300 ** 2 + 300 * 200 + 200 ** 2);
    const rest = (Math.PI / 4) * (200 ** 2 * 250 + 100 ** 2 * 160);
    expect(volume("gearbox", { ...sizes, flange_mm: 0 }) / (frustum + rest)).toBeCloseTo(1, 3);
  });

  it("exhaust run: area by the length of its centre line (Pappus)", () => {
    const sizes = {
      path: [
        [0, 0, 0],
        [300, 0, 0],
        [300, 400, 0],
      ],
      diameter_mm: 50,
      bend_mm: 80,
    };
    const centreLine = 300 + 400 - 2 * 80 + (Math.PI / 2) * 80;
    expect(volume("exhaust run", sizes) / ((Math.PI / 4) * 50 ** 2 * centreLine)).toBeCloseTo(1, 2);
  });

  it("tank: a box of rounded edges (Steiner's formula)", () => {
    const [a, b, c, r] = [400, 300, 200, 30];
    const [x, y, z] = [a - 2 * r, b - 2 * r, c - 2 * r];
    const steiner =
      x * y * z + 2 * r * (x * y + y * z + z * x) + Math.PI * r ** 2 * (x + y + z) + (4 / 3) * Math.PI * r ** 3;
    const found = volume("tank", { length_mm: a, height_mm: b, width_mm: c, corner_mm: r, seam_mm: 0, neck_mm: 0 });
    expect(found / steiner).toBeCloseTo(1, 3);
  });
});

describe("sizes that do not go together are refused at their field", () => {
  it.each([
    ["clevis", { pin_mm: 50 }, "made.pin_mm"],
    ["clevis", { toward: [2, 0, 0] }, "made.toward"],
    ["cranked arm", { flat_mm: 300 }, "made.flat_mm"],
    ["cranked arm", { bend_mm: 10 }, "made.bend_mm"],
    ["plate with gusset", { holesUp_mm: 98 }, "made.hole_mm"],
    ["disc and caliper", { caliper_mm: 24 }, "made.caliper_mm"],
    ["frame rail", { wall_mm: 12 }, "made.wall_mm"],
    ["exhaust run", { silencer_mm: 150, silencerOn: 9 }, "made.silencerOn"],
    ["tank", { corner_mm: 130 }, "made.corner_mm"],
    ["joint boot", { length_mm: 600 }, "made.length_mm"],
  ] as const)("%s with %o", (as, sizes, path) => {
    const error = refusal(() => makeShape({ ...usualMade(as), ...sizes } as MadeDocument, (point) => point as Vec3));
    expect([error.code, error.path]).toEqual(["wrong-value", path]);
    expect(error.wanted.length).toBeGreaterThan(3);
  });

  it("two ends at one place", () => {
    for (const as of ["tube with eyes", "cross tube", "frame rail", "boxed arm"]) {
      const made = { ...usualMade(as), a: [1, 2, 3], b: [1, 2, 3] } as MadeDocument;
      expect(refusal(() => makeShape(made, (point) => point as Vec3)).path).toBe("made.b");
    }
  });
});
