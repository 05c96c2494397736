import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { type Mend, numberFault, wheelCentre } from "./faults.ts";
import type { KindPlan } from "./memberPlans.ts";
import { existence } from "./partQuestions.ts";
import { pointQuestion, withPlace } from "./places.ts";
import { type Question, YES } from "./question.ts";
import { drawnLength, holderQuestion, unitLength, withoutUnit, withUnit } from "./unitQuestions.ts";

type Damper = NonNullable<SceneDocument["damper"]>;

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
    mend: Mend,
    usual: (document: SceneDocument) => number,
    isAsked?: (document: SceneDocument) => boolean,
  ) =>
    unitLength({
      unit: "damper",
      id: `damper.${key}`,
      section: "damper",
      picture: { of: "damper", mark },
      most_mm: 1200,
      mend,
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
          offset_mm: TOP,
          isAsked: hasDamper,
        }),
        pointQuestion({
          point: bottom,
          section: "damper",
          offset_mm: BOTTOM,
          isAsked: hasDamper,
        }),
      ];
  return [
    existence({
      id: "damper",
      section: "damper",
      ...(leg ? { of: "strut" as const, usual: YES } : {}),
      isThere: hasDamper,
      add,
      remove: (document) => withoutUnit(document, "damper"),
    }),
    ...places,
    holderQuestion("damper", "damper.on", damperOn),
    length("closed_mm", "closed", "eyes", (document) => Math.round(lengthAtRide(document) * CLOSED_SHARE)),
    length("open_mm", "open", "eyes", (document) =>
      Math.max(Math.round(lengthAtRide(document) * OPEN_SHARE), closed(document) + LEAST_STROKE_MM),
    ),
    length("body_mm", "body", "tube", () => 48),
    existence({
      id: "spring",
      section: "damper",
      isAsked: hasDamper,
      isThere: hasSpring,
      add: (document) => withUnit(document, "damper", { ...document.damper!, spring_mm: 84 }),
      remove(document) {
        const {
          spring_mm: _size,
          springRate_N_per_mm: _rate,
          springFree_mm: _free,
          springSolid_mm: _solid,
          springAtRide_mm: _atRide,
          ...rest
        } = document.damper!;
        return withUnit(document, "damper", rest);
      },
    }),
    length("spring_mm", "spring", "coils", () => 84, hasSpring),
    {
      kind: "number",
      id: "damper.springRate_N_per_mm",
      section: "damper",
      picture: { of: "damper", mark: "rate" },
      isNeeded: false,
      unit: "N/mm",
      step: 1,
      isAsked: hasSpring,
      read: ({ damper }) => damper?.springRate_N_per_mm ?? null,
      usual: () => 40,
      put: (document, springRate_N_per_mm) =>
        document.damper ? withUnit(document, "damper", { ...document.damper, springRate_N_per_mm }) : document,
      fault: numberFault(1, 1000, "N/mm", "springRate"),
    },
    existence({
      id: "stop",
      section: "damper",
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
    length("stopTouches_mm", "touches", "stop", (document) => closed(document) + 35, hasStop),
    length("stopSolid_mm", "solid", "stop", (document) => closed(document) + 8, hasStop),
  ];
}
