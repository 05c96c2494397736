import type { SceneDocument } from "./document.ts";

/** Records that nothing is drawn or checked for clearance from. */
type Aside = Pick<SceneDocument, "measures" | "loads">;

const bare = new WeakMap<SceneDocument, SceneDocument>();

/**
 * What is drawn and checked of the document: all but its measures and loads. Documents that come from each other by edits
 * of these alone (`withAside`) give the same object, so that nothing is worked out anew for them.
 */
export function drawnPart(document: SceneDocument): SceneDocument {
  if (!document.measures && !document.loads) return document;
  let rest = bare.get(document);
  if (!rest) {
    const { measures: _measures, loads: _loads, ...others } = document;
    rest = others;
    bare.set(document, rest);
  }
  return rest;
}

/** The document with other measures or loads; undefined takes the record out. */
export function withAside(document: SceneDocument, records: Partial<Aside>): SceneDocument {
  const rest = drawnPart(document);
  const { measures, loads } = { measures: document.measures, loads: document.loads, ...records };
  if (!measures && !loads) return rest;
  const changed: SceneDocument = { ...rest, ...(measures ? { measures } : {}), ...(loads ? { loads } : {}) };
  bare.set(changed, rest);
  return changed;
}
