import { dot, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import { directionOf, lengthOf, pointAt } from "./fields.ts";
import { looseFrame, looseRun, partFrame, runBetween, sum } from "./frames.ts";
import { type Anchor, recipe } from "./recipe.ts";
import { eye, group } from "./solids.ts";

/** Arms and links. Usual sizes are common practice, no source. */

const ENDS = {
  a: pointAt("One end", [-40, 330, 430], "inboard"),
  b: pointAt("Other end", [-20, 650, 440], "outboard"),
} as const;

const EYES = {
  eye_mm: lengthOf("Eye diameter", 38),
  eyeWidth_mm: lengthOf("Eye width", 36),
  eyeAxis: directionOf("Eyes run along", [1, 0, 0]),
} as const;

export const tubeWithEyes = recipe({
  name: "tube with eyes",
  on: "chassis",
  role: "link",
  isArm: true,
  fields: { ...ENDS, diameter_mm: lengthOf("Tube diameter", 25), wall_mm: lengthOf("Wall", 2.5), ...EYES },
  shape(v, refuse) {
    runBetween(v.a, v.b, refuse);
    wallFits(v.wall_mm, v.diameter_mm, refuse);
    return group([
      { kind: "tube", path: [v.a.near(NONE), v.b.near(NONE)], diameter_mm: v.diameter_mm, wall_mm: v.wall_mm },
      ...bothEyes(v),
    ]);
  },
  handles: (v) => [rimHandle(v.a, v.b, v.diameter_mm), eyeHandle(v)],
});

export const crankedArm = recipe({
  name: "cranked arm",
  on: "chassis",
  role: "link",
  isArm: true,
  fields: {
    ...ENDS,
    diameter_mm: lengthOf("Tube diameter", 25),
    wall_mm: lengthOf("Wall", 2.5),
    bow_mm: lengthOf("Steps aside by", 45),
    toward: directionOf("Steps aside towards", [0, 0, 1]),
    flat_mm: lengthOf("Straight in the middle", 110),
    ramp_mm: lengthOf("Length of each step", 70),
    bend_mm: lengthOf("Bend radius, centre line", 50),
    ...EYES,
  },
  shape(v, refuse) {
    const { along, length_mm } = runBetween(v.a, v.b, refuse);
    wallFits(v.wall_mm, v.diameter_mm, refuse);
    const { toward } = partFrame(along, v.toward, "toward", refuse);
    const straight_mm = (length_mm - v.flat_mm) / 2 - v.ramp_mm;
    const turn_rad = Math.atan2(v.bow_mm, v.ramp_mm);
    const takes_mm = v.bend_mm * Math.tan(turn_rad / 2);
    if (straight_mm < takes_mm) {
      const room_mm = length_mm - 2 * v.ramp_mm - 2 * takes_mm;
      refuse("flat_mm", `the arm is too short for it: ${length_mm.toFixed(1)} mm from eye to eye`, least(room_mm));
    }
    if (v.flat_mm < 2 * takes_mm) {
      refuse("flat_mm", "the two bends beside it run into each other", `${(2 * takes_mm).toFixed(1)} mm or more`);
    }
    if (Math.hypot(v.bow_mm, v.ramp_mm) < 2 * takes_mm) {
      refuse("bend_mm", "two bends do not fit on one step", "a smaller radius or longer steps");
    }
    if (v.bend_mm <= v.diameter_mm / 2) {
      refuse("bend_mm", "it is too tight for this tube", "a centre-line radius above half of the diameter");
    }
    const fromA = (run: number, aside: number) => v.a.near(sum([run, along], [aside, toward]));
    const fromB = (run: number, aside: number) => v.b.near(sum([-run, along], [aside, toward]));
    return group([
      {
        kind: "tube",
        path: [
          v.a.near(NONE),
          fromA(straight_mm, 0),
          fromA(straight_mm + v.ramp_mm, v.bow_mm),
          fromB(straight_mm + v.ramp_mm, v.bow_mm),
          fromB(straight_mm, 0),
          v.b.near(NONE),
        ],
        diameter_mm: v.diameter_mm,
        bend_mm: v.bend_mm,
        wall_mm: v.wall_mm,
      },
      ...bothEyes(v),
    ]);
  },
  handles(v) {
    const { toward } = looseFrame(looseRun(v.a, v.b), v.toward);
    const middle = sum([0.5, v.a.at], [0.5, v.b.at], [v.bow_mm, toward]);
    return [{ key: "bow_mm", at: middle, along: toward, perPull: 1 }, eyeHandle(v)];
  },
});

export const boxedArm = recipe({
  name: "boxed arm",
  on: "chassis",
  role: "link",
  isArm: true,
  fields: {
    ...ENDS,
    heightA_mm: lengthOf("Height at one end", 60),
    heightB_mm: lengthOf("Height at the other end", 44),
    widthA_mm: lengthOf("Width at one end", 46),
    widthB_mm: lengthOf("Width at the other end", 36),
    ...EYES,
  },
  shape(v, refuse) {
    const { along } = runBetween(v.a, v.b, refuse);
    const { toward: wide, across: high } = partFrame(along, v.eyeAxis, "eyeAxis", refuse);
    const face = (end: Anchor, width_mm: number, height_mm: number) =>
      [-1, 1].flatMap((i) =>
        [-1, 1].map((j) => end.near(sum([(i * width_mm) / 2, wide], [(j * height_mm) / 2, high]))),
      );
    return group([
      { kind: "hull", points: [...face(v.a, v.widthA_mm, v.heightA_mm), ...face(v.b, v.widthB_mm, v.heightB_mm)] },
      ...bothEyes(v),
    ]);
  },
  handles(v) {
    const { across } = looseFrame(looseRun(v.a, v.b), v.eyeAxis);
    return [
      { key: "heightA_mm", at: sum([1, v.a.at], [v.heightA_mm / 2, across]), along: across, perPull: 2 },
      { key: "heightB_mm", at: sum([1, v.b.at], [v.heightB_mm / 2, across]), along: across, perPull: 2 },
    ];
  },
});

const NONE: Vec3 = [0, 0, 0];

interface Eyed {
  readonly a: Anchor;
  readonly b: Anchor;
  readonly eye_mm: number;
  readonly eyeWidth_mm: number;
  readonly eyeAxis: Vec3;
}

function bothEyes({ a, b, eye_mm, eyeWidth_mm, eyeAxis }: Eyed) {
  const { axis } = looseFrame(eyeAxis, subtract(b.at, a.at));
  return [eye(a, axis, eyeWidth_mm, eye_mm), eye(b, axis, eyeWidth_mm, eye_mm)];
}

function eyeHandle({ a, b, eye_mm, eyeAxis }: Eyed) {
  const back = scale(looseRun(a, b), -1);
  const { toward } = looseFrame(eyeAxis, back);
  return { key: "eye_mm", at: sum([1, a.at], [eye_mm / 2, toward]), along: toward, perPull: 2 };
}

/** At the middle of the tube, on the side that looks up most. */
function rimHandle(a: Anchor, b: Anchor, diameter_mm: number) {
  const run = looseRun(a, b);
  const up: Vec3 = Math.abs(dot(run, [0, 0, 1])) > 0.9 ? [1, 0, 0] : [0, 0, 1];
  const { toward } = looseFrame(run, up);
  const at = sum([0.5, a.at], [0.5, b.at], [diameter_mm / 2, toward]);
  return { key: "diameter_mm", at, along: toward, perPull: 2 };
}

function wallFits(wall_mm: number, diameter_mm: number, refuse: (key: string, wrong: string, wanted: string) => never) {
  if (wall_mm > diameter_mm / 2) {
    refuse("wall_mm", `is ${wall_mm}, thicker than the tube`, `at most half the diameter, ${diameter_mm / 2}`);
  }
}

function least(room_mm: number): string {
  return room_mm > 0 ? `at most ${room_mm.toFixed(1)} mm, or shorter steps` : "shorter steps, or a smaller bend radius";
}
