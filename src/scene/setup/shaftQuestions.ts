import { mirror, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { pointResolver } from "../pointResolver.ts";
import { type Mend, numberFault, placeFault, wheelCentre } from "./faults.ts";
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

function length(
  key: "diameter_mm" | "shortest_mm" | "longest_mm",
  mark: "diameter" | "shortest" | "longest",
  mend: Mend,
  usual: (document: SceneDocument) => number,
): Question {
  return unitLength({
    unit: "driveshaft",
    id: `shaft.${key}`,
    section: "shaft",
    picture: { of: "shaft", mark },
    most_mm: 1500,
    mend,
    usual,
    get: (record: Shaft) => record[key],
    set: (record: Shaft, value) => ({ ...record, [key]: value }),
  });
}

function rightLength(
  key: "shortest_mm" | "longest_mm",
  mark: "shortest" | "longest",
  usual: (document: SceneDocument) => number,
): Question {
  return unitLength({
    unit: "driveshaft",
    id: `shaft.right.${key}`,
    section: "shaft",
    picture: { of: "shaft", mark },
    most_mm: 1500,
    mend: "plunge",
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
    picture: { of: "shaft", mark: which },
    isNeeded: false,
    unit: "degrees",
    step: 1,
    isAsked: isThere,
    read: ({ driveshaft }) => driveshaft?.[key] ?? null,
    usual: () => (which === "inner" ? INNER_LIMIT_deg : OUTER_LIMIT_deg),
    put: (document, value) =>
      document.driveshaft ? withUnit(document, "driveshaft", { ...document.driveshaft, [key]: value }) : document,
    fault: numberFault(2, 60, "degrees", "bend"),
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
    isThere,
    add,
    remove: (document) => withoutUnit(document, "driveshaft"),
  }),
  pointQuestion({
    point: "shaft.in",
    section: "shaft",
    offset_mm: INNER,
    isAsked: isThere,
  }),
  pointQuestion({
    point: "shaft.out",
    section: "shaft",
    offset_mm: OUTER,
    isAsked: isThere,
  }),
  length("diameter_mm", "diameter", "shaft", () => 27),
  length("shortest_mm", "shortest", "plunge", (document) => Math.round(lengthAtRide(document) - PLUNGE_MM)),
  length("longest_mm", "longest", "plunge", (document) =>
    Math.max(Math.round(lengthAtRide(document) + PLUNGE_MM), (shortest(document) ?? 0) + 2 * PLUNGE_MM),
  ),
  angle("innerAngleLimit_deg", "inner"),
  angle("outerAngleLimit_deg", "outer"),
  {
    kind: "choice",
    id: "shaft.right",
    section: "shaft",
    picture: { of: "corner" },
    isNeeded: false,
    isAsked: (document) => isThere(document) && document.sides !== "left",
    options: () => [IMAGE, OWN],
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
    fault: (at, document) => placeFault(at, document, true),
  },
  rightLength("shortest_mm", "shortest", (document) => Math.round(rightLengthAtRide(document) - PLUNGE_MM)),
  rightLength("longest_mm", "longest", (document) =>
    Math.max(
      Math.round(rightLengthAtRide(document) + PLUNGE_MM),
      (document.driveshaft?.right?.shortest_mm ?? 0) + 2 * PLUNGE_MM,
    ),
  ),
];
