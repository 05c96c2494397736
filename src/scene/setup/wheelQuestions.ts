import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { pointResolver } from "../pointResolver.ts";
import { parseTyre } from "../tyre.ts";
import { CENTRE_OUT_MM, CENTRE_UP_MM, lengthFault, numberFault, type SetupFault } from "./faults.ts";
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
    fault: lengthFault(5, 300, "travel"),
  };
}

export const CAR_QUESTIONS: readonly Question[] = [
  {
    kind: "text",
    id: "title",
    section: "car",
    picture: { of: "corner" },
    isNeeded: false,
    isAsked: always,
    read: ({ title }) => title,
    // as it was begun: in the builder's language
    usual: ({ title }) => title,
    put: (document, title) => ({ ...document, title: title.trim() }),
    fault: (title) => (title.trim() !== "" && title.length <= 200 ? null : { code: "title" }),
  },
  {
    kind: "choice",
    id: "sides",
    section: "car",
    picture: { of: "corner" },
    isNeeded: false,
    isAsked: always,
    options: () => ["both", "left", "right"],
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
    picture: { of: "rim", mark: "width" },
    unit: "inches",
    step: 0.5,
    fault: numberFault(3, 16, "inches", "rimWidth"),
  },
  {
    ...ofWheel("rimOffset_mm"),
    kind: "length",
    id: "wheel.rimOffset_mm",
    section: "wheel",
    picture: { of: "rim", mark: "offset" },
    fault: lengthFault(-120, 150, "rimOffset"),
  },
  {
    kind: "place",
    id: "wheel.centre",
    section: "wheel",
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
    picture: { of: "angle", mark: "toe" },
    unit: "degrees",
    step: 0.05,
    fault: numberFault(-5, 5, "degrees", "toe"),
  },
  {
    ...ofWheel("camber_deg"),
    kind: "number",
    id: "wheel.camber_deg",
    section: "wheel",
    picture: { of: "angle", mark: "camber" },
    unit: "degrees",
    step: 0.25,
    fault: numberFault(-8, 8, "degrees", "camber"),
  },
];

export const TRAVEL_QUESTIONS: readonly Question[] = [
  {
    ...ofTravel("bump_mm"),
    kind: "length",
    id: "travel.bump_mm",
    section: "travel",
    picture: { of: "travel", mark: "bump" },
  },
  {
    ...ofTravel("droop_mm"),
    kind: "length",
    id: "travel.droop_mm",
    section: "travel",
    picture: { of: "travel", mark: "droop" },
  },
];

function tyreFault(tyre: string): SetupFault | null {
  try {
    parseTyre(tyre);
    return null;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { code: "tyre", written: tyre, wrong: error.wrong, wanted: error.wanted };
  }
}

function centreFault([x, y, z]: Vec3): SetupFault | null {
  if (y < CENTRE_OUT_MM[0] || y > CENTRE_OUT_MM[1]) return { code: "centre-out", size_mm: y };
  if (z < CENTRE_UP_MM[0] || z > CENTRE_UP_MM[1]) return { code: "centre-up", size_mm: z };
  return Math.abs(x) > 500 ? { code: "centre-forward", size_mm: x } : null;
}
