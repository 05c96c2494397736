import type { SceneDocument } from "../../scene/document.ts";
import type { Workshop } from "../../work/protocol.ts";
import type { AppStore } from "./store.ts";

/**
 * Keeps the bodies in step: one build at a time, each for the newest document that was wanted when it began, so that
 * parts follow a drag as fast as they can be made. `fail` hears of a build whose document is still the newest.
 */
export function buildLoop(store: AppStore, workshop: Workshop, fail: (error: unknown) => void) {
  let wanted: SceneDocument | null = null;
  let busy = false;

  const run = async (): Promise<void> => {
    busy = true;
    while (wanted) {
      const document: SceneDocument = wanted;
      try {
        const bodies = await workshop.build(document, store.getState().files).done;
        if (wanted !== null) store.setState({ bodies });
      } catch (error) {
        if (wanted === document) fail(error);
      }
      if (wanted === document) break;
    }
    busy = false;
  };
  return {
    /** null: nothing is wanted any more. */
    want(document: SceneDocument | null): void {
      wanted = document;
      if (document && !busy) void run();
    },
  };
}
