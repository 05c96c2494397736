import type { Pose } from "../../maths/pose.ts";
import { axisPoints, type Refinement, refinePlace, type SurfaceMatch } from "../../scans/refine.ts";
import { type PointPair, type Registration, registerPairs, residualsOf, rms } from "../../scans/register.ts";
import { InputError } from "../../scene/error.ts";
import type { MatchDraft, PairDraft, ScanDraft } from "./scanStore.ts";

export interface Placing {
  /** Keys of the pairs that count, in the order of `registration.residuals_mm`. */
  readonly counted: readonly number[];
  readonly registration: Registration | null;
  /** Why the pairs do not place it; null: they do, or there are none. */
  readonly refusal: InputError | null;
  readonly refinement: Refinement | null;
  /** Root mean square of how far the pairs are off after the fit; null without both. */
  readonly pairsAfter_mm: number | null;
  /** Keys of the matches that count, in the order of `refinement.fits`. */
  readonly matched: readonly number[];
  /** Where the scan stands by all that. */
  readonly pose: Pose;
}

let last: { readonly of: readonly unknown[]; readonly placing: Placing } | null = null;

/** Where pairs and fitted surfaces put the scan. The same draft gives the same object. */
export function placingOf({ pairs, matches, given }: Pick<ScanDraft, "pairs" | "matches" | "given">): Placing {
  const of = [pairs, matches, given];
  if (!last || of.some((part, i) => part !== last!.of[i])) last = { of, placing: work(pairs, matches, given) };
  return last.placing;
}

function work(pairs: readonly PairDraft[], matches: readonly MatchDraft[], given: Pose): Placing {
  const whole = pairs.flatMap(({ key, scan, car }) => (scan && car ? [{ key, pair: { scan, car } as PointPair }] : []));
  const { registration, refusal } = registered(whole.map(({ pair }) => pair));
  const fitted = matches.flatMap((match) => {
    const surface = surfaceOf(match);
    return surface ? [{ key: match.key, surface }] : [];
  });
  const from = registration?.pose ?? given;
  const surfaces = fitted.map(({ surface }) => surface);
  const refinement = surfaces.length > 0 ? refinePlace(from, surfaces) : null;
  const pairsAfter =
    registration && refinement
      ? residualsOf(
          refinement.pose,
          whole.map(({ pair }) => pair),
        )
      : null;
  return {
    pairsAfter_mm: pairsAfter && rms(pairsAfter),
    counted: registration ? whole.map(({ key }) => key) : [],
    registration,
    refusal,
    refinement,
    matched: fitted.map(({ key }) => key),
    pose: refinement?.pose ?? from,
  };
}

function registered(pairs: readonly PointPair[]): Pick<Placing, "registration" | "refusal"> {
  if (pairs.length < 3) return { registration: null, refusal: null };
  try {
    return { registration: registerPairs(pairs), refusal: null };
  } catch (error) {
    if (error instanceof InputError) return { registration: null, refusal: error };
    throw error;
  }
}

function surfaceOf({ patch, target }: MatchDraft): SurfaceMatch | null {
  if (!patch || !target) return null;
  const { fitted, points } = patch;
  if (fitted.kind === "plane") return { kind: "plane", points, at: target.at, normal: target.way };
  const ends = axisPoints(fitted.at, fitted.axis, Math.max(fitted.length_mm, fitted.radius_mm));
  return { kind: "axis", points: ends, at: target.at, axis: target.way };
}
