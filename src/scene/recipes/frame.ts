import type { Vec3 } from "../../maths/vec3.ts";
import { directionOf, lengthOf, lengthOrNone, pointAt } from "./fields.ts";
import { looseFrame, looseRun, partFrame, runBetween, sum } from "./frames.ts";
import { rectangle, roundedRectangle } from "./outlines.ts";
import { recipe } from "./recipe.ts";
import { group, growingAlong, plate } from "./solids.ts";

/** Frame members. Usual sizes are common practice, no source. */

/** EN 10219-2: outside corners of cold-formed hollow sections up to 6 mm of wall are rounded by twice the wall, inside by once. */
const OUTSIDE_CORNER_PER_WALL = 2;

export const frameRail = recipe({
  name: "frame rail",
  on: "chassis",
  role: "frame",
  fields: {
    a: pointAt("One end", [-450, 300, 560]),
    b: pointAt("Other end", [450, 300, 560]),
    up: directionOf("Height runs along", [0, 0, 1]),
    height_mm: lengthOf("Height", 60),
    width_mm: lengthOf("Width", 40),
    wall_mm: lengthOf("Wall", 3),
  },
  shape(v, refuse) {
    const { along, length_mm } = runBetween(v.a, v.b, refuse);
    const { toward: up } = partFrame(along, v.up, "up", refuse);
    const thinnest_mm = Math.min(v.height_mm, v.width_mm);
    const corner_mm = OUTSIDE_CORNER_PER_WALL * v.wall_mm;
    if (2 * corner_mm > thinnest_mm) {
      refuse("wall_mm", `a wall of ${v.wall_mm} mm does not fit this section`, `at most ${thinnest_mm / 4} mm`);
    }
    const inside = roundedRectangle(
      v.height_mm - 2 * v.wall_mm,
      v.width_mm - 2 * v.wall_mm,
      corner_mm - v.wall_mm,
      true,
    );
    return plate(v.a, {
      outline: roundedRectangle(v.height_mm, v.width_mm, corner_mm),
      holes: [inside],
      thickness_mm: length_mm,
      offset: [0, 0, 0],
      ...growingAlong(along, up),
    });
  },
  handles(v) {
    const { toward: up, across } = looseFrame(looseRun(v.a, v.b), v.up);
    const middle = sum([0.5, v.a.at], [0.5, v.b.at]);
    return [
      { key: "height_mm", at: sum([1, middle], [v.height_mm / 2, up]), along: up, perPull: 2 },
      { key: "width_mm", at: sum([1, middle], [v.width_mm / 2, across]), along: across, perPull: 2 },
    ];
  },
});

const NONE: Vec3 = [0, 0, 0];

export const crossTube = recipe({
  name: "cross tube",
  on: "chassis",
  role: "frame",
  fields: {
    a: pointAt("Left end", [-250, 300, 540]),
    b: pointAt("Right end", [-250, -300, 540]),
    up: directionOf("End plates rise towards", [0, 0, 1]),
    diameter_mm: lengthOf("Diameter", 44.5),
    wall_mm: lengthOf("Wall", 2.5),
    plate_mm: lengthOrNone("End plate thickness", 5),
    plateSide_mm: lengthOf("End plate, each side", 70),
  },
  shape(v, refuse) {
    const { along, length_mm } = runBetween(v.a, v.b, refuse);
    if (v.wall_mm > v.diameter_mm / 2) {
      refuse("wall_mm", `is ${v.wall_mm}, thicker than the tube`, `at most half the diameter, ${v.diameter_mm / 2}`);
    }
    if (2 * v.plate_mm >= length_mm) refuse("plate_mm", "the end plates meet", `less than ${length_mm / 2} mm`);
    const side = v.plateSide_mm / 2;
    const { toward: u } = partFrame(along, v.up, "up", refuse);
    const outline = rectangle(-side, -side, side, side);
    const plates =
      v.plate_mm > 0
        ? [
            plate(v.a, { outline, thickness_mm: v.plate_mm, offset: NONE, ...growingAlong(along, u) }),
            plate(v.b, {
              outline,
              thickness_mm: v.plate_mm,
              offset: NONE,
              ...growingAlong([-along[0], -along[1], -along[2]], u),
            }),
          ]
        : [];
    return group([
      { kind: "tube", path: [v.a.near(NONE), v.b.near(NONE)], diameter_mm: v.diameter_mm, wall_mm: v.wall_mm },
      ...plates,
    ]);
  },
  handles(v) {
    const { toward } = looseFrame(looseRun(v.a, v.b), v.up);
    const at = sum([0.5, v.a.at], [0.5, v.b.at], [v.diameter_mm / 2, toward]);
    return [{ key: "diameter_mm", at, along: toward, perPull: 2 }];
  },
});
