import type { SceneDocument } from "./document.ts";

/** Records that nothing is drawn or checked for clearance from. */
type Aside = Pick<SceneDocument, "measures" | "loads" | "vehicle" | "service">;

const bare = new WeakMap<SceneDocument, SceneDocument>();

/**
 * What is drawn and checked of the document: all but its measures, its loads, what the side view knows of the whole
 * vehicle, and its service jobs. Documents that come from each other by edits of these alone (`withAside`) give the same object, so that nothing
 * is worked out anew for them.
 */
export function drawnPart(document: SceneDocument): SceneDocument {
  if (!document.measures && !document.loads && !document.vehicle && !document.service) return document;
  let rest = bare.get(document);
  if (!rest) {
    const { measures: _measures, loads: _loads, vehicle: _vehicle, service: _service, ...others } = document;
    rest = others;
    bare.set(document, rest);
  }
  return rest;
}

/** The document with others of these records; undefined takes one out. */
export function withAside(document: SceneDocument, records: Partial<Aside>): SceneDocument {
  const rest = drawnPart(document);
  const { measures, loads, vehicle, service } = {
    measures: document.measures,
    loads: document.loads,
    vehicle: document.vehicle,
    service: document.service,
    ...records,
  };
  if (!measures && !loads && !vehicle && !service) return rest;
  const changed: SceneDocument = {
    ...rest,
    ...(measures ? { measures } : {}),
    ...(loads ? { loads } : {}),
    ...(vehicle ? { vehicle } : {}),
    ...(service ? { service } : {}),
  };
  bare.set(changed, rest);
  return changed;
}
