import { useStore } from "zustand";
import type { App } from "./actions.ts";
import { createAppStore } from "./store.ts";

export const app = createAppStore();

/** A part of the app's state, for components; draws anew only when that part changes. */
export function useApp<T>(select: (state: App) => T): T {
  return useStore(app, select);
}

/** What undoing and redoing would do, in words; null where there is nothing. */
export function useHistory(): { undo: string | null; redo: string | null } {
  const now = useApp((state) => state.stepName);
  const canUndo = useStore(app.temporal, (history) => history.pastStates.length > 0);
  const redo = useStore(app.temporal, (history) => history.futureStates.at(-1)?.stepName ?? null);
  return { undo: canUndo ? now : null, redo };
}
