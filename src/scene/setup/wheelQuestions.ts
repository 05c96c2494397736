import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { formatLength, type LengthUnit } from "../length.ts";
import { pointResolver } from "../pointResolver.ts";
import { parseTyre } from "../tyre.ts";
import { lengthFault, numberFault } from "./faults.ts";
import { withPlace } from "./places.ts";
import { always, type Question } from "./question.ts";

export const USUAL_TITLE = "A corner of my own";
const USUAL_CENTRE: Vec3 = [0, 740, 305];
/** Written on the tyre that is assumed. */
export const USUAL_WHEEL = {
  centre: "wheel.centre",
  tyre: "205/55R16",
  rimWidth_in: 6.5,
  rimOffset_mm: 40,
  toe_deg: 0.15,
  camber_deg: -1,
} as const;
export const USUAL_TRAVEL = { bump_mm: 60, droop_mm: 60, step_mm: 5 } as const;

type WheelKey = "rimWidth_in" | "rimOffset_mm" | "toe_deg" | "camber_deg";

function ofWheel(key: WheelKey) {
  return {
    isAsked: always,
    isNeeded: true,
    read: (document: SceneDocument) => document.wheel[key],
    usual: () => USUAL_WHEEL[key],
    put: (document: SceneDocument, value: number) => ({ ...document, wheel: { ...document.wheel, [key]: value } }),
  };
}

function ofTravel(key: "bump_mm" | "droop_mm") {
  return {
    isAsked: always,
    isNeeded: true,
    read: (document: SceneDocument) => document.travel[key],
    usual: () => USUAL_TRAVEL[key],
    put: (document: SceneDocument, value: number) => ({ ...document, travel: { ...document.travel, [key]: value } }),
    fault: lengthFault(5, 300, "Travel is counted from ride height, one way."),
  };
}

export const CAR_QUESTIONS: readonly Question[] = [
  {
    kind: "text",
    id: "title",
    section: "car",
    ask: "What shall this corner be called?",
    how: "The name stands on job cards and in the list of projects.",
    name: "name",
    picture: { of: "corner" },
    isNeeded: false,
    isAsked: always,
    read: ({ title }) => title,
    usual: () => USUAL_TITLE,
    put: (document, title) => ({ ...document, title: title.trim() }),
    fault: (title) =>
      title.trim() !== "" && title.length <= 200 ? null : "Write a name of at most 200 letters, or skip this.",
  },
  {
    kind: "choice",
    id: "sides",
    section: "car",
    ask: "Which sides of the car are checked?",
    how: "Measure the left corner. The right one is its image; engine, gearbox and exhaust stand where they are, so the two sides meet different things.",
    name: "sides",
    picture: { of: "corner" },
    isNeeded: false,
    isAsked: always,
    options: () => [
      { value: "both", label: "Both sides" },
      { value: "left", label: "Left only" },
      { value: "right", label: "Right only" },
    ],
    read: ({ sides }) => sides,
    usual: () => "both",
    put: (document, sides) => ({ ...document, sides: sides as SceneDocument["sides"] }),
    fault: () => null,
  },
];

export const WHEEL_QUESTIONS: readonly Question[] = [
  {
    kind: "text",
    id: "wheel.tyre",
    section: "wheel",
    ask: "What size stands on the tyre?",
    how: "Read it off the sidewall: width in mm, height in percent of it, rim diameter in inches.",
    name: "tyre size",
    picture: { of: "tyre" },
    isNeeded: true,
    isAsked: always,
    read: ({ wheel }) => wheel.tyre,
    usual: () => USUAL_WHEEL.tyre,
    put: (document, tyre) => ({ ...document, wheel: { ...document.wheel, tyre: tyre.trim() } }),
    fault: tyreFault,
  },
  {
    ...ofWheel("rimWidth_in"),
    kind: "number",
    id: "wheel.rimWidth_in",
    section: "wheel",
    ask: "How wide is the rim?",
    how: "In inches, between the two beads that hold the tyre. It is stamped on a spoke or inside the barrel, such as 6½J.",
    name: "rim width",
    picture: { of: "rim", mark: "width" },
    unit: "inches",
    step: 0.5,
    fault: numberFault(3, 16, "inches", "The width is in inches, and between the beads, not over the edges."),
  },
  {
    ...ofWheel("rimOffset_mm"),
    kind: "length",
    id: "wheel.rimOffset_mm",
    section: "wheel",
    ask: "How far out from the rim's middle plane is its hub face?",
    how: "Stamped as ET and a number of mm, mostly beside the rim width. Or lay the wheel face down: height to the hub face less half of the height over the edges. Plus: the hub face lies outboard of the middle.",
    name: "rim offset",
    picture: { of: "rim", mark: "offset" },
    fault: lengthFault(-120, 150, "Look at the sign: plus where the hub face lies outboard of the rim's middle."),
  },
  {
    kind: "place",
    id: "wheel.centre",
    section: "wheel",
    ask: "Where is the wheel's centre?",
    how: "Car at ride height on level ground. Out: tape from the centre string to the rim's two edges, and take the middle. Up: from the ground to the middle of the hub. Forward: nothing, where the axle line is measured from this wheel.",
    name: "wheel centre",
    picture: { of: "place", side: "left" },
    isNeeded: true,
    side: "left",
    point: "wheel.centre",
    isAsked: always,
    read: (document) => pointResolver(document).drawn("wheel.centre", "wheel.centre"),
    usual: () => USUAL_CENTRE,
    put: (document, at, standing) => withPlace(document, "wheel.centre", at, standing),
    fault: centreFault,
  },
  {
    ...ofWheel("toe_deg"),
    kind: "number",
    id: "wheel.toe_deg",
    section: "wheel",
    ask: "What toe has the wheel at ride height?",
    how: "Of this one wheel, against the centre string: plus is toe-in. Over a 400 mm rim, 1 mm between front and rear edge is 0.14°.",
    name: "toe",
    picture: { of: "angle", mark: "toe" },
    unit: "degrees",
    step: 0.05,
    fault: numberFault(-5, 5, "degrees", "Toe of one wheel, in degrees, not in millimetres."),
  },
  {
    ...ofWheel("camber_deg"),
    kind: "number",
    id: "wheel.camber_deg",
    section: "wheel",
    ask: "What camber has the wheel at ride height?",
    how: "Angle gauge across the rim's edges, upright. Minus: the top leans in.",
    name: "camber",
    picture: { of: "angle", mark: "camber" },
    unit: "degrees",
    step: 0.25,
    fault: numberFault(-8, 8, "degrees", "Camber is the rim's angle to the vertical: minus with the top leaning in."),
  },
];

export const TRAVEL_QUESTIONS: readonly Question[] = [
  {
    ...ofTravel("bump_mm"),
    kind: "length",
    id: "travel.bump_mm",
    section: "travel",
    ask: "How far can the wheel rise from ride height?",
    how: "To where the bump stop is solid. 50 to 75 mm is plenty on the road.",
    name: "bump travel",
    picture: { of: "travel", mark: "bump" },
  },
  {
    ...ofTravel("droop_mm"),
    kind: "length",
    id: "travel.droop_mm",
    section: "travel",
    ask: "How far can the wheel hang below ride height?",
    how: "To where the damper is fully open, or the strap is taut.",
    name: "droop travel",
    picture: { of: "travel", mark: "droop" },
  },
];

function tyreFault(tyre: string): string | null {
  try {
    parseTyre(tyre);
    return null;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return `“${tyre}” cannot be: ${error.wrong}. Write it as on the sidewall: ${error.wanted}.`;
  }
}

function centreFault([x, y, z]: Vec3, _: SceneDocument, unit: LengthUnit): string | null {
  const words = (mm: number) => formatLength(mm, unit, { withUnit: true });
  if (y < 250 || y > 1300) {
    return `The wheel would stand ${words(y)} out from the centre plane: ${words(250)} to ${words(1300)} can be. Out is half of the track, not the whole.`;
  }
  if (z < 120 || z > 600) {
    return `The wheel's centre would be ${words(z)} up: ${words(120)} to ${words(600)} can be. Measure from the ground the car stands on.`;
  }
  if (Math.abs(x) > 500) {
    return `The wheel's centre would be ${words(x)} forward of the axle line. It lies on that line, or close to it.`;
  }
  return null;
}
