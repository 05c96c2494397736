import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { numberFault, wheelCentre } from "./faults.ts";
import type { KindPlan } from "./memberPlans.ts";
import { existence } from "./partQuestions.ts";
import { pointQuestion, withPlace } from "./places.ts";
import { type Question, YES } from "./question.ts";
import { drawnLength, holderQuestion, unitLength, withoutUnit, withUnit } from "./unitQuestions.ts";

type Damper = NonNullable<SceneDocument["damper"]>;

const EYES = "From eye centre to eye centre; for a pin mount, from the shoulder.";
const TOP: Vec3 = [-102, -200, 335];
const BOTTOM: Vec3 = [-98, -155, -70];

/** Shares of the length at ride height: about two thirds of the stroke are left for bump. Common practice, no source. */
const CLOSED_SHARE = 0.78;
const OPEN_SHARE = 1.18;
const LEAST_STROKE_MM = 100;

export function damperQuestions({ leg, damperOn }: KindPlan): readonly Question[] {
  const top = leg?.top ?? "damper.top";
  const bottom = leg?.bottom ?? "damper.bottom";
  const lengthAtRide = (document: SceneDocument) =>
    document.damper && typeof document.damper.top === "string" && typeof document.damper.bottom === "string"
      ? drawnLength(document, document.damper.top, document.damper.bottom)
      : 400;
  const closed = (document: SceneDocument) => document.damper?.closed_mm ?? 300;
  const add = (document: SceneDocument): SceneDocument => {
    const [x, y, z] = wheelCentre(document);
    const placed = leg
      ? document
      : [[top, TOP] as const, [bottom, BOTTOM] as const].reduce(
          (now, [name, [dx, dy, dz]]) => withPlace(now, name, [x + dx, y + dy, z + dz], "assumed"),
          document,
        );
    const length_mm = drawnLength(placed, top, bottom);
    return withUnit(placed, "damper", {
      top,
      bottom,
      on: damperOn,
      closed_mm: Math.round(length_mm * CLOSED_SHARE),
      open_mm: Math.round(length_mm * OPEN_SHARE),
      body_mm: 48,
    });
  };
  const length = (
    key: "closed_mm" | "open_mm" | "body_mm" | "spring_mm" | "stopTouches_mm" | "stopSolid_mm",
    mark: "closed" | "open" | "body" | "spring" | "touches" | "solid",
    words: { readonly ask: string; readonly how: string; readonly name: string; readonly mend: string },
    usual: (document: SceneDocument) => number,
    isAsked?: (document: SceneDocument) => boolean,
  ) =>
    unitLength({
      ...words,
      unit: "damper",
      id: `damper.${key}`,
      section: "damper",
      picture: { of: "damper", mark },
      most_mm: 1200,
      usual,
      ...(isAsked ? { isAsked } : {}),
      get: (record: Damper) => record[key],
      set: (record: Damper, value) => ({ ...record, [key]: value }),
    });
  const hasSpring = ({ damper }: SceneDocument) => damper?.spring_mm !== undefined;
  const hasStop = ({ damper }: SceneDocument) => damper?.stopTouches_mm !== undefined;
  const hasDamper = ({ damper }: SceneDocument) => damper !== undefined;
  const places = leg
    ? []
    : [
        pointQuestion({
          point: top,
          section: "damper",
          ask: "Where is the damper's top eye?",
          how: "The centre of its bolt, between the lugs.",
          name: "damper, top",
          offset_mm: TOP,
          isAsked: hasDamper,
        }),
        pointQuestion({
          point: bottom,
          section: "damper",
          ask: "Where is the damper's bottom eye?",
          how: "The centre of its bolt, with the car at ride height.",
          name: "damper, bottom",
          offset_mm: BOTTOM,
          isAsked: hasDamper,
        }),
      ];
  return [
    existence({
      id: "damper",
      section: "damper",
      ask: leg ? "Is the strut's damper chosen?" : "Is there a damper to place?",
      how: "Its length closed and open says how far the wheel really can move.",
      name: "damper",
      ...(leg ? { usual: YES } : {}),
      isThere: hasDamper,
      add,
      remove: (document) => withoutUnit(document, "damper"),
    }),
    ...places,
    holderQuestion(
      "damper",
      {
        id: "damper.on",
        ask: "What holds the damper's lower end?",
        how: "On an arm or wishbone the damper moves less than the wheel.",
        name: "damper's lower end",
      },
      damperOn,
    ),
    length(
      "closed_mm",
      "closed",
      {
        ask: "How long is the damper when it is fully closed?",
        how: `${EYES} Spring off, pushed home.`,
        name: "damper, closed",
        mend: "Eye to eye, and in the unit shown.",
      },
      (document) => Math.round(lengthAtRide(document) * CLOSED_SHARE),
    ),
    length(
      "open_mm",
      "open",
      {
        ask: "How long is the damper when it is fully open?",
        how: `${EYES} Hanging free.`,
        name: "damper, open",
        mend: "Eye to eye, and in the unit shown.",
      },
      (document) => Math.max(Math.round(lengthAtRide(document) * OPEN_SHARE), closed(document) + LEAST_STROKE_MM),
    ),
    length(
      "body_mm",
      "body",
      {
        ask: "How thick is the damper's body?",
        how: "Outside, with calipers.",
        name: "damper, body",
        mend: "The diameter of the tube.",
      },
      () => 48,
    ),
    existence({
      id: "spring",
      section: "damper",
      ask: "Does the spring sit round the damper?",
      how: "It is the thickest part of the damper, and the first to meet a tyre.",
      name: "spring",
      isAsked: hasDamper,
      isThere: hasSpring,
      add: (document) => withUnit(document, "damper", { ...document.damper!, spring_mm: 84 }),
      remove(document) {
        const { spring_mm: _, springRate_N_per_mm: __, ...rest } = document.damper!;
        return withUnit(document, "damper", rest);
      },
    }),
    length(
      "spring_mm",
      "spring",
      {
        ask: "How thick is the spring, outside?",
        how: "Over the coils, with calipers.",
        name: "spring, diameter",
        mend: "The diameter over the coils.",
      },
      () => 84,
      hasSpring,
    ),
    {
      kind: "number",
      id: "damper.springRate_N_per_mm",
      section: "damper",
      ask: "How stiff is the spring?",
      how: "Printed on it, often in pounds per inch: times 0.175 gives N/mm.",
      name: "spring rate",
      picture: { of: "damper", mark: "rate" },
      isNeeded: false,
      unit: "N/mm",
      step: 1,
      isAsked: hasSpring,
      read: ({ damper }) => damper?.springRate_N_per_mm ?? null,
      usual: () => 40,
      put: (document, springRate_N_per_mm) =>
        document.damper ? withUnit(document, "damper", { ...document.damper, springRate_N_per_mm }) : document,
      fault: numberFault(1, 1000, "N/mm", "A rear spring of a car has 15 to 120 N/mm."),
    },
    existence({
      id: "stop",
      section: "damper",
      ask: "Is there a bump stop on the damper's rod?",
      how: "There should be one, solid 5 to 10 mm before the damper closes.",
      name: "bump stop",
      isAsked: hasDamper,
      isThere: hasStop,
      add: (document) =>
        withUnit(document, "damper", {
          ...document.damper!,
          stopTouches_mm: closed(document) + 35,
          stopSolid_mm: closed(document) + 8,
        }),
      remove(document) {
        const { stopTouches_mm: _, stopSolid_mm: __, ...rest } = document.damper!;
        return withUnit(document, "damper", rest);
      },
    }),
    length(
      "stopTouches_mm",
      "touches",
      {
        ask: "How long is the damper when the bump stop touches?",
        how: `${EYES} Spring off, pushed in until the rubber just meets the body.`,
        name: "bump stop touches",
        mend: "The length of the damper there, not of the rubber.",
      },
      (document) => closed(document) + 35,
      hasStop,
    ),
    length(
      "stopSolid_mm",
      "solid",
      {
        ask: "How long is the damper when the bump stop is solid?",
        how: "A rubber gives about half of its height, then it is as good as steel.",
        name: "bump stop solid",
        mend: "The length of the damper there, not of the rubber.",
      },
      (document) => closed(document) + 8,
      hasStop,
    ),
  ];
}
