import type { Vec3 } from "../../maths/vec3.ts";
import type { MadeDocument } from "../document.ts";
import { type PartPlan, partQuestions } from "./partQuestions.ts";
import type { Question } from "./question.ts";

function rail(id: string, ends: readonly [Vec3, Vec3]): PartPlan {
  return {
    id,
    section: "frame",
    on: "chassis",
    recipe: "frame rail",
    mirror: true,
    places: [
      { key: "a", offset_mm: ends[0] },
      { key: "b", offset_mm: ends[1] },
    ],
    sizes: [
      {
        key: "height_mm",
        mark: "height",
        usual_mm: 50,
        most_mm: 400,
      },
      {
        key: "width_mm",
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
    rail("upper-rail", [
      [-250, -283, 235],
      [540, -283, 235],
    ]),
  ),
  ...partQuestions(
    rail("lower-rail", [
      [-200, -390, -160],
      [520, -310, -160],
    ]),
  ),
  ...partQuestions({
    id: "cross-tube",
    section: "frame",
    on: "chassis",
    recipe: "cross tube",
    places: [
      {
        key: "a",
        offset_mm: [-250, -300, 235],
      },
      {
        key: "b",
        offset_mm: [-250, -1180, 235],
      },
    ],
    sizes: [
      {
        key: "diameter_mm",
        mark: "height",
        usual_mm: 44.5,
        most_mm: 300,
      },
    ],
    derive: (made) => ({ ...made, wall_mm: Math.min(2.5, Math.floor(Number(made.diameter_mm) * 2.5) / 10) }),
  }),
];
