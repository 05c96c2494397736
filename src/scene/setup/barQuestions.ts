import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { wheelCentre } from "./faults.ts";
import type { KindPlan } from "./memberPlans.ts";
import { existence } from "./partQuestions.ts";
import { pointQuestion, withPlace } from "./places.ts";
import type { Question } from "./question.ts";
import { holderQuestion, unitLength, withoutUnit, withUnit } from "./unitQuestions.ts";

const PLACES: readonly { readonly point: string; readonly offset_mm: Vec3 }[] = [
  {
    point: "bar.pivot",
    offset_mm: [-270, -285, 25],
  },
  {
    point: "bar.arm",
    offset_mm: [-140, -262, 25],
  },
  {
    point: "bar.pickup",
    offset_mm: [-130, -256, -80],
  },
];

export function barQuestions({ damperOn }: KindPlan): readonly Question[] {
  const isThere = ({ antiRollBar }: SceneDocument) => antiRollBar !== undefined;
  return [
    existence({
      id: "bar",
      section: "damper",
      isThere,
      add(document) {
        const [x, y, z] = wheelCentre(document);
        const placed = PLACES.reduce(
          (now, { point, offset_mm: [dx, dy, dz] }) => withPlace(now, point, [x + dx, y + dy, z + dz], "assumed"),
          document,
        );
        return withUnit(placed, "antiRollBar", {
          pivot: "bar.pivot",
          axis: [0, 1, 0],
          arm: "bar.arm",
          pickup: "bar.pickup",
          on: damperOn,
          diameter_mm: 20,
        });
      },
      remove: (document) => withoutUnit(document, "bar"),
    }),
    ...PLACES.map((place) => pointQuestion({ ...place, section: "damper", isAsked: isThere })),
    holderQuestion("antiRollBar", "bar.on", damperOn),
    unitLength({
      unit: "antiRollBar",
      id: "bar.diameter_mm",
      section: "damper",
      picture: { of: "tube" },
      most_mm: 80,
      mend: "bar",
      usual: () => 20,
      get: (record) => record.diameter_mm,
      set: (record, diameter_mm) => ({ ...record, diameter_mm }),
    }),
  ];
}
