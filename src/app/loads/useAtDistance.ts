import { startTransition, useEffect, useState } from "react";
import type { App } from "../store/actions.ts";
import { shownDocument } from "../store/tried.ts";
import { app } from "../store/useApp.ts";

/** Between two drawings of the table while a point is pulled or the wheels run. */
const REST_ms = 100;

/** What the tables are of. */
export interface ShownState extends Pick<App, "scene" | "travel_mm" | "pose" | "share"> {
  readonly document: ReturnType<typeof shownDocument>;
}

/** The shown state for what need not follow every frame: at once after a rest, then some times a second. */
export function useAtDistance(): ShownState {
  const [seen, setSeen] = useState(() => stateOf(app.getState()));
  useEffect(() => {
    let told = stateOf(app.getState());
    let told_ms = Number.NEGATIVE_INFINITY;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tell = (): void => {
      clearTimeout(timer);
      timer = undefined;
      told = stateOf(app.getState());
      told_ms = performance.now();
      startTransition(() => setSeen(told));
    };
    const follow = (state: App): void => {
      const now = stateOf(state);
      if (isSame(now, told) || timer !== undefined) return;
      const moves = state.tried !== null || state.triedEdit !== null || now.travel_mm !== told.travel_mm;
      const wait_ms = moves ? told_ms + REST_ms - performance.now() : 0;
      if (wait_ms > 0) timer = setTimeout(tell, wait_ms);
      else tell();
    };
    tell();
    const end = app.subscribe(follow);
    return () => {
      end();
      clearTimeout(timer);
    };
  }, []);
  return seen;
}

function stateOf(state: App): ShownState {
  const { scene, travel_mm, pose, share } = state;
  return { scene, travel_mm, pose, share, document: shownDocument(state) };
}

function isSame(a: ShownState, b: ShownState): boolean {
  return (
    a.scene === b.scene &&
    a.document === b.document &&
    a.travel_mm === b.travel_mm &&
    a.pose === b.pose &&
    a.share === b.share
  );
}
