import type { Side } from "../../scene/scene.ts";
import { app } from "../store/useApp.ts";

/** Takes the wheels and the engine to a state that no pair is chosen for, such as a limit's worst. */
export function showState(side: Side, travel_mm: number, pose: string, share?: number): void {
  const state = app.getState();
  state.choosePair(null);
  state.setPose(pose, share);
  state.setTravel(side, travel_mm);
}
