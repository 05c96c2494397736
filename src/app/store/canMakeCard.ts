import { isExact, isShownChecked } from "./isShownChecked.ts";
import type { AppState } from "./state.ts";

/** A card records verdicts of what is shown: whole and exact ones, none from before a change. */
export function canMakeCard(state: Pick<AppState, "result" | "stale" | "partial">): boolean {
  return isShownChecked(state) && state.result !== null && isExact(state.result);
}
