import type { CheckResult } from "../../check/result.ts";
import type { AppState } from "./state.ts";

/** Whether the verdicts at hand are the whole check of exactly what is shown, and not of what was shown before. */
export function isShownChecked({ result, stale, partial }: Pick<AppState, "result" | "stale" | "partial">): boolean {
  return result !== null && !stale && !partial;
}

/** Whether no clearance is yet to be made exact after an edit. */
export function isExact({ pairs }: CheckResult): boolean {
  return !pairs.some(({ isAtLeast }) => isAtLeast);
}
