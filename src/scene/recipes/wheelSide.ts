import { normalise, scale } from "../../maths/vec3.ts";
import { angleOf, countOf, directionOf, lengthOf, lengthOrNone, pointAt, pointsAt } from "./fields.ts";
import { looseFrame, looseRun, partFrame, runBetween, sum } from "./frames.ts";
import { arcAround, type Flat } from "./outlines.ts";
import { recipe } from "./recipe.ts";
import { barrel, group, growingAlong, plate } from "./solids.ts";

/** What turns or stands at the wheel. Usual sizes are common practice, no source. */

const CENTRE = pointAt("Wheel centre", [0, 740, 305], "wheel");
const SPIN = directionOf("Spin axis, outboard", [0, 1, 0]);

export const hub = recipe({
  name: "hub with bosses",
  on: "carrier",
  role: "hub",
  fields: {
    centre: CENTRE,
    axis: SPIN,
    face_mm: lengthOf("Wheel centre to hub face", 42),
    barrel_mm: lengthOf("Barrel diameter", 90),
    length_mm: lengthOf("Barrel length", 70),
    flange_mm: lengthOf("Flange diameter", 135),
    flangeWidth_mm: lengthOf("Flange thickness", 10),
    joints: pointsAt(
      "Joints",
      [
        [-5, 660, 430],
        [5, 680, 200],
        [-90, 660, 240],
      ],
      [1, 8],
      "outboard",
    ),
    boss_mm: lengthOf("Boss diameter", 36),
    web_mm: lengthOf("Web at the barrel", 56),
  },
  shape(v, refuse) {
    const axis = normalise(v.axis);
    if (axis.every((value) => value === 0))
      refuse("axis", "the direction has no length", "a direction such as [0, 1, 0]");
    if (v.flangeWidth_mm >= v.length_mm) {
      refuse("flangeWidth_mm", "the flange is longer than the barrel", `less than ${v.length_mm} mm`);
    }
    const middle = scale(axis, v.face_mm - v.length_mm / 2);
    const web = Math.min(v.web_mm, v.length_mm);
    return group([
      barrel(v.centre, axis, v.length_mm - v.face_mm, v.face_mm, v.barrel_mm),
      barrel(v.centre, axis, v.flangeWidth_mm - v.face_mm, v.face_mm, v.flange_mm),
      ...v.joints.map((joint) => ({
        kind: "hull" as const,
        spheres: [
          { at: v.centre.near(middle), diameter_mm: web },
          { at: joint.near([0, 0, 0]), diameter_mm: v.boss_mm },
        ],
      })),
    ]);
  },
  handles(v) {
    const axis = normalise(v.axis);
    const { toward } = looseFrame(axis, [0, 0, 1]);
    const face = sum([1, v.centre.at], [v.face_mm, axis]);
    return [
      { key: "flange_mm", at: sum([1, face], [v.flange_mm / 2, toward]), along: toward, perPull: 2 },
      {
        key: "length_mm",
        at: sum([1, v.centre.at], [v.face_mm - v.length_mm, axis]),
        along: scale(axis, -1),
        perPull: 1,
      },
    ];
  },
});

/** Air between the caliper and the disc it straddles, each way. */
const CALIPER_AIR_MM = 3;

export const discAndCaliper = recipe({
  name: "disc and caliper",
  on: "carrier",
  role: "brake",
  fields: {
    centre: CENTRE,
    axis: SPIN,
    face_mm: lengthOf("Wheel centre to hub face", 42),
    disc_mm: lengthOf("Disc diameter", 280),
    thickness_mm: lengthOf("Disc thickness", 20),
    hat_mm: lengthOf("Hat diameter", 150),
    hatHeight_mm: lengthOf("Hub face to disc's inboard face", 48),
    caliperToward: directionOf("Caliper lies towards", [-1, 0, 0]),
    caliper_mm: lengthOf("Caliper over all, along the axis", 110),
    caliperSpan_deg: angleOf("Caliper spans", 62, [10, 170]),
    pad_mm: lengthOf("Pad depth", 52),
    bridge_mm: lengthOf("Caliper beyond the disc's rim", 22),
  },
  shape(v, refuse) {
    const { axis, toward } = partFrame(v.axis, v.caliperToward, "caliperToward", refuse);
    if (v.hat_mm >= v.disc_mm) refuse("hat_mm", "the hat is wider than the disc", `less than ${v.disc_mm} mm`);
    if (v.hatHeight_mm <= v.thickness_mm) {
      refuse("hatHeight_mm", "the disc reaches past its hat", `more than the disc's thickness, ${v.thickness_mm} mm`);
    }
    if (v.pad_mm >= (v.disc_mm - v.hat_mm) / 2) {
      refuse("pad_mm", "the pad runs into the hat", `less than ${(v.disc_mm - v.hat_mm) / 2} mm`);
    }
    const side_mm = (v.caliper_mm - v.thickness_mm) / 2 - CALIPER_AIR_MM;
    if (side_mm <= 0) {
      const least = v.thickness_mm + 2 * CALIPER_AIR_MM;
      refuse("caliper_mm", "the caliper is thinner than what it straddles", `more than ${least} mm`);
    }
    const inner_mm = v.face_mm - v.hatHeight_mm;
    const half_rad = ((v.caliperSpan_deg / 2) * Math.PI) / 180;
    const rim_mm = v.disc_mm / 2;
    const outside_mm = rim_mm + v.bridge_mm;
    const middle_mm = inner_mm + v.thickness_mm / 2;
    const piece = (from_mm: number, thickness_mm: number, fromRadius_mm: number) =>
      plate(v.centre, {
        outline: sector(fromRadius_mm, outside_mm, half_rad),
        thickness_mm,
        offset: scale(axis, from_mm),
        ...growingAlong(axis, toward),
      });
    const isOver = v.bridge_mm > CALIPER_AIR_MM;
    return group([
      barrel(v.centre, axis, -inner_mm, inner_mm + v.thickness_mm, v.disc_mm),
      barrel(v.centre, axis, -inner_mm, v.face_mm, v.hat_mm),
      piece(middle_mm - v.caliper_mm / 2, side_mm, rim_mm - v.pad_mm),
      piece(middle_mm + v.caliper_mm / 2 - side_mm, side_mm, rim_mm - v.pad_mm),
      isOver ? piece(middle_mm - v.caliper_mm / 2, v.caliper_mm, rim_mm + CALIPER_AIR_MM) : null,
    ]);
  },
  handles(v) {
    const { axis, toward, across } = looseFrame(v.axis, v.caliperToward);
    const middle = sum([1, v.centre.at], [v.face_mm - v.hatHeight_mm + v.thickness_mm / 2, axis]);
    return [
      { key: "disc_mm", at: sum([1, middle], [v.disc_mm / 2, across]), along: across, perPull: 2 },
      {
        key: "bridge_mm",
        at: sum([1, middle], [v.disc_mm / 2 + v.bridge_mm, toward]),
        along: toward,
        perPull: 1,
      },
      {
        key: "caliper_mm",
        at: sum([1, middle], [v.disc_mm / 2, toward], [-v.caliper_mm / 2, axis]),
        along: scale(axis, -1),
        perPull: 2,
      },
    ];
  },
});

/** A piece of a ring about the origin, its middle on +u; the inner side is cut by chords' corners on its own circle. */
function sector(inner_mm: number, outer_mm: number, half_rad: number): Flat[] {
  const outside = arcAround([0, 0], outer_mm, -half_rad, half_rad);
  const steps = outside.length - 1;
  const inside = Array.from({ length: steps + 1 }, (_, i): Flat => {
    const angle = half_rad - (2 * half_rad * i) / steps;
    return [round(inner_mm * Math.cos(angle)), round(inner_mm * Math.sin(angle))];
  });
  return [...outside, ...inside];
}

function round(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

export const jointHousing = recipe({
  name: "joint housing",
  on: "powertrain",
  role: "driveline",
  fields: {
    at: pointAt("Joint centre", [15, 188, 315]),
    axis: directionOf("Shaft leaves towards", [0, 1, 0]),
    diameter_mm: lengthOf("Housing diameter", 92),
    ahead_mm: lengthOf("Centre to open end", 24),
    behind_mm: lengthOf("Centre to flange", 40),
    flange_mm: lengthOrNone("Flange diameter", 108),
    flangeWidth_mm: lengthOf("Flange thickness", 10),
  },
  shape(v, refuse) {
    const axis = normalise(v.axis);
    if (axis.every((value) => value === 0))
      refuse("axis", "the direction has no length", "a direction such as [0, 1, 0]");
    return group([
      barrel(v.at, axis, v.behind_mm, v.ahead_mm, v.diameter_mm),
      v.flange_mm > 0 ? barrel(v.at, axis, v.behind_mm, v.flangeWidth_mm - v.behind_mm, v.flange_mm) : null,
    ]);
  },
  handles(v) {
    const axis = normalise(v.axis);
    const { toward } = looseFrame(axis, [0, 0, 1]);
    return [
      { key: "diameter_mm", at: sum([1, v.at.at], [v.diameter_mm / 2, toward]), along: toward, perPull: 2 },
      { key: "behind_mm", at: sum([1, v.at.at], [-v.behind_mm, axis]), along: scale(axis, -1), perPull: 1 },
    ];
  },
});

/** Depth of a fold per boot diameter at that place. */
const FOLD_PER_DIAMETER = 0.16;
/** A band clamp at either end, as its ear sweeps round with the shaft. Common practice, no source. */
const CLAMP_WIDTH_MM = 8;
const CLAMP_EAR_MM = 5;

export const boot = recipe({
  name: "joint boot",
  on: "driveshaft",
  role: "driveline",
  fields: {
    at: pointAt("Joint centre", [15, 188, 315]),
    along: pointAt("Shaft runs to", [0, 672, 305]),
    start_mm: lengthOf("Centre to the wide end", 24),
    length_mm: lengthOf("Length", 85),
    wide_mm: lengthOf("Diameter at the housing", 88),
    narrow_mm: lengthOf("Diameter at the shaft", 34),
    folds: countOf("Folds", 5, [1, 9]),
  },
  shape(v, refuse) {
    const { along, length_mm } = runBetween(v.at, v.along, refuse);
    if (v.start_mm + v.length_mm > length_mm) {
      refuse("length_mm", "the boot is longer than the shaft", `at most ${(length_mm - v.start_mm).toFixed(1)} mm`);
    }
    const step_mm = v.length_mm / (2 * v.folds);
    const diameterAt = (k: number) => {
      const plain = v.wide_mm + ((v.narrow_mm - v.wide_mm) * k) / (2 * v.folds);
      return k % 2 === 1 ? plain * (1 - FOLD_PER_DIAMETER) : plain;
    };
    const at = (k: number) => v.at.near(scale(along, v.start_mm + k * step_mm));
    const clamp_mm = Math.min(CLAMP_WIDTH_MM, v.length_mm / 4);
    const end_mm = v.start_mm + v.length_mm;
    return group([
      ...Array.from({ length: 2 * v.folds }, (_, k) => ({
        kind: "cone" as const,
        from: at(k),
        to: at(k + 1),
        fromDiameter_mm: tidy(diameterAt(k)),
        toDiameter_mm: tidy(diameterAt(k + 1)),
      })),
      barrel(v.at, along, -v.start_mm, v.start_mm + clamp_mm, v.wide_mm + 2 * CLAMP_EAR_MM),
      barrel(v.at, along, clamp_mm - end_mm, end_mm, v.narrow_mm + 2 * CLAMP_EAR_MM),
    ]);
  },
  handles(v) {
    const along = looseRun(v.at, v.along);
    return [
      {
        key: "length_mm",
        at: sum([1, v.at.at], [v.start_mm + v.length_mm, along]),
        along,
        perPull: 1,
      },
    ];
  },
});

function tidy(value_mm: number): number {
  return Math.round(value_mm * 1e3) / 1e3;
}
