import { InputError } from "../../scene/error.ts";
import { type LoadsDocument, withLoads } from "../../scene/loadsEdits.ts";
import { app } from "../store/useApp.ts";

/** Puts load records into the document as one step, which starts no check; null when done, else why it cannot be. */
export function editLoads(stepName: string, records: Partial<LoadsDocument>): InputError | null {
  try {
    app.getState().editAside(stepName, (document) => withLoads(document, records));
    return null;
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}
