import type { CheckResult } from "../../check/result.ts";
import type { AppState } from "./state.ts";

/** Whether the verdicts at hand are the whole check of exactly what is shown, and not of what was shown before. */
export function isShownChecked({ result, stale, partial }: Pick<AppState, "result" | "stale" | "partial">): boolean {
  return result !== null && !stale && !partial;
}

/** What the check says of what is shown or, while the hand moves it on, of where it was a moment ago; null: nothing yet. */
export function followingResult(
  state: Pick<AppState, "result" | "stale" | "partial" | "trailing">,
): CheckResult | null {
  return isShownChecked(state) || state.trailing ? state.result : null;
}

/** Whether no clearance is yet to be made exact after an edit. */
export function isExact({ pairs }: CheckResult): boolean {
  return !pairs.some(({ isAtLeast }) => isAtLeast);
}
