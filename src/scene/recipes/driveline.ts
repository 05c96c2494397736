import { normalise, scale } from "../../maths/vec3.ts";
import { angleOf, choiceOf, countOf, directionOf, lengthOf, lengthOrNone, pointAt, pointsAt } from "./fields.ts";
import { looseFrame, partFrame, sum } from "./frames.ts";
import { rectangle } from "./outlines.ts";
import { recipe } from "./recipe.ts";
import { barrel, group, growingAlong, loaf, plate } from "./solids.ts";

/** Castings, pans, tanks and pipes. Usual sizes are common practice, no source. */

const FORWARD = directionOf("Length runs towards", [1, 0, 0]);
const UP = directionOf("Height runs towards", [0, 0, 1]);

const FAMILIES = ["final drive", "engine block", "transfer case"] as const;

export const casing = recipe({
  name: "casing",
  on: "powertrain",
  role: "casing",
  fields: {
    family: choiceOf("Family", FAMILIES),
    at: pointAt("Middle of the casing", [15, 40, 330]),
    axis: FORWARD,
    up: UP,
    length_mm: lengthOf("Length", 260),
    height_mm: lengthOf("Height", 220),
    width_mm: lengthOf("Width", 200),
    corner_mm: lengthOf("Corner radius", 22),
    lean_deg: angleOf("Upper part leans, left", 0, [-60, 60]),
  },
  shape(v, refuse) {
    const frame = partFrame(v.axis, v.up, "up", refuse);
    const { axis, toward: up, across } = frame;
    const most_mm = Math.min(v.length_mm, v.height_mm, v.width_mm) / 5;
    if (v.corner_mm > most_mm) {
      refuse("corner_mm", `a corner radius of ${v.corner_mm} mm does not fit this casing`, `at most ${most_mm} mm`);
    }
    const ball = (along: number, high: number, aside: number, diameter_mm: number) => ({
      at: v.at.near(sum([along, axis], [high, up], [aside, across])),
      diameter_mm,
    });
    const [l, h, w] = [v.length_mm, v.height_mm, v.width_mm];
    if (v.family === "final drive") {
      // the drum takes the rear 60 % of the length, the nose the rest; side bearings stand in the drum's middle
      const drum_mm = Math.min(h, 0.6 * l);
      const nose_mm = 0.45 * drum_mm;
      const centre = -l / 2 + drum_mm / 2;
      return group([
        {
          kind: "hull",
          spheres: [-1, 1].flatMap((side) => [
            ball(centre, (h - drum_mm) / 2, side * (0.35 * w - drum_mm * 0.35), 0.7 * drum_mm),
            ball(centre, -(h - drum_mm) / 2, side * (0.35 * w - drum_mm * 0.35), 0.7 * drum_mm),
            ball(l / 2 - nose_mm / 2, 0, 0, nose_mm),
          ]),
        },
        barrel({ ...v.at, near: (by) => v.at.near(sum([1, by], [centre, axis])) }, across, w / 2, w / 2, 0.5 * drum_mm),
      ]);
    }
    if (v.family === "engine block") {
      // crankcase below, head and cover above, each half of the height
      const lean_rad = (v.lean_deg * Math.PI) / 180;
      const headUp = sum([Math.cos(lean_rad), up], [-Math.sin(lean_rad), across]);
      return group([
        loaf(v.at, frame, {
          offset: scale(up, v.corner_mm / 2 - h / 4),
          size_mm: [l, h / 2 + v.corner_mm, w],
          corner_mm: v.corner_mm,
        }),
        loaf(v.at, partFrame(axis, headUp, "lean_deg", refuse), {
          offset: scale(headUp, h / 4 - v.corner_mm / 2),
          size_mm: [0.96 * l, h / 2 + v.corner_mm, 0.72 * w],
          corner_mm: v.corner_mm,
        }),
      ]);
    }
    const shaft_mm = Math.min(h, w) * 0.62;
    const apart = (h - shaft_mm) / 2;
    const lean = Math.tan((v.lean_deg * Math.PI) / 180) * apart;
    return {
      kind: "hull",
      spheres: [-1, 1].flatMap((end) =>
        [-1, 1].flatMap((shaft) =>
          [-1, 1].map((side) =>
            ball(
              end * (l / 2 - v.corner_mm),
              shaft * (h / 2 - v.corner_mm),
              -shaft * lean + side * (w / 2 - v.corner_mm) * 0.8,
              2 * v.corner_mm,
            ),
          ),
        ),
      ),
    };
  },
  handles(v) {
    const { axis, toward: up, across } = looseFrame(v.axis, v.up);
    return [
      { key: "length_mm", at: sum([1, v.at.at], [v.length_mm / 2, axis]), along: axis, perPull: 2 },
      { key: "height_mm", at: sum([1, v.at.at], [v.height_mm / 2, up]), along: up, perPull: 2 },
      { key: "width_mm", at: sum([1, v.at.at], [v.width_mm / 2, across]), along: across, perPull: 2 },
    ];
  },
});

export const sump = recipe({
  name: "sump",
  on: "powertrain",
  role: "casing",
  fields: {
    at: pointAt("Middle of the rail's top", [100, 0, 330]),
    axis: FORWARD,
    up: UP,
    length_mm: lengthOf("Pan length", 380),
    width_mm: lengthOf("Pan width", 220),
    depth_mm: lengthOf("Depth below the rail", 130),
    floorLength_mm: lengthOf("Floor length", 260),
    floorWidth_mm: lengthOf("Floor width", 170),
    rail_mm: lengthOf("Rail thickness", 8),
    railWidth_mm: lengthOf("Rail stands out by", 16),
    plug_mm: lengthOrNone("Plug diameter", 24),
    plugReach_mm: lengthOf("Plug stands out by", 12),
  },
  shape(v, refuse) {
    const { axis, toward: up, across } = partFrame(v.axis, v.up, "up", refuse);
    if (v.plug_mm >= Math.min(v.floorLength_mm, v.floorWidth_mm)) {
      refuse("plug_mm", "the plug is wider than the floor", "a smaller plug or a larger floor");
    }
    const corner = (i: number, j: number, below_mm: number, length_mm: number, width_mm: number) =>
      v.at.near(sum([(i * length_mm) / 2, axis], [-below_mm, up], [(j * width_mm) / 2, across]));
    const floor_mm = v.rail_mm + v.depth_mm;
    const signs = [-1, 1].flatMap((i) => [-1, 1].map((j) => [i, j] as const));
    const [l, w] = [v.length_mm / 2 + v.railWidth_mm, v.width_mm / 2 + v.railWidth_mm];
    // the plug sits at the rear of the floor, a plug's width from its edge
    const plugAt = sum([-(v.floorLength_mm / 2 - v.plug_mm), axis], [-floor_mm, up]);
    return group([
      {
        kind: "hull",
        points: [
          ...signs.map(([i, j]) => corner(i, j, v.rail_mm, v.length_mm, v.width_mm)),
          ...signs.map(([i, j]) => corner(i, j, floor_mm, v.floorLength_mm, v.floorWidth_mm)),
        ],
      },
      plate(v.at, {
        outline: rectangle(-l, -w, l, w),
        thickness_mm: v.rail_mm,
        offset: [0, 0, 0],
        ...growingAlong(scale(up, -1), axis),
      }),
      v.plug_mm > 0
        ? {
            kind: "cylinder",
            from: v.at.near(plugAt),
            to: v.at.near(sum([1, plugAt], [-v.plugReach_mm, up])),
            diameter_mm: v.plug_mm,
          }
        : null,
    ]);
  },
  handles(v) {
    const { axis, toward: up, across } = looseFrame(v.axis, v.up);
    const floor = sum([1, v.at.at], [-(v.rail_mm + v.depth_mm), up]);
    return [
      { key: "depth_mm", at: floor, along: scale(up, -1), perPull: 1 },
      { key: "length_mm", at: sum([1, v.at.at], [v.length_mm / 2, axis]), along: axis, perPull: 2 },
      { key: "width_mm", at: sum([1, v.at.at], [v.width_mm / 2, across]), along: across, perPull: 2 },
    ];
  },
});

export const gearbox = recipe({
  name: "gearbox",
  on: "powertrain",
  role: "casing",
  fields: {
    at: pointAt("Middle of the bell's face", [330, 0, 360]),
    axis: directionOf("Tail lies towards", [-1, 0, 0]),
    bell_mm: lengthOf("Bell diameter", 330),
    bellLength_mm: lengthOf("Bell length", 140),
    case_mm: lengthOf("Case diameter", 190),
    caseLength_mm: lengthOf("Case length", 260),
    tail_mm: lengthOf("Tail diameter", 95),
    tailLength_mm: lengthOf("Tail length", 160),
    flange_mm: lengthOrNone("Output flange diameter", 100),
    flangeWidth_mm: lengthOf("Output flange thickness", 12),
  },
  shape(v, refuse) {
    const axis = normalise(v.axis);
    if (axis.every((value) => value === 0))
      refuse("axis", "the direction has no length", "a direction such as [1, 0, 0]");
    if (v.case_mm > v.bell_mm) refuse("case_mm", "the case is wider than the bell", `at most ${v.bell_mm} mm`);
    if (v.flange_mm > 0 && v.flangeWidth_mm >= v.tailLength_mm) {
      refuse("flangeWidth_mm", "the flange is longer than the tail", `less than ${v.tailLength_mm} mm`);
    }
    const caseEnd_mm = v.bellLength_mm + v.caseLength_mm;
    const end_mm = caseEnd_mm + v.tailLength_mm;
    return group([
      {
        kind: "cone",
        from: v.at.near([0, 0, 0]),
        to: v.at.near(scale(axis, v.bellLength_mm)),
        fromDiameter_mm: v.bell_mm,
        toDiameter_mm: v.case_mm,
      },
      barrel(v.at, axis, -v.bellLength_mm, caseEnd_mm, v.case_mm),
      barrel(v.at, axis, -caseEnd_mm, end_mm, v.tail_mm),
      v.flange_mm > 0 ? barrel(v.at, axis, v.flangeWidth_mm - end_mm, end_mm, v.flange_mm) : null,
    ]);
  },
  handles(v) {
    const axis = normalise(v.axis);
    const { toward } = looseFrame(axis, [0, 0, 1]);
    const end_mm = v.bellLength_mm + v.caseLength_mm;
    return [
      { key: "bell_mm", at: sum([1, v.at.at], [v.bell_mm / 2, toward]), along: toward, perPull: 2 },
      {
        key: "case_mm",
        at: sum([1, v.at.at], [v.bellLength_mm + v.caseLength_mm / 2, axis], [v.case_mm / 2, toward]),
        along: toward,
        perPull: 2,
      },
      { key: "tailLength_mm", at: sum([1, v.at.at], [end_mm + v.tailLength_mm, axis]), along: axis, perPull: 1 },
    ];
  },
});

export const exhaustRun = recipe({
  name: "exhaust run",
  on: "powertrain",
  role: "exhaust",
  fields: {
    path: pointsAt(
      "Points",
      [
        [260, -170, 300],
        [60, -190, 230],
        [-380, -330, 230],
        [-820, -330, 290],
      ],
      [2, 20],
    ),
    diameter_mm: lengthOf("Pipe diameter", 54),
    bend_mm: lengthOf("Bend radius, centre line", 82),
    silencer_mm: lengthOrNone("Silencer diameter", 0),
    silencerLength_mm: lengthOf("Silencer length", 300),
    silencerOn: countOf("Silencer on straight", 2, [1, 19]),
  },
  shape(v, refuse) {
    if (v.bend_mm <= v.diameter_mm / 2) {
      refuse("bend_mm", "it is too tight for this pipe", "a centre-line radius above half of the diameter");
    }
    const pipe = {
      kind: "tube" as const,
      path: v.path.map((point) => point.near([0, 0, 0])),
      diameter_mm: v.diameter_mm,
      bend_mm: v.bend_mm,
    };
    if (v.silencer_mm === 0) return pipe;
    const [from, to] = [v.path[v.silencerOn - 1], v.path[v.silencerOn]];
    if (!from || !to) {
      return refuse("silencerOn", `there is no straight ${v.silencerOn}`, `1 to ${v.path.length - 1}`);
    }
    const middle = sum([0.5, to.at], [-0.5, from.at]);
    const along = normalise(middle);
    const room_mm = 2 * Math.hypot(...middle);
    if (v.silencerLength_mm > room_mm) {
      refuse("silencerLength_mm", "the silencer is longer than its straight", `at most ${room_mm.toFixed(1)} mm`);
    }
    return group([
      pipe,
      {
        kind: "cylinder",
        from: from.near(sum([1, middle], [-v.silencerLength_mm / 2, along])),
        to: from.near(sum([1, middle], [v.silencerLength_mm / 2, along])),
        diameter_mm: v.silencer_mm,
      },
    ]);
  },
  handles(v) {
    const [from, to] = [v.path[0]!, v.path[1]!];
    const along = normalise(sum([1, to.at], [-1, from.at]));
    const { toward } = looseFrame(along, Math.abs(along[2]) > 0.9 ? [1, 0, 0] : [0, 0, 1]);
    const at = sum([0.5, from.at], [0.5, to.at], [v.diameter_mm / 2, toward]);
    return [{ key: "diameter_mm", at, along: toward, perPull: 2 }];
  },
});

export const tank = recipe({
  name: "tank",
  on: "chassis",
  role: "tank",
  fields: {
    at: pointAt("Middle of the tank", [-560, 0, 420]),
    axis: FORWARD,
    up: UP,
    length_mm: lengthOf("Length", 360),
    height_mm: lengthOf("Height", 240),
    width_mm: lengthOf("Width", 520),
    corner_mm: lengthOrNone("Edge radius", 25),
    seam_mm: lengthOrNone("Seam stands out by", 12),
    seamWidth_mm: lengthOf("Seam thickness", 4),
    neck_mm: lengthOrNone("Filler neck diameter", 56),
    neckReach_mm: lengthOf("Filler neck above the tank", 110),
  },
  shape(v, refuse) {
    const frame = partFrame(v.axis, v.up, "up", refuse);
    const { axis, toward: up, across } = frame;
    const thinnest_mm = Math.min(v.length_mm, v.height_mm, v.width_mm);
    if (2 * v.corner_mm >= thinnest_mm) {
      refuse("corner_mm", `an edge radius of ${v.corner_mm} mm does not fit`, `less than ${thinnest_mm / 2} mm`);
    }
    const [l, w] = [v.length_mm / 2 + v.seam_mm, v.width_mm / 2 + v.seam_mm];
    const neckFoot = sum([v.width_mm / 2 - v.corner_mm - v.neck_mm, across]);
    return group([
      loaf(v.at, frame, {
        offset: [0, 0, 0],
        size_mm: [v.length_mm, v.height_mm, v.width_mm],
        corner_mm: v.corner_mm,
      }),
      v.seam_mm > 0
        ? plate(v.at, {
            outline: rectangle(-l, -w, l, w),
            thickness_mm: v.seamWidth_mm,
            offset: scale(up, -v.seamWidth_mm / 2),
            ...growingAlong(up, axis),
          })
        : null,
      v.neck_mm > 0
        ? {
            kind: "cylinder",
            from: v.at.near(neckFoot),
            to: v.at.near(sum([1, neckFoot], [v.height_mm / 2 + v.neckReach_mm, up])),
            diameter_mm: v.neck_mm,
          }
        : null,
    ]);
  },
  handles(v) {
    const { axis, toward: up, across } = looseFrame(v.axis, v.up);
    return [
      { key: "length_mm", at: sum([1, v.at.at], [v.length_mm / 2, axis]), along: axis, perPull: 2 },
      { key: "height_mm", at: sum([1, v.at.at], [v.height_mm / 2, up]), along: up, perPull: 2 },
      { key: "width_mm", at: sum([1, v.at.at], [v.width_mm / 2, across]), along: across, perPull: 2 },
    ];
  },
});
