import { travelReach } from "./travelReach.ts";
import { app } from "./useApp.ts";

/** Speed of the run: slow enough to see where a part goes. */
const SPEED_mm_per_s = 60;

let frame: number | null = null;

/** Runs the wheels from where they are to full bump, to full droop and back to where they were, once. */
export function runWheels(onEnd: () => void): void {
  const state = app.getState();
  const side = state.scene?.sides[0];
  if (!side) return;
  const [droop_mm, bump_mm] = travelReach(state, side);
  const start_mm = state.travel_mm[side];
  const way = [start_mm, bump_mm, droop_mm, start_mm];
  let leg = 1;
  let at_mm = start_mm;
  let last_ms: number | null = null;
  const scene = state.scene;
  const step = (now_ms: number): void => {
    const moved = app.getState().travel_mm[side] !== at_mm && last_ms !== null;
    if (moved || app.getState().scene !== scene) {
      stopWheels(onEnd);
      return;
    }
    let left_mm = (SPEED_mm_per_s * Math.min(100, last_ms === null ? 0 : now_ms - last_ms)) / 1000;
    last_ms = now_ms;
    while (left_mm > 0 && leg < way.length) {
      const ahead = way[leg]! - at_mm;
      const go = Math.min(left_mm, Math.abs(ahead));
      at_mm += Math.sign(ahead) * go;
      left_mm -= go;
      if (Math.abs(way[leg]! - at_mm) < 1e-6) at_mm = way[leg++]!;
    }
    app.getState().setTravel(side, at_mm);
    at_mm = app.getState().travel_mm[side];
    if (leg >= way.length) stopWheels(onEnd);
    else frame = requestAnimationFrame(step);
  };
  frame = requestAnimationFrame(step);
}

export function stopWheels(onEnd: () => void): void {
  if (frame !== null) cancelAnimationFrame(frame);
  frame = null;
  onEnd();
}
