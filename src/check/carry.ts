import type { Extent } from "../clearance/bound.ts";
import type { JointExcuse, Motion, PairSweep, SweepVariant } from "../clearance/types.ts";
import type { KnownSweep, PreparedCheck } from "./check.ts";
import { extentOfSolid } from "./extents.ts";
import { HiddenSurface } from "./hiddenSurface.ts";
import type { ModelBody } from "./model.ts";
import type { PlannedPair } from "./plan.ts";
import { sameNumbers } from "./shelf.ts";
import { redrawn, STANDS, type Steps, shiftBetween, stepsOf, stray, uniteBoxes } from "./shift.ts";

/** No clearance is known. */
export const UNKNOWN = Number.NEGATIVE_INFINITY;

/** What a finished sweep may be above the true smallest clearance, mm (clearance/sweep.ts): nearer and farther than NEAR. */
const NEAR_MM = 5;
const NEAR_SHORT_MM = 0.01;
const FAR_SHORT_MM = 0.1;

/** The least that the pair's clearance truly is in any state, by its sweep; UNKNOWN where the bodies may touch. */
export function leastOfSweep({ sweep: { required_mm } }: PlannedPair, { clearance_mm }: PairSweep): number {
  const least = clearance_mm - (clearance_mm > required_mm + NEAR_MM ? FAR_SHORT_MM : NEAR_SHORT_MM);
  return least > 0 ? least : UNKNOWN;
}

/**
 * Clearances carried over an edit by proof: of each pair of `after` what it has at least in every state of every pose and
 * all the way to it, UNKNOWN where nothing is proved; exactly what it had before where nothing that the pair depends on
 * changed. `least_mm`: the same for the pairs of `before` (leastOfSweep, or carried from an edit before that).
 *
 * The proof. Let c be the least that a pair had, and let each point of either body have its place in the car at each travel,
 * before the edit and after. If no point of the one moves by more than p and none of the other by more than q, no gap between
 * two points changes by more than p + q, so that the clearance is still at least c − p − q. While that is above zero the
 * surfaces cannot have met on the (straight) way from the old places to the new ones, so neither body got inside the
 * other. The places are moved by
 *
 * - *other motions*: at a knot the farthest-moved point of a body's box is a corner (shift.ts);
 * - *other drawing*: while the triangles are the same ones, no point moves farther than the farthest-moved vertex. Other
 *   triangles, other knots or ranges of travel, or a body that was not there: the pair is not carried;
 * - *what lies between two knots*. There the one body, as the other sees it, runs a screw (RelativeMotion). Let from knot
 *   to knot the bodies turn by θ and their points move by σ, both summed over the two bodies. A curve of acceleration f
 *   strays from its chord by f/8; on the screw, seen from the car, the two points of a gap g are accelerated by at most
 *   5.05·θσ + 4.03·θ²g together (each body's own screw has θσ, the other body on top of it twice the product of both turn
 *   and speed, and the field of the one screw at the other's place grows with θg). So each gap is that of the two chords
 *   but for 0.64·θσ + 0.51·θ²g; where a range ends between two knots the bodies' own screws add 0.13·θσ. `stray` rounds up
 *   to θ(σ + θg), once for the old motion and once for the new; chords move by no more than their ends. Only
 *   gaps below c matter, which at the knots beside them are below c + 3σ.
 * - *the way from rest to a pose*. At one travel a point's place is a curve over the share of the way, whose acceleration
 *   is bounded (Rock). So is that of how far it is moved by the edit, by the sum of the old and the new bound, hence it is
 *   moved by no more than the larger of what it is at rest and in the pose, and an eighth of that sum. Steps from knot to knot
 *   grow on the way by a quarter of a bound at most; turns, of what is held at its outer joint all the way (the
 *   driveshaft; nothing else both rocks and runs through the travel), by the bound over the longest side of its box,
 *   since its farthest point is at least half of that away from the joint.
 *
 * Where joints excuse surface (hiddenSurface.ts), what is carried is a clearance of the whole bodies: no less than that of the
 * surface that counts and the gap of what a joint's ball may hide, after the edit no less than that of any surface that counts then.
 *
 * Takes the time of one look at each body and each pair.
 */
export function carryOver(before: PreparedCheck, least_mm: ArrayLike<number>, after: PreparedCheck): Float64Array {
  const indexBefore = matcher(before.pairs);
  const shifts = new Shifts();
  const joints = new HiddenSurface();
  return Float64Array.from(after.pairs, (pair, index) => {
    const lastIndex = indexBefore(pair, index);
    const last = before.pairs[lastIndex];
    const least = least_mm[lastIndex];
    if (last === undefined || least === undefined || !(least > 0)) return UNKNOWN;
    const loss = shifts.lossOf(last, pair, least);
    if (loss === 0 && sameExcuses(last.sweep.excuses, pair.sweep.excuses)) return least;
    if (least === Number.POSITIVE_INFINITY) return UNKNOWN;
    const carried = Math.min(least, joints.gapOf(last)) - loss;
    return carried > 0 ? carried : UNKNOWN;
  });
}

/**
 * Stands for the sweep of a pair that keeps `least_mm` after an edit, made of its sweep from before: the clearance is that
 * bound, and what only a sweep can tell of the pair as it is now is left out.
 */
export function standIn({ sweep: { variants } }: PlannedPair, last: PairSweep, least_mm: number): KnownSweep {
  const { pose, travel_mm } = last.at;
  const there = variants.find((variant) => variant.pose === pose);
  const isStillThere = there !== undefined && travel_mm >= there.from_mm && travel_mm <= there.to_mm;
  const [first] = variants;
  const elsewhere = { pose: first?.pose ?? pose, travel_mm: first?.from_mm ?? travel_mm };
  return {
    ...last,
    clearance_mm: least_mm,
    isAtLeast: true,
    measure: "surface",
    clashTravel_mm: [],
    at: isStillThere ? last.at : elsewhere,
    byVariant: [],
  };
}

/** Finds the number of the pair of the same two bodies on the same side, −1 if there is none. */
export function matcher(pairs: readonly PlannedPair[]): (pair: PlannedPair, index: number) => number {
  const nameOf = ({ side, first, second }: PlannedPair) => `${side} ${first.key} ${second.key}`;
  let byName: Map<string, number> | null = null;
  return (pair, index) => {
    // most edits leave all pairs in their places
    const there = pairs[index];
    if (there && there.side === pair.side && there.sweep.a === pair.sweep.a && there.sweep.b === pair.sweep.b)
      return index;
    byName ??= new Map(pairs.map((each, i) => [nameOf(each), i]));
    return byName.get(nameOf(pair)) ?? -1;
  };
}

/** One pose of a pair before and after the edit, and where its way begins. */
interface Match {
  readonly before: SweepVariant;
  readonly after: SweepVariant;
  readonly restBefore: SweepVariant;
  readonly restAfter: SweepVariant;
}

/** What the edit does to each body, looked at once. */
class Shifts {
  readonly #matches = new Map<readonly SweepVariant[], { before: readonly SweepVariant[]; found: Match[] | null }>();
  readonly #bodies = new Map<ModelBody, Shift>();

  /** What the pair's clearance may have lost, mm; Infinity where nothing is known. `least_mm`: what it was at least. */
  lossOf(last: PlannedPair, pair: PlannedPair, least_mm: number): number {
    const matches = this.#matchesOf(last.sweep.variants, pair.sweep.variants);
    if (matches === null) return Number.POSITIVE_INFINITY;
    const a = this.#shiftOf(last.first, pair.first, "a", matches);
    const b = this.#shiftOf(last.second, pair.second, "b", matches);
    const moved_mm = a.by_mm + b.by_mm;
    if (moved_mm === 0) return 0;
    return moved_mm + stray(a.before, b.before, least_mm) + stray(a.after, b.after, least_mm);
  }

  /** null where a pose or its way was not looked at before, or not over all of the travel. Pairs that meet alike share the lists. */
  #matchesOf(before: readonly SweepVariant[], after: readonly SweepVariant[]): Match[] | null {
    let known = this.#matches.get(after);
    if (known?.before !== before) {
      known = { before, found: matchVariants(before, after) };
      this.#matches.set(after, known);
    }
    return known.found;
  }

  /** A body moves alike in every pair that it is in. */
  #shiftOf(last: ModelBody, body: ModelBody, as: "a" | "b", matches: readonly Match[]): Shift {
    let shift = this.#bodies.get(body);
    if (!shift) {
      shift = shiftOf(last, body, as, matches);
      this.#bodies.set(body, shift);
    }
    return shift;
  }
}

function matchVariants(before: readonly SweepVariant[], after: readonly SweepVariant[]): Match[] | null {
  const [restBefore, restAfter] = [before, after].map((variants) => variants.find(({ rock }) => !rock));
  if (!restBefore || !restAfter) return null;
  const found: Match[] = [];
  for (const variant of after) {
    const was = before.find(({ pose }) => pose === variant.pose);
    if (!was || was.from_mm > variant.from_mm || was.to_mm < variant.to_mm || (variant.rock && !was.rock)) return null;
    found.push({ before: was, after: variant, restBefore, restAfter });
  }
  return found;
}

/** How the edit moves a body, drawing and motion, in every pose and all the way to it. */
interface Shift {
  /** The farthest that one of its points is moved at any travel, but for what lies between knots. */
  readonly by_mm: number;
  readonly before: Steps;
  readonly after: Steps;
}

function shiftOf(last: ModelBody, body: ModelBody, as: "a" | "b", matches: readonly Match[]): Shift {
  const box = uniteBoxes(extentOfSolid(last.solid), extentOfSolid(body.solid));
  const longest_mm = Math.max(box[3]! - box[0]!, box[4]! - box[1]!, box[5]! - box[2]!);
  let shift: Shift = { by_mm: 0, before: STANDS, after: STANDS };
  for (const match of matches) {
    const inPose = inPlace(match.before[as], match.after[as], box);
    const [wayBefore, wayAfter] = [match.before.rock, match.after.rock];
    if (!wayBefore || !wayAfter) shift = larger(shift, inPose);
    else {
      const atRest = inPlace(match.restBefore[as], match.restAfter[as], box);
      const bends = [wayBefore[as].bend_mm, wayAfter[as].bend_mm] as const;
      shift = larger(shift, onWay(larger(atRest, inPose), bends, longest_mm, wayBefore.content === wayAfter.content));
    }
  }
  const redrawn_mm = last.content === body.content ? 0 : redrawn(last.solid, body.solid);
  return { ...shift, by_mm: shift.by_mm + redrawn_mm };
}

function inPlace(before: Motion, after: Motion, box: Extent): Shift {
  return { by_mm: shiftBetween(before, after, box), before: stepsOf(before, box), after: stepsOf(after, box) };
}

/** At any share of a way, of which `ends` has the larger of both ends. */
function onWay(
  ends: Shift,
  [bendBefore_mm, bendAfter_mm]: readonly [number, number],
  longest_mm: number,
  isSameWay: boolean,
): Shift {
  return {
    by_mm: ends.by_mm === 0 && isSameWay ? 0 : ends.by_mm + (bendBefore_mm + bendAfter_mm) / 8,
    before: stepsOnWay(ends.before, bendBefore_mm, longest_mm),
    after: stepsOnWay(ends.after, bendAfter_mm, longest_mm),
  };
}

/** What stands at both ends is the powertrain: it does not run through the travel on its way either. */
function stepsOnWay(ends: Steps, bend_mm: number, longest_mm: number): Steps {
  if (ends.step_mm === 0) return STANDS;
  return { step_mm: ends.step_mm + bend_mm / 4, turn: ends.turn + bend_mm / longest_mm };
}

function larger(p: Shift, q: Shift): Shift {
  return {
    by_mm: Math.max(p.by_mm, q.by_mm),
    before: largerSteps(p.before, q.before),
    after: largerSteps(p.after, q.after),
  };
}

function largerSteps(p: Steps, q: Steps): Steps {
  return { step_mm: Math.max(p.step_mm, q.step_mm), turn: Math.max(p.turn, q.turn) };
}

function sameExcuses(last: readonly JointExcuse[], excuses: readonly JointExcuse[]): boolean {
  if (last === excuses) return true;
  if (last.length !== excuses.length) return false;
  return excuses.every(({ centreInA, centreInB, radius_mm }, i) => {
    const was = last[i]!;
    return (
      radius_mm === was.radius_mm && sameNumbers(centreInA, was.centreInA) && sameNumbers(centreInB, was.centreInB)
    );
  });
}
