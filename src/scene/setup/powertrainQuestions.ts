import type { Vec3 } from "../../maths/vec3.ts";
import type { MadeDocument, SceneDocument } from "../document.ts";
import { numberFault, wheelCentre } from "./faults.ts";
import { existence, partQuestions } from "./partQuestions.ts";
import { pointQuestion, withPlace } from "./places.ts";
import type { Question } from "./question.ts";

/** A corner radius that suits the smallest of the three sizes. */
function casingCorners(made: MadeDocument): MadeDocument {
  const smallest_mm = Math.min(Number(made.length_mm), Number(made.height_mm), Number(made.width_mm));
  return { ...made, corner_mm: Math.min(22, Math.floor(smallest_mm) / 5) };
}

function boxed(size: { readonly length: number; readonly width: number; readonly height: number }) {
  return [
    {
      key: "length_mm",
      mark: "length" as const,
      usual_mm: size.length,
    },
    {
      key: "width_mm",
      mark: "width" as const,
      usual_mm: size.width,
    },
    {
      key: "height_mm",
      mark: "height" as const,
      usual_mm: size.height,
    },
  ];
}

function middleOf(offset_mm: Vec3) {
  return [{ key: "at", offset_mm }];
}

const BLOCK = partQuestions({
  id: "block",
  section: "powertrain",
  on: "powertrain",
  recipe: "casing",
  preset: { family: "engine block" },
  places: middleOf([240, -540, 215]),
  sizes: boxed({ length: 260, width: 380, height: 320 }),
  derive: casingCorners,
});

const SUMP = partQuestions({
  id: "sump",
  section: "powertrain",
  on: "powertrain",
  recipe: "sump",
  places: [
    {
      key: "at",
      offset_mm: [235, -530, 120],
    },
  ],
  sizes: [
    {
      key: "length_mm",
      mark: "length",
      usual_mm: 240,
    },
    {
      key: "width_mm",
      mark: "width",
      usual_mm: 330,
    },
    {
      key: "depth_mm",
      mark: "height",
      usual_mm: 110,
      most_mm: 600,
    },
  ],
  // the floor of a pan is about a tenth narrower all round than its mouth
  derive: (made) => ({
    ...made,
    floorLength_mm: Math.round(0.8 * Number(made.length_mm)),
    floorWidth_mm: Math.round(0.85 * Number(made.width_mm)),
    plug_mm: Math.min(24, Math.floor(0.3 * Math.min(Number(made.length_mm), Number(made.width_mm)))),
  }),
});

const GEARBOX = partQuestions({
  id: "gearbox",
  section: "powertrain",
  on: "powertrain",
  recipe: "casing",
  preset: { family: "transfer case" },
  places: middleOf([200, -920, 140]),
  sizes: boxed({ length: 230, width: 300, height: 250 }),
  derive: casingCorners,
});

const DIFFERENTIAL = partQuestions({
  id: "differential",
  section: "powertrain",
  on: "powertrain",
  recipe: "casing",
  preset: { family: "final drive" },
  places: middleOf([30, -760, 20]),
  sizes: boxed({ length: 230, width: 220, height: 180 }),
  derive: casingCorners,
});

const ROCK_POINT = "engine.rock";
type PoseId = "pulling" | "overrun";
const USUAL_deg: Readonly<Record<PoseId, number>> = { pulling: -3, overrun: 2 };
const ROCK_OFFSET: Vec3 = [236, 0, 180];

function isRocking({ powertrain }: SceneDocument): boolean {
  return (powertrain?.poses ?? []).some(({ about }) => about === ROCK_POINT);
}

function addRock(document: SceneDocument): SceneDocument {
  const [x, , z] = wheelCentre(document);
  // the engine rocks about a line across the car: where along it the point lies does not matter
  const placed = withPlace(document, ROCK_POINT, [x + ROCK_OFFSET[0], 0, z + ROCK_OFFSET[2]], "assumed");
  const poses = (["pulling", "overrun"] as const).map((id) => ({
    id,
    about: ROCK_POINT,
    axis: [0, 1, 0] as const,
    angle_deg: USUAL_deg[id],
  }));
  const others = (document.powertrain?.poses ?? []).filter(({ id }) => !(id in USUAL_deg));
  return { ...placed, powertrain: { ...document.powertrain, poses: [...others, ...poses] } };
}

function removeRock(document: SceneDocument): SceneDocument {
  const { poses = [], ...rest } = document.powertrain ?? {};
  const others = poses.filter(({ about }) => about !== ROCK_POINT);
  const kept = others.length > 0 ? { ...rest, poses: others } : rest;
  const { powertrain: _, ...without } = document;
  const next: SceneDocument = Object.keys(kept).length > 0 ? { ...without, powertrain: kept } : without;
  const { [ROCK_POINT]: __, ...points } = next.points;
  return { ...next, points };
}

function rockAngle(id: PoseId): Question {
  const pose = ({ powertrain }: SceneDocument) => powertrain?.poses?.find((one) => one.id === id);
  return {
    kind: "number",
    id: `rock.${id}_deg`,
    section: "powertrain",
    picture: { of: "rock", mark: id },
    isNeeded: false,
    unit: "degrees",
    step: 0.5,
    isAsked: isRocking,
    read: (document) => pose(document)?.angle_deg ?? null,
    usual: () => USUAL_deg[id],
    put: (document, angle_deg) => ({
      ...document,
      powertrain: {
        ...document.powertrain,
        poses: (document.powertrain?.poses ?? []).map((one) => (one.id === id ? { ...one, angle_deg } : one)),
      },
    }),
    fault: numberFault(-15, 15, "degrees", "rock"),
  };
}

export const POWERTRAIN_QUESTIONS: readonly Question[] = [
  ...BLOCK,
  ...SUMP,
  ...GEARBOX,
  ...DIFFERENTIAL,
  existence({
    id: "rock",
    section: "powertrain",
    isThere: isRocking,
    add: addRock,
    remove: removeRock,
  }),
  {
    ...pointQuestion({
      point: ROCK_POINT,
      section: "powertrain",
      offset_mm: ROCK_OFFSET,
      isAsked: isRocking,
    }),
    usual: (document) => {
      const [x, , z] = wheelCentre(document);
      return [x + ROCK_OFFSET[0], 0, z + ROCK_OFFSET[2]];
    },
  },
  rockAngle("pulling"),
  rockAngle("overrun"),
];
