import { describe, expect, it } from "vitest";
import { boxAround, polygonOf } from "../../../src/fabrication/templates/drawing.ts";
import { bendAllowance, USUAL_FOLDING } from "../../../src/fabrication/templates/fold.ts";
import { templatesOf, USUAL_WISHES } from "../../../src/fabrication/templates/templates.ts";
import { InputError } from "../../../src/scene/error.ts";
import { agrees, agreesOn, agreesWithin } from "../../truth/agreement.ts";
import { sceneOf } from "./bench.ts";

const right = (inside_mm: number) => ({ angle_deg: 90, inside_mm, way: "up" as const });
const CLEVIS = { as: "clevis", gap_mm: 40, plate_mm: 4, base_mm: 4, width_mm: 36, reach_mm: 48, pin_mm: 12 };
const clevis = sceneOf([{ id: "clevis", made: CLEVIS }]);
const strap = sceneOf([
  { id: "strap", made: { as: "bar clamp", bush_mm: 40, plate_mm: 3, reach_mm: 30, feet_mm: 110, width_mm: 30 } },
]);

const folded = (document: typeof clevis, id: string, kFactor: number, inside_mm: number | null = 5) =>
  templatesOf(document, {
    ...USUAL_WISHES,
    folded: [id].filter((it) => it === "clevis"),
    folding: { kFactor, inside_mm },
  }).plates[0]!;
const lengthOf = (plate: ReturnType<typeof folded>) => {
  const { min, max } = boxAround(polygonOf(plate.outline, 1e-4));
  return max[0] - min[0];
};

describe("what a bend takes up", () => {
  // Machinery's Handbook, "Bending Sheet Metal", length of stock for a right angle (from memory): L = 0.55 T + 1.57 R for soft brass
  // and copper, 0.64 T + 1.57 R for soft steel and aluminium, 0.71 T + 1.57 R for hard copper and spring steel
  it.each([0.55, 0.64, 0.71])("is the handbook's %s T + 1.57 R", (perThickness) => {
    for (const t of [1.5, 3, 6]) {
      for (const r of [0, 3, 10]) {
        const handbook_mm = perThickness * t + 1.57 * r;
        agreesWithin("bendAllowance", bendAllowance(right(r), t, perThickness / 1.5708), handbook_mm, 0.01);
      }
    }
  });

  it("has a usual K factor that is the handbook's for soft steel", () => {
    expect(USUAL_FOLDING.kFactor).toBeCloseTo(0.64 / (Math.PI / 2), 2);
  });
});

describe("a clevis from one plate", () => {
  it("has as much steel as it folds up to, its neutral line in the middle (Pappus)", () => {
    const plate = folded(clevis, "clevis", 0.5);
    // section of the folded plate: two lugs, base and two quarter rings of inside radius 5; the lugs' round ends stand 18 beyond the pins
    const quarter = (Math.PI / 4) * (9 ** 2 - 5 ** 2);
    const section = 4 * (2 * (48 - 5 + 18) + (40 - 10)) + 2 * quarter;
    agrees("flatLength", lengthOf(plate) * 4, section, 6);
  });

  it("is shorter for a neutral line nearer to the inside, by the bends alone", () => {
    const longer = lengthOf(folded(clevis, "clevis", 0.5)) - lengthOf(folded(clevis, "clevis", 0.4));
    expect(longer).toBeCloseTo(2 * (Math.PI / 2) * 0.1 * 4, 9);
  });

  it("has its pins where they stand when it is folded", () => {
    const { holes, folds, thickness_mm } = folded(clevis, "clevis", 0.42);
    const [a, b] = holes.map((hole) => (hole.kind === "circle" ? hole.centre[0] : Number.NaN)) as [number, number];
    // walk the inside face: pin to the bend, the bend itself gone, the floor; both lugs stand 40 apart at 48 from the floor
    const [first, second] = folds as [(typeof folds)[0], (typeof folds)[0]];
    const begin = first.from[0] - first.allowance_mm / 2;
    const floor = second.from[0] - second.allowance_mm / 2 - (first.from[0] + first.allowance_mm / 2);
    agrees("foldPlaces", begin - a + first.inside_mm, 48, 9);
    // across the fold it runs from edge to edge of a plate 36 wide
    agrees("foldPlaces", Math.abs(first.to[1] - first.from[1]), 36, 9);
    agrees("foldPlaces", first.to[0] - first.from[0], 0, 9);
    agrees("foldPlaces", first.allowance_mm, (Math.PI / 2) * (5 + 0.42 * 4), 9);
    for (const hole of holes) if (hole.kind === "circle") agrees("holeDiameter", hole.diameter_mm, 12, 9);
    agreesOn("plateThickness", thickness_mm, 4);
    agrees("foldPlaces", floor + 2 * first.inside_mm, 40, 9);
    agrees("foldPlaces", b - (second.from[0] + second.allowance_mm / 2) + second.inside_mm, 48, 9);
  });

  it("keeps pin to mounting face where the base was drawn thicker, and says so", () => {
    const thick = sceneOf([{ id: "clevis", made: { ...CLEVIS, base_mm: 6 } }]);
    const plate = folded(thick, "clevis", 0.42);
    agreesOn("foldDifference", plate.differs, [{ what: "base-thickness", drawn_mm: 6, folded_mm: 4 }]);
    expect(lengthOf(plate) - lengthOf(folded(clevis, "clevis", 0.42))).toBeCloseTo(2 * 2, 9);
  });

  it("comes in pieces unless it is asked for in one", () => {
    const { plates, canFold } = templatesOf(clevis);
    expect(plates.map(({ id, count }) => [id, count])).toEqual([
      ["clevis 1", 2],
      ["clevis 2", 1],
    ]);
    expect(canFold).toEqual(["clevis"]);
  });

  it("refuses bends that do not fit and neutral lines outside the plate, by what mends it", () => {
    expect(() => folded(clevis, "clevis", 0.42, 21)).toThrow(InputError);
    expect(() => folded(clevis, "clevis", 0.42, 21)).toThrow(/clevis does not fold .*between the lugs/);
    expect(() => folded(clevis, "clevis", 0.8)).toThrow(/K factor of 0\.8/);
    expect(() =>
      templatesOf(sceneOf([{ id: "p", made: { as: "plate with gusset" } }]), { ...USUAL_WISHES, folded: ["p"] }),
    ).toThrow(/not a part that folds/);
  });
});

describe("a strap laid flat", () => {
  it("has as much steel as it folds up to, its neutral line in the middle (Pappus)", () => {
    const plate = folded(strap, "strap", 0.5, 4);
    const foot = 110 / 2 - 20 - 3 - 4;
    const leg = 30 - 3 - 4;
    const bends = 2 * (Math.PI / 4) * (7 ** 2 - 4 ** 2) + (Math.PI / 2) * (23 ** 2 - 20 ** 2);
    expect(lengthOf(plate) * 3).toBeCloseTo(3 * 2 * (foot + leg) + bends, 6);
    const told = plate.folds.map((fold) => [fold.way, fold.angle_deg, fold.inside_mm]);
    agreesOn("bends", told, [
      ["down", 90, 4],
      ["up", 180, 20],
      ["down", 90, 4],
    ]);
  });
});
