import type { Member } from "../../scene/scene.ts";
import type { LoadedAt, LoadedState } from "../runLoads.ts";
import type { BoltClass } from "./bolt.ts";

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

/** Where a formula stands; told in words by tell.ts. */
export type SourceId = "bar" | "boltTable" | "pinTable" | "netSection" | "weld" | "maker" | "builder";

/** What a formula does not see; told in words by tell.ts. */
export type NoteId =
  | "lone leg"
  | "strut leg"
  | "ball cut"
  | "hinge cut"
  | "drawn bow"
  | "bolt bending"
  | "no bolt axis"
  | "edge"
  | "along runs";

/** What would have to be known of a part, or asked for; told in words by tell.ts. */
export type Missing =
  | { readonly what: "tube"; readonly kind: Member["kind"] }
  | { readonly what: "leg"; readonly leg: "front" | "rear" }
  | { readonly what: "bolt" | "plate" | "weld" | "rating" }
  | { readonly what: "bolt class"; readonly class: BoltClass }
  | { readonly what: "material" | "weld factor"; readonly material: string };

/** What a bar gives way by first. */
export type GovernedBy = "yield" | "Euler" | "Johnson" | "bending and buckling";

/** One check of one part in one state. */
export interface Finding {
  /** How many times the load may grow; infinite under no load. */
  readonly factor: number;
  /** Of a bar; null for other checks. */
  readonly governedBy: GovernedBy | null;
  readonly formula: string;
  readonly source: SourceId;
  /** The maker's source of a rating, as the builder told it; null: not told, or no rating. */
  readonly told: string | null;
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
  readonly notes: readonly NoteId[];
}

/** What cannot be screened, and what would have to be known. */
export interface UnknownRow {
  readonly part: string;
  readonly missing: readonly Missing[];
}

/** The check's row at the state with the least factor; none where the part is loaded in no state. */
export function rowOf(
  part: string,
  check: CheckName,
  target: number | null,
  notes: readonly NoteId[],
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
