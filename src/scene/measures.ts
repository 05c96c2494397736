import { withAside } from "./aside.ts";
import type { SceneDocument } from "./document.ts";

/** A measure pinned in the view, as the file has it. */
export type Measure = NonNullable<SceneDocument["measures"]>[number];
export type MeasureOf<Kind extends Measure["kind"]> = Extract<Measure, { kind: Kind }>;
export type Spot = MeasureOf<"distance">["from"];
export type PartSpot = Extract<Spot, { part: string }>;
export type PointSpot = Extract<Spot, { point: string }>;
export type MeasuredLine = MeasureOf<"lines">["a"];
export type BodyName = MeasureOf<"gap">["a"];

/** A measure without what the document gives it. */
export type NewMeasure = { readonly [Kind in Measure["kind"]]: Omit<MeasureOf<Kind>, "id"> }[Measure["kind"]];

/** A point or part that a measure names, and where in the document. */
interface Mention {
  readonly what: "point" | "part";
  readonly id: string;
  readonly path: string;
}

export function mentionsOf(document: SceneDocument): Mention[] {
  return (document.measures ?? []).flatMap((measure, i) =>
    endsOf(measure).map(([key, end]): Mention => {
      const path = `measures[${i}].${key}`;
      return "point" in end
        ? { what: "point", id: end.point, path: `${path}.point` }
        : { what: "part", id: end.part, path: `${path}.part` };
    }),
  );
}

type End = Spot | MeasuredLine | BodyName;

const ENDS: Readonly<Record<Measure["kind"], readonly string[]>> = {
  distance: ["from", "to"],
  angle: ["from", "at", "to"],
  lines: ["a", "b"],
  gap: ["a", "b"],
};

function endsOf(measure: Measure): (readonly [key: string, end: End])[] {
  const ends = measure as unknown as Readonly<Record<string, End>>;
  return ENDS[measure.kind].map((key) => [key, ends[key]!]);
}

/** The document with one more measure, under the next free number. */
export function withMeasure(document: SceneDocument, measure: NewMeasure): SceneDocument {
  const taken = new Set(document.measures?.map(({ id }) => id));
  let number = taken.size + 1;
  while (taken.has(String(number))) number++;
  return withMeasures(document, [...(document.measures ?? []), { id: String(number), ...measure }]);
}

export function withoutMeasure(document: SceneDocument, id: string): SceneDocument {
  return withMeasures(
    document,
    (document.measures ?? []).filter((measure) => measure.id !== id),
  );
}

export function withMeasureHidden(document: SceneDocument, id: string, isHidden: boolean): SceneDocument {
  return withMeasures(
    document,
    (document.measures ?? []).map((measure) => {
      if (measure.id !== id) return measure;
      const { hidden: _, ...shown } = measure;
      return isHidden ? { ...shown, hidden: true } : shown;
    }),
  );
}

/** The document without the measures at any of these parts or points. */
export function withoutMeasuresAt(
  document: SceneDocument,
  gone: { readonly parts: readonly string[]; readonly points: readonly string[] },
): SceneDocument {
  const kept = (document.measures ?? []).filter((measure) =>
    endsOf(measure).every(([, end]) =>
      "point" in end ? !gone.points.includes(end.point) : !gone.parts.includes(end.part),
    ),
  );
  return kept.length === (document.measures?.length ?? 0) ? document : withMeasures(document, kept);
}

/** The document's measures with a part under another id. */
export function withMeasuresRenamed(document: SceneDocument, from: string, to: string): SceneDocument {
  if (!document.measures) return document;
  const renamed = (end: End): End => ("part" in end && end.part === from ? { ...end, part: to } : end);
  return withMeasures(
    document,
    document.measures.map((measure): Measure => {
      const ends = endsOf(measure).map(([key, end]) => [key, renamed(end)] as const);
      return { ...measure, ...Object.fromEntries(ends) };
    }),
  );
}

function withMeasures(document: SceneDocument, measures: readonly Measure[]): SceneDocument {
  return withAside(document, { measures: measures.length === 0 ? undefined : measures });
}
