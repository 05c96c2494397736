import type { LoadedAt, LoadedState } from "../runLoads.ts";

export type CheckName =
  | "tension"
  | "compression"
  | "bolt shear"
  | "plate bearing"
  | "tear-out"
  | "beside the hole"
  | "net section"
  | "weld"
  | "joint rating";

/** One check of one part in one state. */
export interface Finding {
  /** How many times the load may grow; infinite under no load. */
  readonly factor: number;
  readonly formula: string;
  readonly source: string;
  /** Everything that the formula took, by name and unit. */
  readonly inputs: Readonly<Record<string, number | string>>;
}

export type Verdict = "below target" | "reaches target" | "no target";

/** One check of one part at its worst state. */
export interface ScreenRow extends Finding {
  /** A joint ("upper.inboard") or a stretch of a member ("upper", "lower front"). */
  readonly part: string;
  readonly check: CheckName;
  /** The builder's own; null: none was set. */
  readonly target: number | null;
  readonly verdict: Verdict;
  readonly at: LoadedAt;
  /** What the formula does not see. */
  readonly notes: readonly string[];
}

/** What cannot be screened, and what would have to be known. */
export interface UnknownRow {
  readonly part: string;
  readonly missing: readonly string[];
}

/** The check's row at the state with the least factor; none where the part is loaded in no state. */
export function rowOf(
  part: string,
  check: CheckName,
  target: number | null,
  notes: readonly string[],
  states: readonly LoadedState[],
  find: (state: LoadedState) => Finding | null,
): ScreenRow[] {
  let worst: Finding | null = null;
  let at: LoadedAt | null = null;
  for (const state of states) {
    const finding = find(state);
    if (!finding || !(finding.factor < (worst?.factor ?? Number.POSITIVE_INFINITY))) continue;
    worst = finding;
    at = state.at;
  }
  if (!worst || !at) return [];
  const verdict = target === null ? "no target" : worst.factor < target ? "below target" : "reaches target";
  return [{ ...worst, part, check, target, verdict, at, notes }];
}
