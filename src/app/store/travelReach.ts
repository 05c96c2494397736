import type { Side } from "../../scene/scene.ts";
import { liveCorner } from "./corners.ts";
import type { AppState } from "./state.ts";

type Known = Pick<AppState, "scene">;

/** Travel that a wheel can be shown at, [droop end, bump end] mm: the scene's, cut short where the corner locks. */
export function travelReach({ scene }: Known, side: Side): readonly [number, number] {
  if (!scene) return [0, 0];
  const { run } = liveCorner(scene, side);
  return [run.from_mm, run.to_mm];
}

export function clampTravel(state: Known, side: Side, travel_mm: number): number {
  const [from, to] = travelReach(state, side);
  return Math.min(to, Math.max(from, travel_mm));
}
