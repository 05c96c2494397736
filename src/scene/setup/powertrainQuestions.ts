import type { Vec3 } from "../../maths/vec3.ts";
import type { MadeDocument, SceneDocument } from "../document.ts";
import { numberFault, wheelCentre } from "./faults.ts";
import { existence, partQuestions } from "./partQuestions.ts";
import { pointQuestion, withPlace } from "./places.ts";
import type { Question } from "./question.ts";

const OVER_ALL = "Over all with calipers or a square against its side: 3 to 5 mm are good enough.";
const MIDDLE =
  "The middle of the box that it would just fit into, with the powertrain on its blocks at its height and tilt.";

/** A corner radius that suits the smallest of the three sizes. */
function casingCorners(made: MadeDocument): MadeDocument {
  const smallest_mm = Math.min(Number(made.length_mm), Number(made.height_mm), Number(made.width_mm));
  return { ...made, corner_mm: Math.min(22, Math.floor(smallest_mm) / 5) };
}

function boxed(called: string, size: { readonly length: number; readonly width: number; readonly height: number }) {
  return [
    {
      key: "length_mm",
      ask: `How long is ${called}, fore and aft?`,
      how: OVER_ALL,
      name: "length",
      mark: "length" as const,
      usual_mm: size.length,
    },
    {
      key: "width_mm",
      ask: `How wide is ${called}, across the car?`,
      how: OVER_ALL,
      name: "width",
      mark: "width" as const,
      usual_mm: size.width,
    },
    {
      key: "height_mm",
      ask: `How high is ${called}?`,
      how: OVER_ALL,
      name: "height",
      mark: "height" as const,
      usual_mm: size.height,
    },
  ];
}

function middleOf(called: string, offset_mm: Vec3) {
  return [{ key: "at", ask: `Where is the middle of ${called}?`, how: MIDDLE, name: "middle", offset_mm }];
}

const BLOCK = partQuestions({
  id: "block",
  section: "powertrain",
  called: "the engine block",
  ask: "Is the engine block near this corner?",
  how: "Whatever a link, tube or tyre could meet is worth a rough box. Finer shapes, or a scan, can take its place later.",
  on: "powertrain",
  recipe: "casing",
  preset: { family: "engine block" },
  places: middleOf("the engine block", [240, -540, 215]),
  sizes: boxed("the engine block", { length: 260, width: 380, height: 320 }),
  derive: casingCorners,
});

const SUMP = partQuestions({
  id: "sump",
  section: "powertrain",
  called: "the sump",
  ask: "Is the sump near this corner?",
  how: "The lowest and often the widest thing of an engine.",
  on: "powertrain",
  recipe: "sump",
  places: [
    {
      key: "at",
      ask: "Where is the middle of the sump's top rail?",
      how: "The face that it is bolted to the block by, in its middle.",
      name: "top of its rail",
      offset_mm: [235, -530, 120],
    },
  ],
  sizes: [
    {
      key: "length_mm",
      ask: "How long is the sump below its rail, fore and aft?",
      how: OVER_ALL,
      name: "length",
      mark: "length",
      usual_mm: 240,
    },
    {
      key: "width_mm",
      ask: "How wide is the sump below its rail, across the car?",
      how: OVER_ALL,
      name: "width",
      mark: "width",
      usual_mm: 330,
    },
    {
      key: "depth_mm",
      ask: "How deep is the sump below its rail?",
      how: "From the rail's lower face to the lowest point of the pan, the plug left out.",
      name: "depth",
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
  called: "the gearbox",
  ask: "Is the gearbox near this corner?",
  how: "Beside the engine across the car, or in line with it.",
  on: "powertrain",
  recipe: "casing",
  preset: { family: "transfer case" },
  places: middleOf("the gearbox", [200, -920, 140]),
  sizes: boxed("the gearbox", { length: 230, width: 300, height: 250 }),
  derive: casingCorners,
});

const DIFFERENTIAL = partQuestions({
  id: "differential",
  section: "powertrain",
  called: "the differential",
  ask: "Is the differential near this corner?",
  how: "Its casing with the bearings that the driveshafts come out of.",
  on: "powertrain",
  recipe: "casing",
  preset: { family: "final drive" },
  places: middleOf("the differential", [30, -760, 20]),
  sizes: boxed("the differential", { length: 230, width: 220, height: 180 }),
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

function rockAngle(id: PoseId, ask: string, how: string, name: string): Question {
  const pose = ({ powertrain }: SceneDocument) => powertrain?.poses?.find((one) => one.id === id);
  return {
    kind: "number",
    id: `rock.${id}_deg`,
    section: "powertrain",
    ask,
    how,
    name,
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
    fault: numberFault(-15, 15, "degrees", "An engine on sound mounts rocks by 1 to 3 degrees."),
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
    ask: "Does the powertrain rock on its mounts?",
    how: "On rubber it always does: its nose dips one way under power and the other way on the overrun. Every pair is then checked in both.",
    name: "engine rock",
    isThere: isRocking,
    add: addRock,
    remove: removeRock,
  }),
  {
    ...pointQuestion({
      point: ROCK_POINT,
      section: "powertrain",
      ask: "About which line across the car does it rock?",
      how: "The line through the two main mounts, or through the middle of three. Only forward and up matter.",
      name: "engine rock, axis",
      offset_mm: ROCK_OFFSET,
      isAsked: isRocking,
    }),
    usual: (document) => {
      const [x, , z] = wheelCentre(document);
      return [x + ROCK_OFFSET[0], 0, z + ROCK_OFFSET[2]];
    },
  },
  rockAngle(
    "pulling",
    "By how much does it rock under power?",
    "Lever it with a bar at the crank end, angle gauge on a machined face. Plus: the front goes down. Soft mounts 3, stiff ones 1 degree.",
    "engine rock under power",
  ),
  rockAngle(
    "overrun",
    "By how much does it rock on the overrun?",
    "The other way: levered against its mounts, it mostly moves less.",
    "engine rock on the overrun",
  ),
];
