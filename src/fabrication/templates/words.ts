import type { Vec3 } from "../../maths/vec3.ts";
import { PLATE_RULES, type PlateRule } from "./rules.ts";
import type { WrapWarning } from "./wrap.ts";

/** A way in the car, as a builder says it. */
export type Looks = "forward" | "back" | "out" | "in" | "left" | "right" | "up" | "down";
/** Where the zero line of a wrap lies. */
export type ZeroIs = "top" | "front";

type Values<Keys extends string> = Readonly<Record<Keys, string>>;

/** What templates say, in the language of the sheet; numbers come as they shall be read. */
export interface TemplateWords {
  readonly plate: (values: Values<"id" | "count" | "thickness">) => string;
  readonly plateEachSide: (values: Values<"id" | "count" | "thickness">) => string;
  readonly face: Readonly<Record<Looks, string>>;
  readonly fromInside: string;
  readonly rightAlike: string;
  readonly turnOver: string;
  readonly holes: (list: string) => string;
  readonly hole: (values: Values<"which" | "diameter">) => string;
  readonly coarse: (flats: string) => string;
  readonly fold: Readonly<Record<"up" | "down", (values: Values<"which" | "angle" | "inside" | "takes">) => string>>;
  readonly kFactor: (kFactor: string) => string;
  readonly baseDiffers: (values: Values<"drawn" | "folded">) => string;
  readonly warning: (text: string) => string;
  readonly rules: Readonly<Record<PlateRule, (values: Values<"which" | "is" | "least" | "times">) => string>>;
  /** Beside the arrow. */
  readonly up: string;
  readonly forward: string;
  readonly wrap: (values: Values<"name" | "diameter">) => string;
  readonly wrapWithWall: (values: Values<"name" | "diameter" | "wall">) => string;
  readonly wrapName: Readonly<Record<"first" | "last", (tube: string) => string>>;
  readonly wrapSide: Readonly<Record<"left" | "right", (name: string) => string>>;
  readonly servesBoth: string;
  readonly fitted: (values: Values<"part" | "angle">) => string;
  readonly howToWrap: Readonly<Record<ZeroIs, string>>;
  readonly edge: (short: string) => string;
  readonly edgesApart: (apart: string) => string;
  readonly wallNotTold: string;
  readonly wholeWall: string;
  readonly wrapWarnings: Readonly<Record<WrapWarning, string>>;
  /** Along the lines of a wrap. */
  readonly lines: Readonly<Record<Looks | ZeroIs, string>>;
  readonly printAsIs: string;
  readonly corrected: (values: Values<"across" | "down">) => string;
  readonly tiles: (values: Values<"pages" | "rows" | "columns">) => string;
  readonly tileOf: (values: Values<"tile" | "template">) => string;
  readonly notToScale: string;
}

const LOOKS: Readonly<Record<Looks, string>> = {
  forward: "forward",
  back: "back",
  out: "out",
  in: "in",
  left: "left",
  right: "right",
  up: "up",
  down: "down",
};
const faceTo = (way: Looks) => `This face: ${LOOKS[way]}`;
const practice = "common practice";
const standard = "EN 1993-1-8, table 3.3";

export const TEMPLATE_ENGLISH: TemplateWords = {
  plate: ({ id, count, thickness }) => `${id}: ${count} off, ${thickness} mm plate`,
  plateEachSide: ({ id, count, thickness }) => `${id}: ${count} off for each side, ${thickness} mm plate`,
  face: {
    forward: faceTo("forward"),
    back: faceTo("back"),
    out: faceTo("out"),
    in: faceTo("in"),
    left: faceTo("left"),
    right: faceTo("right"),
    up: faceTo("up"),
    down: faceTo("down"),
  },
  fromInside: "Seen from inside.",
  rightAlike: "The right side's is alike.",
  turnOver: "Drawn for the left side; turn it over for the right.",
  holes: (list) => `Holes: ${list}`,
  hole: ({ which, diameter }) => `${which} dia ${diameter}`,
  coarse: (flats) => `Holes are drawn with few corners, ${flats} between flats: drill to your bolt.`,
  fold: {
    up: ({ which, angle, inside, takes }) =>
      `Fold ${which}: ${angle} deg up, inside radius ${inside}, takes up ${takes} mm`,
    down: ({ which, angle, inside, takes }) =>
      `Fold ${which}: ${angle} deg down, inside radius ${inside}, takes up ${takes} mm`,
  },
  kFactor: (kFactor) => `K factor ${kFactor}: fold a test strip first.`,
  baseDiffers: ({ drawn, folded }) =>
    `The base is drawn ${drawn} mm thick and folds ${folded} mm thick; pin to mounting face stays.`,
  warning: (text) => `WARNING: ${text}`,
  rules: {
    "inside-radius": ({ which, is, least, times }) =>
      `fold ${which}: inside radius is ${is} mm, at least ${least} wanted (${times} x thickness; ${practice})`,
    "hole-to-fold": ({ which, is, least, times }) =>
      `hole ${which}: edge to where a bend begins is ${is} mm, at least ${least} wanted (${times} x thickness; ${practice})`,
    flange: ({ which, is, least, times }) =>
      `fold ${which}: flange over all is ${is} mm, at least ${least} wanted (${times} x thickness; ${practice})`,
    "hole-size": ({ which, is, least, times }) =>
      `hole ${which}: width is ${is} mm, at least ${least} wanted (${times} x thickness; ${practice})`,
    "hole-to-edge": ({ which, is, least, times }) =>
      `hole ${which}: centre to edge is ${is} mm, at least ${least} wanted (${times} x diameter; ${standard})`,
    "hole-pitch": ({ which, is, least, times }) =>
      `hole ${which}: centre to the next hole's is ${is} mm, at least ${least} wanted (${times} x diameter; ${standard})`,
  },
  up: LOOKS.up,
  forward: LOOKS.forward,
  wrap: ({ name, diameter }) => `${name}: tube dia ${diameter}`,
  wrapWithWall: ({ name, diameter, wall }) => `${name}: tube dia ${diameter} x ${wall}`,
  wrapName: { first: (tube) => `${tube}, first end`, last: (tube) => `${tube}, last end` },
  wrapSide: { left: (name) => `${name}, left side`, right: (name) => `${name}, right side` },
  servesBoth: "The same paper serves both sides of the car.",
  fitted: ({ part, angle }) => `Fitted to ${part} at ${angle} deg`,
  howToWrap: {
    top: "Wrap with the print outside, line 0 along the top of the tube; cut off what stands beyond the curve.",
    front: "Wrap with the print outside, line 0 along the front of the tube; cut off what stands beyond the curve.",
  },
  edge: (short) => `Straight edge square round the tube, ${short} mm short of its drawn end`,
  edgesApart: (apart) => `Straight edges of both ends' papers ${apart} mm apart`,
  wallNotTold: "The wall is not told: fitted by the outside alone, ease the inner edge.",
  wholeWall: "Fitted by the whole wall, cut straight through it.",
  wrapWarnings: {
    passes: "the tube is wider than what it meets and passes by its side",
    overhangs: "the tube reaches past the edge of what it meets",
  },
  lines: { ...LOOKS, top: "0 top", front: "0 front" },
  printAsIs: "Print at 100 %, not fitted to the page. Measure both bars both ways before use.",
  corrected: ({ across, down }) =>
    `Corrected for one printer: ${across} % across, ${down} % down. Measure the bars again before use.`,
  tiles: ({ pages, rows, columns }) =>
    `${pages} pages, ${rows} down by ${columns} across. Trim one of two neighbours at the dashed line, lay its crosses on the other's.`,
  tileOf: ({ tile, template }) => `${tile} of ${template}`,
  notToScale: "not to scale",
};

/** How many times thickness or diameter a rule asks. */
export const TIMES: Readonly<Record<PlateRule, number>> = {
  "inside-radius": PLATE_RULES.insidePerThickness,
  "hole-to-fold": PLATE_RULES.holeToFoldPerThickness,
  flange: PLATE_RULES.flangePerThickness,
  "hole-size": PLATE_RULES.holePerThickness,
  "hole-to-edge": PLATE_RULES.edgePerHole,
  "hole-pitch": PLATE_RULES.pitchPerHole,
};

/** A line of what is said beside a template. */
export interface Note {
  readonly text: string;
  readonly isWarning: boolean;
}

export const plain = (text: string): Note => ({ text, isWarning: false });

/** To a hundredth, without what is nought at its end. */
export function mm(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

/** The way that a direction looks most. */
export function looksTo([x, y, z]: Vec3, isOnASide: boolean): Looks {
  const most = Math.max(Math.abs(x), Math.abs(y), Math.abs(z));
  if (most === Math.abs(z)) return z > 0 ? "up" : "down";
  if (most === Math.abs(x)) return x > 0 ? "forward" : "back";
  if (isOnASide) return y > 0 ? "out" : "in";
  return y > 0 ? "left" : "right";
}
