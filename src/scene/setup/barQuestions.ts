import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { wheelCentre } from "./faults.ts";
import type { KindPlan } from "./memberPlans.ts";
import { existence } from "./partQuestions.ts";
import { pointQuestion, withPlace } from "./places.ts";
import type { Question } from "./question.ts";
import { holderQuestion, unitLength, withoutUnit, withUnit } from "./unitQuestions.ts";

const PLACES: readonly { point: string; ask: string; how: string; name: string; offset_mm: Vec3 }[] = [
  {
    point: "bar.pivot",
    ask: "Where does the anti-roll bar turn?",
    how: "The middle of its rubber bush on the frame, on the bar's own line.",
    name: "anti-roll bar, pivot",
    offset_mm: [-270, -285, 25],
  },
  {
    point: "bar.arm",
    ask: "Where is the end of the bar's arm?",
    how: "The hole or ball that the drop link hangs on.",
    name: "anti-roll bar, arm end",
    offset_mm: [-140, -262, 25],
  },
  {
    point: "bar.pickup",
    ask: "Where is the drop link's other end?",
    how: "The ball or bolt at the arm, wishbone or hub.",
    name: "drop link, other end",
    offset_mm: [-130, -256, -80],
  },
];

export function barQuestions({ damperOn }: KindPlan): readonly Question[] {
  const isThere = ({ antiRollBar }: SceneDocument) => antiRollBar !== undefined;
  return [
    existence({
      id: "bar",
      section: "damper",
      ask: "Is there an anti-roll bar?",
      how: "Its arm sweeps through a lot of room, and its drop link may turn over.",
      name: "anti-roll bar",
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
    holderQuestion(
      "antiRollBar",
      {
        id: "bar.on",
        ask: "What does the drop link hold on to?",
        how: "The part that its lower ball or bolt sits on.",
        name: "drop link's holder",
      },
      damperOn,
    ),
    unitLength({
      unit: "antiRollBar",
      id: "bar.diameter_mm",
      section: "damper",
      ask: "How thick is the anti-roll bar?",
      how: "Outside, with calipers, where it is straight.",
      name: "anti-roll bar, thickness",
      picture: { of: "tube" },
      most_mm: 80,
      mend: "The diameter of the bar.",
      usual: () => 20,
      get: (record) => record.diameter_mm,
      set: (record, diameter_mm) => ({ ...record, diameter_mm }),
    }),
  ];
}
