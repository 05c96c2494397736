import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { app } from "../store/useApp.ts";

/** Makes an edit one step of the document; null when done, else why it cannot be. */
export function editParts(stepName: string, edit: (document: SceneDocument) => SceneDocument): InputError | null {
  const { document } = app.getState();
  if (!document) return null;
  try {
    const next = edit(document);
    if (next !== document) app.getState().edit(stepName, next);
    return null;
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}
