import type { AppState } from "./state.ts";

/** Whether the verdicts at hand are the whole check of exactly what is shown, and not of what was shown before. */
export function isShownChecked({ result, stale, partial }: Pick<AppState, "result" | "stale" | "partial">): boolean {
  return result !== null && !stale && !partial;
}
