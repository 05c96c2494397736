import { type TemporalState, temporal } from "zundo";
import { createStore, type StoreApi } from "zustand/vanilla";
import type { App } from "./actions.ts";
import { blankState } from "./blank.ts";
import { documentActions } from "./documentActions.ts";
import { sessionActions } from "./sessionActions.ts";
import type { DocumentState } from "./state.ts";

type History = StoreApi<TemporalState<DocumentState>>;

function stepOf(state: App): DocumentState {
  return { document: state.document, fileName: state.fileName, stepName: state.stepName };
}

/**
 * The app's state. The document alone is undone (`store.temporal`, unlimited, every step named); the session and what
 * is computed are not.
 */
export function createAppStore() {
  return createStore<App>()(
    temporal(
      (set, get, store) => ({
        ...blankState(),
        ...documentActions(set, get, () => (store.temporal as History).getState()),
        ...sessionActions(set, get),
      }),
      {
        partialize: stepOf,
        equality: (before, now) => before.document === now.document && before.fileName === now.fileName,
      },
    ),
  );
}

export type AppStore = ReturnType<typeof createAppStore>;
