import { distance, type Vec3 } from "../maths/vec3.ts";
import { InputError } from "./error.ts";
import { CRITICAL, placeFromTapes, spreadAlong, type Tape, type TapedPlace } from "./tape.ts";
import { slipsOf } from "./tapeSlips.ts";

/** What the other tapes say about one of them. */
export interface TapeOpinion {
  /** The length that the others give it, mm. */
  readonly wanted_mm: number;
  /** Standard deviation of what is typed against `wanted_mm`, mm, if nothing is mistyped. */
  readonly spread_mm: number;
  /** By how many accuracies the misfit shrinks without it: √(Ω − Ωᵢ)/accuracy. */
  readonly weight: number;
  /** How far the point goes when this tape is left out, mm. */
  readonly moves_mm: number;
  /** Where it goes: the point by the others alone. */
  readonly at: Vec3;
  /** The length that a slip of the pen or eye would make of the typed one, and the others agree with, mm; null: none. */
  readonly slip_mm: number | null;
}

export interface TapeSuspicion {
  /** The tapes disagree by more than their accuracy allows (1 % level). */
  readonly isFlagged: boolean;
  /** The tape that is most likely wrong; null: nothing is wrong, or any of several may be. */
  readonly suspect: number | null;
  /** The others of equal weight explain the misfit as well, so that the figures alone do not single it out. */
  readonly isOneOfSeveral: boolean;
  /** By tape; null where the others do not fix the point without it: a slip there is not seen. */
  readonly opinions: readonly (TapeOpinion | null)[];
}

/**
 * Looks for a mistyped tape: each is left out in turn, and the others say what it should have read. The test is the one of
 * data snooping (Baarda, A testing procedure for use in geodetic networks, 1968: from memory), with the misfit solved anew
 * rather than linearised, since slips are large. With one tape more than needed all tapes weigh the same: then that one is
 * suspected whose length is a common slip away from what the others say, and which harms the point most.
 *
 * `place` is the chosen one of placeFromTapes. With three tapes nothing can be told: no opinions, not flagged.
 */
export function suspectTape(tapes: readonly Tape[], accuracy_mm: number, place: TapedPlace): TapeSuspicion {
  const opinions = tapes.map((_, i) => (tapes.length > 3 ? opinionOf(i, tapes, accuracy_mm, place) : null));
  const heaviest = Math.max(0, ...opinions.map((opinion) => opinion?.weight ?? 0));
  if (heaviest <= CRITICAL) return { isFlagged: false, suspect: null, isOneOfSeveral: false, opinions };
  // leaving either out mends the misfit alike: the same test tells them apart
  const mendsAlike = (weight: number) => heaviest ** 2 - weight ** 2 < CRITICAL ** 2;
  const group = tapes.map((_, i) => i).filter((i) => opinions[i] && mendsAlike(opinions[i].weight));
  if (group.length === 1) return { isFlagged: true, suspect: group[0]!, isOneOfSeveral: false, opinions };
  const slipped = group.filter((i) => opinions[i]!.slip_mm !== null);
  slipped.sort((i, j) => opinions[j]!.moves_mm - opinions[i]!.moves_mm);
  return { isFlagged: true, suspect: slipped[0] ?? null, isOneOfSeveral: true, opinions };
}

function opinionOf(i: number, tapes: readonly Tape[], accuracy_mm: number, place: TapedPlace): TapeOpinion | null {
  const [tape, others] = [tapes[i]!, tapes.filter((_, j) => j !== i)];
  const without = placeWithout(others, accuracy_mm, place.at);
  if (without === null) return null;
  const wanted_mm = distance(without.at, tape.stud);
  const away: Vec3 = [0, 1, 2].map((k) => (without.at[k]! - tape.stud[k]!) / wanted_mm) as unknown as Vec3;
  const spread_mm = Math.hypot(accuracy_mm, spreadAlong(without, away));
  // without it the point is hardly known along this tape: the others have no say
  if (!(spread_mm < 100 * accuracy_mm)) return null;
  const shrinks = Math.max(0, place.misfit_mm ** 2 - without.misfit_mm ** 2);
  return {
    wanted_mm,
    spread_mm,
    weight: Math.sqrt(shrinks) / accuracy_mm,
    moves_mm: distance(without.at, place.at),
    at: without.at,
    slip_mm: slipNear(tape.length_mm, wanted_mm, spread_mm),
  };
}

/** The slip nearest to what the others say, within one standard deviation of it. */
function slipNear(typed_mm: number, wanted_mm: number, spread_mm: number): number | null {
  const near = slipsOf(typed_mm).filter((mm) => Math.abs(mm - wanted_mm) <= spread_mm);
  near.sort((a, b) => Math.abs(a - wanted_mm) - Math.abs(b - wanted_mm));
  return near[0] ?? null;
}

/** The place that suits the others best, even across the plane of the studs; null where they fix none. */
function placeWithout(others: readonly Tape[], accuracy_mm: number, near: Vec3): TapedPlace | null {
  try {
    return placeFromTapes(others, accuracy_mm, near).places[0]!;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
