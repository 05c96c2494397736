import type { AppState } from "./state.ts";

/** A card records verdicts of what is shown: whole ones, none from before a change. */
export function canMakeCard({ result, stale, partial }: Pick<AppState, "result" | "stale" | "partial">): boolean {
  return result !== null && !stale && !partial;
}
