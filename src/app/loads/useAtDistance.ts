import { startTransition, useEffect, useState } from "react";
import type { App } from "../store/actions.ts";
import { pace } from "../store/pace.ts";
import { shownDocument } from "../store/tried.ts";
import { app } from "../store/useApp.ts";

/** Between two drawings while a point is pulled or the wheels run. */
const REST_ms = 200;

/** The car as it is shown: its scene and the whole document of it. */
export const carOf = (state: App) => ({ scene: state.scene, document: shownDocument(state) });

interface Distance {
  /** While not, nothing is followed. */
  readonly isOn?: boolean;
  /** What nobody can read in passing waits until the hand that pulls a point rests. */
  readonly waitsForRest?: boolean;
}

/**
 * A part of the state for what need not follow every frame: at once after a rest, then some times a second. `read` must stay
 * the same function; what it gives is compared value by value.
 */
export function useAtDistance<T extends object>(
  read: (state: App) => T,
  { isOn = true, waitsForRest = false }: Distance = {},
): T {
  const [seen, setSeen] = useState(() => read(app.getState()));
  useEffect(() => {
    if (!isOn) return;
    let told = read(app.getState());
    let told_ms = Number.NEGATIVE_INFINITY;
    let travel = app.getState().travel_mm;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tell = (): void => {
      clearTimeout(timer);
      timer = undefined;
      told = read(app.getState());
      told_ms = performance.now();
      travel = app.getState().travel_mm;
      startTransition(() => setSeen(told));
    };
    const follow = (state: App): void => {
      const isTrying = state.tried !== null || state.triedEdit !== null;
      const waits = waitsForRest && isTrying && pace.pulling;
      if ((timer !== undefined && !waits) || isSame(read(state), told)) return;
      clearTimeout(timer);
      const moves = isTrying || state.travel_mm !== travel;
      const wait_ms = waits ? REST_ms : moves ? told_ms + REST_ms - performance.now() : 0;
      if (wait_ms > 0) timer = setTimeout(tell, wait_ms);
      else tell();
    };
    tell();
    const end = app.subscribe(follow);
    return () => {
      end();
      clearTimeout(timer);
    };
  }, [read, isOn, waitsForRest]);
  return seen;
}

function isSame<T extends object>(a: T, b: T): boolean {
  return (Object.keys(a) as (keyof T)[]).every((key) => Object.is(a[key], b[key]));
}
