import { mirror, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { pointResolver } from "../pointResolver.ts";
import { numberFault, placeFault, wheelCentre } from "./faults.ts";
import { existence } from "./partQuestions.ts";
import { pointQuestion, withPlace } from "./places.ts";
import type { NumberQuestion, Question } from "./question.ts";
import { drawnLength, unitLength, withoutUnit, withUnit } from "./unitQuestions.ts";

type Shaft = NonNullable<SceneDocument["driveshaft"]>;

const INNER: Vec3 = [15, -552, 10];
const OUTER: Vec3 = [0, -68, 0];
/** Half of the stroke of a plunging joint. Common practice, no source. */
const PLUNGE_MM = 18;
const INNER_LIMIT_deg = 23;
const OUTER_LIMIT_deg = 45;

const isThere = ({ driveshaft }: SceneDocument) => driveshaft !== undefined;
const hasRight = ({ driveshaft }: SceneDocument) => driveshaft?.right?.inner !== undefined;

function lengthAtRide(document: SceneDocument): number {
  const shaft = document.driveshaft;
  return shaft && typeof shaft.inner === "string" && typeof shaft.outer === "string"
    ? drawnLength(document, shaft.inner, shaft.outer)
    : 480;
}

function rightLengthAtRide(document: SceneDocument): number {
  const { drawn } = pointResolver(document);
  const shaft = document.driveshaft;
  if (!shaft?.right?.inner) return lengthAtRide(document);
  const [a, b] = [drawn(shaft.right.inner, "driveshaft.right.inner"), mirror(drawn(shaft.outer, "driveshaft.outer"))];
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

const shortest = ({ driveshaft }: SceneDocument) => driveshaft?.shortest_mm;

function add(document: SceneDocument): SceneDocument {
  const [x, y, z] = wheelCentre(document);
  const at = ([dx, dy, dz]: Vec3): Vec3 => [x + dx, y + dy, z + dz];
  const placed = withPlace(withPlace(document, "shaft.in", at(INNER), "assumed"), "shaft.out", at(OUTER), "assumed");
  const length_mm = drawnLength(placed, "shaft.in", "shaft.out");
  return withUnit(placed, "driveshaft", {
    inner: "shaft.in",
    innerAxis: [0, 1, 0],
    outer: "shaft.out",
    diameter_mm: 27,
    shortest_mm: Math.round(length_mm - PLUNGE_MM),
    longest_mm: Math.round(length_mm + PLUNGE_MM),
    innerAngleLimit_deg: INNER_LIMIT_deg,
    outerAngleLimit_deg: OUTER_LIMIT_deg,
  });
}

const PUSHED = "Between the middles of the two joints, with the inner joint pushed home.";
const PULLED = "Between the middles of the two joints, pulled until the inner joint would let go.";
const PLUNGES = "From joint middle to joint middle: a plunging joint has about 50 mm of stroke.";

function length(
  key: "diameter_mm" | "shortest_mm" | "longest_mm",
  mark: "diameter" | "shortest" | "longest",
  words: { readonly ask: string; readonly how: string; readonly name: string; readonly mend: string },
  usual: (document: SceneDocument) => number,
): Question {
  return unitLength({
    ...words,
    unit: "driveshaft",
    id: `shaft.${key}`,
    section: "shaft",
    picture: { of: "shaft", mark },
    most_mm: 1500,
    usual,
    get: (record: Shaft) => record[key],
    set: (record: Shaft, value) => ({ ...record, [key]: value }),
  });
}

function rightLength(
  key: "shortest_mm" | "longest_mm",
  mark: "shortest" | "longest",
  words: { readonly ask: string; readonly how: string; readonly name: string },
  usual: (document: SceneDocument) => number,
): Question {
  return unitLength({
    ...words,
    unit: "driveshaft",
    id: `shaft.right.${key}`,
    section: "shaft",
    picture: { of: "shaft", mark },
    most_mm: 1500,
    mend: PLUNGES,
    usual,
    isAsked: hasRight,
    get: (record: Shaft) => record.right?.[key] ?? record[key],
    set: (record: Shaft, value) => ({ ...record, right: { ...record.right, [key]: value } }),
  });
}

function angle(key: "innerAngleLimit_deg" | "outerAngleLimit_deg", which: "inner" | "outer"): NumberQuestion {
  return {
    kind: "number",
    id: `shaft.${key}`,
    section: "shaft",
    ask: `How far can the ${which} joint bend?`,
    how:
      which === "inner"
        ? "On the bench, until its parts touch: 22 to 31 degrees by type."
        : "On the bench, until its parts touch: 40 to 50 degrees by type.",
    name: `${which} joint's bend`,
    picture: { of: "shaft", mark: which },
    isNeeded: false,
    unit: "degrees",
    step: 1,
    isAsked: isThere,
    read: ({ driveshaft }) => driveshaft?.[key] ?? null,
    usual: () => (which === "inner" ? INNER_LIMIT_deg : OUTER_LIMIT_deg),
    put: (document, value) =>
      document.driveshaft ? withUnit(document, "driveshaft", { ...document.driveshaft, [key]: value }) : document,
    fault: numberFault(2, 60, "degrees", "The angle between shaft and joint, not the whole swing."),
  };
}

/** The record without keys that hold nothing: a scene has none. */
function withoutNothing<T extends object>(record: T): T {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as T;
}

const IMAGE = "image";
const OWN = "own";

export const SHAFT_QUESTIONS: readonly Question[] = [
  existence({
    id: "shaft",
    section: "shaft",
    ask: "Is there a driveshaft to this wheel?",
    how: "Its lengths and angles are checked through the whole travel.",
    name: "driveshaft",
    isThere,
    add,
    remove: (document) => withoutUnit(document, "driveshaft"),
  }),
  pointQuestion({
    point: "shaft.in",
    section: "shaft",
    ask: "Where is the middle of the inner joint?",
    how: "On the output's own line. The middle of the joint's balls or rollers at ride height, depth gauge from its open face.",
    name: "driveshaft, inner joint",
    offset_mm: INNER,
    isAsked: isThere,
  }),
  pointQuestion({
    point: "shaft.out",
    section: "shaft",
    ask: "Where is the middle of the outer joint?",
    how: "On the wheel's own line, inboard of the hub: the centre of the joint's cage.",
    name: "driveshaft, outer joint",
    offset_mm: OUTER,
    isAsked: isThere,
  }),
  length(
    "diameter_mm",
    "diameter",
    {
      ask: "How thick is the driveshaft?",
      how: "Between the boots, with calipers.",
      name: "driveshaft, thickness",
      mend: "The diameter of the shaft between its boots.",
    },
    () => 27,
  ),
  length(
    "shortest_mm",
    "shortest",
    { ask: "How short can the driveshaft get?", how: PUSHED, name: "driveshaft, shortest", mend: PLUNGES },
    (document) => Math.round(lengthAtRide(document) - PLUNGE_MM),
  ),
  length(
    "longest_mm",
    "longest",
    { ask: "How long can the driveshaft get?", how: PULLED, name: "driveshaft, longest", mend: PLUNGES },
    (document) => Math.max(Math.round(lengthAtRide(document) + PLUNGE_MM), (shortest(document) ?? 0) + 2 * PLUNGE_MM),
  ),
  angle("innerAngleLimit_deg", "inner"),
  angle("outerAngleLimit_deg", "outer"),
  {
    kind: "choice",
    id: "shaft.right",
    section: "shaft",
    ask: "Is the right inner joint the left one's image?",
    how: "With an engine that sits to one side it is not: then the right shaft has another length.",
    name: "right inner joint",
    picture: { of: "corner" },
    isNeeded: false,
    isAsked: (document) => isThere(document) && document.sides !== "left",
    options: () => [
      { value: IMAGE, label: "Yes, its image" },
      { value: OWN, label: "No, measured by itself" },
    ],
    read: (document) => (isThere(document) ? (hasRight(document) ? OWN : IMAGE) : null),
    usual: () => IMAGE,
    put(document, answer) {
      const shaft = document.driveshaft;
      if (!shaft || (answer === OWN) === hasRight(document)) return document;
      const { right: _, ...rest } = shaft;
      if (answer === IMAGE) return withUnit(document, "driveshaft", rest);
      const inner = mirror(pointResolver(document).drawn(shaft.inner, "driveshaft.inner"));
      const [x, y, z] = shaft.innerAxis;
      const { shortest_mm, longest_mm } = rest;
      const right = { inner, innerAxis: [x, -y, z] as const, shortest_mm, longest_mm };
      return withUnit(document, "driveshaft", { ...rest, right: withoutNothing(right) });
    },
    fault: () => null,
  },
  {
    kind: "place",
    id: "shaft.right.inner",
    section: "shaft",
    ask: "Where is the middle of the right inner joint?",
    how: "As on the left. Out is counted from the centre plane to the right.",
    name: "driveshaft, right inner joint",
    picture: { of: "place", side: "right" },
    isNeeded: false,
    side: "right",
    point: null,
    isAsked: hasRight,
    read(document) {
      const inner = document.driveshaft?.right?.inner;
      return inner === undefined ? null : pointResolver(document).drawn(inner, "driveshaft.right.inner");
    },
    usual: (document) => {
      const { driveshaft } = document;
      return driveshaft ? mirror(pointResolver(document).drawn(driveshaft.inner, "driveshaft.inner")) : [0, 0, 0];
    },
    put(document, inner) {
      const shaft = document.driveshaft;
      return shaft ? withUnit(document, "driveshaft", { ...shaft, right: { ...shaft.right, inner } }) : document;
    },
    fault: (at, document, unit) => placeFault(at, document, unit, true),
  },
  rightLength(
    "shortest_mm",
    "shortest",
    { ask: "How short can the right driveshaft get?", how: PUSHED, name: "right driveshaft, shortest" },
    (document) => Math.round(rightLengthAtRide(document) - PLUNGE_MM),
  ),
  rightLength(
    "longest_mm",
    "longest",
    { ask: "How long can the right driveshaft get?", how: PULLED, name: "right driveshaft, longest" },
    (document) =>
      Math.max(
        Math.round(rightLengthAtRide(document) + PLUNGE_MM),
        (document.driveshaft?.right?.shortest_mm ?? 0) + 2 * PLUNGE_MM,
      ),
  ),
];
