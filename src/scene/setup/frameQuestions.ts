import type { Vec3 } from "../../maths/vec3.ts";
import type { MadeDocument } from "../document.ts";
import { type PartPlan, partQuestions } from "./partQuestions.ts";
import type { Question } from "./question.ts";

const ON_LINE = "On the section's middle line, at its end or where it leaves this corner.";

function rail(id: string, called: string, ask: string, ends: readonly [Vec3, Vec3]): PartPlan {
  return {
    id,
    section: "frame",
    called,
    ask,
    how: "Measure the left one; its image stands on the right.",
    on: "chassis",
    recipe: "frame rail",
    mirror: true,
    places: [
      { key: "a", ask: `Where does ${called} end at the rear?`, how: ON_LINE, name: "rear end", offset_mm: ends[0] },
      { key: "b", ask: `Where does ${called} end in front?`, how: ON_LINE, name: "front end", offset_mm: ends[1] },
    ],
    sizes: [
      {
        key: "height_mm",
        ask: `How high is the section of ${called}?`,
        how: "Outside, with calipers.",
        name: "section height",
        mark: "height",
        usual_mm: 50,
        most_mm: 400,
      },
      {
        key: "width_mm",
        ask: `How wide is the section of ${called}?`,
        how: "Outside, with calipers.",
        name: "section width",
        mark: "width",
        usual_mm: 50,
        most_mm: 400,
      },
    ],
    // 3 mm is the usual wall; the section's corners are rounded by twice the wall
    derive: (made: MadeDocument) => ({
      ...made,
      wall_mm: Math.min(3, Math.floor(Math.min(Number(made.height_mm), Number(made.width_mm)) * 2.5) / 10),
    }),
  };
}

export const FRAME_QUESTIONS: readonly Question[] = [
  ...partQuestions(
    rail("upper-rail", "the upper frame rail", "Is there an upper frame rail beside the wheel?", [
      [-250, -283, 235],
      [540, -283, 235],
    ]),
  ),
  ...partQuestions(
    rail("lower-rail", "the lower frame rail", "Is there a lower frame rail?", [
      [-200, -390, -160],
      [520, -310, -160],
    ]),
  ),
  ...partQuestions({
    id: "cross-tube",
    section: "frame",
    called: "the cross tube",
    ask: "Does a cross tube run behind or before the axle?",
    how: "From one side of the car to the other.",
    on: "chassis",
    recipe: "cross tube",
    places: [
      {
        key: "a",
        ask: "Where is the cross tube's left end?",
        how: ON_LINE,
        name: "left end",
        offset_mm: [-250, -300, 235],
      },
      {
        key: "b",
        ask: "Where is the cross tube's right end?",
        how: "Out from the centre plane is minus for what lies on the right.",
        name: "right end",
        offset_mm: [-250, -1180, 235],
      },
    ],
    sizes: [
      {
        key: "diameter_mm",
        ask: "How thick is the cross tube?",
        how: "Outside, with calipers.",
        name: "thickness",
        mark: "height",
        usual_mm: 44.5,
        most_mm: 300,
      },
    ],
    derive: (made) => ({ ...made, wall_mm: Math.min(2.5, Math.floor(Number(made.diameter_mm) * 2.5) / 10) }),
  }),
];
