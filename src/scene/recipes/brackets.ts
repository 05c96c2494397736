import { scale } from "../../maths/vec3.ts";
import { directionOf, lengthOf, lengthOrNone, pointAt } from "./fields.ts";
import { looseFrame, partFrame, sum } from "./frames.ts";
import { lug, rectangle, roundHole } from "./outlines.ts";
import { recipe } from "./recipe.ts";
import { group, growingAlong, plate } from "./solids.ts";

/** What is welded to the frame. Usual sizes are common practice, no source. */

export const clevis = recipe({
  name: "clevis",
  on: "chassis",
  role: "bracket",
  fields: {
    at: pointAt("Pin", [-40, 330, 430], "inboard"),
    axis: directionOf("Pin runs along", [1, 0, 0]),
    toward: directionOf("Base lies towards", [0, -1, 0]),
    gap_mm: lengthOf("Gap between lugs", 38),
    plate_mm: lengthOf("Lug thickness", 5),
    width_mm: lengthOf("Lug width", 40),
    reach_mm: lengthOf("Pin to base", 45),
    pin_mm: lengthOf("Pin hole", 12),
    base_mm: lengthOrNone("Base thickness", 6),
  },
  shape(v, refuse) {
    const { axis, toward } = partFrame(v.axis, v.toward, "toward", refuse);
    if (v.pin_mm >= v.width_mm) {
      refuse("pin_mm", `a hole of ${v.pin_mm} mm leaves nothing of the lug`, `less than the lug's ${v.width_mm} mm`);
    }
    if (v.reach_mm <= v.pin_mm / 2) {
      refuse("reach_mm", "the pin hole runs into the base", `more than half of the pin hole, ${v.pin_mm / 2} mm`);
    }
    const outline = lug(v.width_mm, v.reach_mm);
    const holes = [roundHole([0, 0], v.pin_mm)];
    const lugFrom = (along_mm: number) =>
      plate(v.at, {
        outline,
        holes,
        thickness_mm: v.plate_mm,
        offset: scale(axis, along_mm),
        ...growingAlong(axis, toward),
      });
    const half = v.gap_mm / 2 + v.plate_mm;
    const base =
      v.base_mm > 0
        ? plate(v.at, {
            outline: rectangle(-half, -v.width_mm / 2, half, v.width_mm / 2),
            thickness_mm: v.base_mm,
            offset: scale(toward, v.reach_mm),
            ...growingAlong(toward, axis),
          })
        : null;
    return group([lugFrom(v.gap_mm / 2), lugFrom(-half), base]);
  },
  handles(v) {
    const { axis, toward, across } = looseFrame(v.axis, v.toward);
    return [
      { key: "reach_mm", at: sum([1, v.at.at], [v.reach_mm + v.base_mm, toward]), along: toward, perPull: 1 },
      { key: "gap_mm", at: sum([1, v.at.at], [v.gap_mm / 2 + v.plate_mm, axis]), along: axis, perPull: 2 },
      { key: "width_mm", at: sum([1, v.at.at], [v.width_mm / 2, across]), along: across, perPull: 2 },
    ];
  },
});

export const gussetedPlate = recipe({
  name: "plate with gusset",
  on: "chassis",
  role: "bracket",
  fields: {
    at: pointAt("Foot of the plate", [-60, 300, 380], "inboard"),
    normal: directionOf("Gusset lies towards", [-1, 0, 0]),
    up: directionOf("Plate rises towards", [0, 0, 1]),
    width_mm: lengthOf("Plate width", 80),
    height_mm: lengthOf("Plate height", 100),
    plate_mm: lengthOf("Plate thickness", 6),
    hole_mm: lengthOrNone("Bolt holes", 10.5),
    holesAcross_mm: lengthOf("Holes apart, across", 54),
    holesUp_mm: lengthOf("Holes apart, up", 70),
    gusset_mm: lengthOrNone("Gusset thickness", 5),
    gussetDepth_mm: lengthOf("Gusset along the foot", 50),
    gussetHeight_mm: lengthOf("Gusset up the plate", 75),
  },
  shape(v, refuse) {
    const { axis: normal, toward: up, across } = partFrame(v.normal, v.up, "up", refuse);
    const { hole_mm, holesAcross_mm, holesUp_mm } = v;
    if (hole_mm > 0 && (holesAcross_mm + hole_mm >= v.width_mm || holesUp_mm + hole_mm >= v.height_mm)) {
      refuse("hole_mm", "the bolt holes reach past the plate's edge", "smaller holes, or holes nearer to each other");
    }
    if (hole_mm > 0 && (holesAcross_mm <= hole_mm || holesUp_mm <= hole_mm)) {
      refuse("hole_mm", "the bolt holes run into each other", "smaller holes, or holes farther apart");
    }
    if (v.gussetHeight_mm > v.height_mm) {
      refuse("gussetHeight_mm", "it reaches past the plate", `at most the plate's height, ${v.height_mm} mm`);
    }
    // u up the plate, v across it
    const middle = v.height_mm / 2;
    const holes =
      hole_mm > 0
        ? [-1, 1].flatMap((i) =>
            [-1, 1].map((j) => roundHole([middle + (i * holesUp_mm) / 2, (j * holesAcross_mm) / 2], hole_mm)),
          )
        : [];
    return group([
      plate(v.at, {
        outline: rectangle(0, -v.width_mm / 2, v.height_mm, v.width_mm / 2),
        holes,
        thickness_mm: v.plate_mm,
        offset: [0, 0, 0],
        ...growingAlong(normal, up),
      }),
      v.gusset_mm > 0
        ? plate(v.at, {
            outline: [
              [0, 0],
              [v.gussetDepth_mm, 0],
              [0, v.gussetHeight_mm],
            ],
            thickness_mm: v.gusset_mm,
            offset: sum([v.plate_mm, normal], [-v.gusset_mm / 2, across]),
            u: normal,
            v: up,
          })
        : null,
    ]);
  },
  handles(v) {
    const { axis: normal, toward: up, across } = looseFrame(v.normal, v.up);
    const middle = sum([1, v.at.at], [v.height_mm / 2, up]);
    return [
      { key: "height_mm", at: sum([1, v.at.at], [v.height_mm, up]), along: up, perPull: 1 },
      { key: "width_mm", at: sum([1, middle], [v.width_mm / 2, across]), along: across, perPull: 2 },
      {
        key: "gussetDepth_mm",
        at: sum([1, v.at.at], [v.plate_mm + v.gussetDepth_mm, normal]),
        along: normal,
        perPull: 1,
      },
    ];
  },
});

export const barClamp = recipe({
  name: "bar clamp",
  on: "chassis",
  role: "bracket",
  fields: {
    at: pointAt("Bar centre", [-200, 330, 300], "inboard"),
    axis: directionOf("Bar runs along", [0, 1, 0]),
    toward: directionOf("Feet lie towards", [0, 0, -1]),
    bush_mm: lengthOf("Bush diameter", 40),
    width_mm: lengthOf("Clamp width", 30),
    plate_mm: lengthOf("Strap thickness", 4),
    reach_mm: lengthOf("Bar centre to feet", 22),
    feet_mm: lengthOf("Over the feet", 92),
  },
  shape(v, refuse) {
    const { axis, toward } = partFrame(v.axis, v.toward, "toward", refuse);
    const outer_mm = v.bush_mm + 2 * v.plate_mm;
    if (v.feet_mm <= outer_mm) refuse("feet_mm", "the strap leaves no feet", `more than ${outer_mm} mm`);
    const start = scale(axis, -v.width_mm / 2);
    const directions = growingAlong(axis, toward);
    return group([
      plate(v.at, { outline: lug(outer_mm, v.reach_mm), thickness_mm: v.width_mm, offset: start, ...directions }),
      plate(v.at, {
        outline: rectangle(v.reach_mm - v.plate_mm, -v.feet_mm / 2, v.reach_mm, v.feet_mm / 2),
        thickness_mm: v.width_mm,
        offset: start,
        ...directions,
      }),
    ]);
  },
  handles(v) {
    const { toward, across } = looseFrame(v.axis, v.toward);
    return [
      { key: "reach_mm", at: sum([1, v.at.at], [v.reach_mm, toward]), along: toward, perPull: 1 },
      {
        key: "feet_mm",
        at: sum([1, v.at.at], [v.reach_mm, toward], [v.feet_mm / 2, across]),
        along: across,
        perPull: 2,
      },
    ];
  },
});
