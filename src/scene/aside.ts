import type { SceneDocument } from "./document.ts";

/** Records that nothing is drawn or checked for clearance from. */
type Aside = Pick<SceneDocument, "measures" | "loads" | "vehicle" | "service" | "tubeEnds">;

const ASIDE = ["measures", "loads", "vehicle", "service", "tubeEnds"] as const satisfies readonly (keyof Aside)[];

const bare = new WeakMap<SceneDocument, SceneDocument>();

/**
 * What is drawn and checked of the document: all but its measures, its loads, what the side view knows of the whole
 * vehicle, its service jobs, and how its tubes end. Documents that come from each other by edits of these alone (`withAside`) give the same object, so that nothing
 * is worked out anew for them.
 */
export function drawnPart(document: SceneDocument): SceneDocument {
  if (ASIDE.every((record) => !document[record])) return document;
  let rest = bare.get(document);
  if (!rest) {
    const { measures: _1, loads: _2, vehicle: _3, service: _4, tubeEnds: _5, ...others } = document;
    rest = others;
    bare.set(document, rest);
  }
  return rest;
}

/** The document with others of these records; undefined takes one out. */
export function withAside(document: SceneDocument, records: Partial<Aside>): SceneDocument {
  const rest = drawnPart(document);
  const given = ASIDE.flatMap((record) => {
    const value = record in records ? records[record] : document[record];
    return value ? [[record, value]] : [];
  });
  if (given.length === 0) return rest;
  const changed: SceneDocument = { ...rest, ...Object.fromEntries(given) };
  bare.set(changed, rest);
  return changed;
}
