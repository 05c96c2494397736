import type { SceneDocument } from "../../scene/document.ts";

/** The scene with the pair left out of the count, and why; a reason given before for the same pair makes way. */
export function withAccepted(document: SceneDocument, a: string, b: string, why: string): SceneDocument {
  const others = (document.clearances.accept ?? []).filter(
    (entry) => !((entry.a === a && entry.b === b) || (entry.a === b && entry.b === a)),
  );
  return { ...document, clearances: { ...document.clearances, accept: [...others, { a, b, why }] } };
}

/** The scene with the pair counted again. */
export function withoutAccepted(document: SceneDocument, a: string, b: string): SceneDocument {
  const accept = (document.clearances.accept ?? []).filter(
    (entry) => !((entry.a === a && entry.b === b) || (entry.a === b && entry.b === a)),
  );
  return { ...document, clearances: { ...document.clearances, accept } };
}
