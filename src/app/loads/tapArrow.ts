import type { GrabPlace } from "../viewport/gestures.ts";
import type { Sight } from "../viewport/sight.ts";
import { type Arrow, awayFromStretch } from "./arrows.ts";
import { pick, useLoadsLook } from "./loadsStore.ts";

const REACH_PX = { mouse: 9, touch: 22 } as const;

/** A tap on an arrow opens its line of the table, or closes it; false where none is near. */
export function tapArrow(at: GrabPlace, arrows: readonly Arrow[], sight: Sight): boolean {
  let best: Arrow | null = null;
  let least: number = REACH_PX[at.isTouch ? "touch" : "mouse"];
  for (const arrow of arrows) {
    const away = awayFromStretch(at, sight.project(arrow.tail), sight.project(arrow.tip));
    if (away <= least) [best, least] = [arrow, away];
  }
  if (best) {
    pick(`${best.id}|force`, best.id);
    useLoadsLook.setState({ tab: "forces" });
  }
  return best !== null;
}
