import type { SceneDocument } from "./document.ts";

/** Records that nothing is drawn or checked for clearance from. */
type Aside = Pick<SceneDocument, "measures" | "loads" | "vehicle">;

const bare = new WeakMap<SceneDocument, SceneDocument>();

/**
 * What is drawn and checked of the document: all but its measures, its loads and what the side view knows of the whole
 * vehicle. Documents that come from each other by edits of these alone (`withAside`) give the same object, so that nothing
 * is worked out anew for them.
 */
export function drawnPart(document: SceneDocument): SceneDocument {
  if (!document.measures && !document.loads && !document.vehicle) return document;
  let rest = bare.get(document);
  if (!rest) {
    const { measures: _measures, loads: _loads, vehicle: _vehicle, ...others } = document;
    rest = others;
    bare.set(document, rest);
  }
  return rest;
}

/** The document with others of these records; undefined takes one out. */
export function withAside(document: SceneDocument, records: Partial<Aside>): SceneDocument {
  const rest = drawnPart(document);
  const { measures, loads, vehicle } = {
    measures: document.measures,
    loads: document.loads,
    vehicle: document.vehicle,
    ...records,
  };
  if (!measures && !loads && !vehicle) return rest;
  const changed: SceneDocument = {
    ...rest,
    ...(measures ? { measures } : {}),
    ...(loads ? { loads } : {}),
    ...(vehicle ? { vehicle } : {}),
  };
  bare.set(changed, rest);
  return changed;
}
