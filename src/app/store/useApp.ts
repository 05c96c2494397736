import { startTransition, useEffect, useRef, useState } from "react";
import { type StoreApi, useStore } from "zustand";
import type { App } from "./actions.ts";
import { pace } from "./pace.ts";
import { createAppStore } from "./store.ts";

export const app = createAppStore();

/**
 * A part of the app's state, for components; draws anew only when that part changes, at once or, while the hand pulls, after
 * the frame.
 */
export const useApp: <T>(select: (state: App) => T) => T = pace.hookFor(app);

/**
 * The same for what may follow the hand at a distance: drawn when nothing more urgent is to be drawn, in slices that let
 * the hand through. `select` must not depend on anything but the state.
 */
export function useAppLater<T>(select: (state: App) => T): T {
  return useLater(app, select);
}

/** The same of any store, which must stay the same one. */
export function useLater<S, T>(store: Pick<StoreApi<S>, "getState" | "subscribe">, select: (state: S) => T): T {
  const selecting = useRef(select);
  const [value, setValue] = useState(() => select(store.getState()));
  const told = useRef(value);
  useEffect(() => {
    const follow = (): void => {
      const now = selecting.current(store.getState());
      if (Object.is(now, told.current)) return;
      told.current = now;
      startTransition(() => setValue(() => now));
    };
    follow();
    return store.subscribe(follow);
  }, [store]);
  return value;
}

/** What undoing and redoing would do, in words; null where there is nothing. */
export function useHistory(): { undo: string | null; redo: string | null } {
  const now = useApp((state) => state.stepName);
  const canUndo = useStore(app.temporal, (history) => history.pastStates.length > 0);
  const redo = useStore(app.temporal, (history) => history.futureStates.at(-1)?.stepName ?? null);
  return { undo: canUndo ? now : null, redo };
}
