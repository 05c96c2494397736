import type { Extent } from "../clearance/bound.ts";
import type { JointExcuse, Motion, PairSweep, SweepVariant } from "../clearance/types.ts";
import type { PreparedCheck } from "./check.ts";
import { extentOfSolid } from "./extents.ts";
import { HiddenSurface } from "./hiddenSurface.ts";
import type { ModelBody } from "./model.ts";
import type { PlannedPair } from "./plan.ts";
import { alike, recall, sameNumbers } from "./shelf.ts";
import { redrawn, type Steps, shiftBetween, stepsOf, stray, uniteBoxes } from "./shift.ts";

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

/** Finds the number of the pair of the same two bodies on the same side, −1 if there is none. */
function matcher(pairs: readonly PlannedPair[]): (pair: PlannedPair, index: number) => number {
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

/** One body before and after the edit. */
interface BodyEdit {
  /** The farthest a vertex moved in the drawing; Infinity for other triangles. */
  readonly redrawn_mm: number;
  /** About the body as drawn before and after. */
  readonly box: Extent;
  readonly longestSide_mm: number;
}

/** How the edit moves a body, in a pose or all the way to it. */
interface Shift {
  /** The farthest that one of its points is moved at any travel, but for what lies between knots. */
  readonly by_mm: number;
  readonly before: Steps;
  readonly after: Steps;
}

/** What the edit does to each body, looked at once. */
class Shifts {
  readonly #edits = new Map<ModelBody, BodyEdit>();
  readonly #shifts = new Map<Motion, Map<Motion, Map<ModelBody, Shift>>>();

  /** What the pair's clearance may have lost, mm; Infinity where nothing is known. `least_mm`: what it was at least. */
  lossOf(last: PlannedPair, pair: PlannedPair, least_mm: number): number {
    const a = this.#editOf(last.first, pair.first);
    const b = this.#editOf(last.second, pair.second);
    let loss = a.redrawn_mm + b.redrawn_mm;
    for (const variant of pair.sweep.variants) {
      if (loss === Number.POSITIVE_INFINITY) return loss;
      loss = Math.max(loss, this.#lossIn(variant, last, pair, a, b, least_mm));
    }
    return loss;
  }

  #lossIn(
    variant: SweepVariant,
    last: PlannedPair,
    pair: PlannedPair,
    a: BodyEdit,
    b: BodyEdit,
    least_mm: number,
  ): number {
    const was = last.sweep.variants.find(({ pose }) => pose === variant.pose);
    if (!was || was.from_mm > variant.from_mm || was.to_mm < variant.to_mm) return Number.POSITIVE_INFINITY;
    const inPose = [this.#shiftOf(pair.first, a, was.a, variant.a), this.#shiftOf(pair.second, b, was.b, variant.b)];
    let [ofA, ofB] = inPose as [Shift, Shift];
    if (variant.rock) {
      const rest = variantAtRest(pair);
      const restWas = variantAtRest(last);
      if (!was.rock || !rest || !restWas) return Number.POSITIVE_INFINITY;
      const sameWay = was.rock.content === variant.rock.content;
      const atRestA = this.#shiftOf(pair.first, a, restWas.a, rest.a);
      const atRestB = this.#shiftOf(pair.second, b, restWas.b, rest.b);
      ofA = onWay(atRestA, ofA, was.rock.a.bend_mm, variant.rock.a.bend_mm, sameWay, a);
      ofB = onWay(atRestB, ofB, was.rock.b.bend_mm, variant.rock.b.bend_mm, sameWay, b);
    }
    const moved_mm = ofA.by_mm + ofB.by_mm + a.redrawn_mm + b.redrawn_mm;
    if (moved_mm === 0) return 0;
    return moved_mm + stray(ofA.before, ofB.before, least_mm) + stray(ofA.after, ofB.after, least_mm);
  }

  #editOf(last: ModelBody, body: ModelBody): BodyEdit {
    return recall(this.#edits, body, () => {
      const box = uniteBoxes(extentOfSolid(last.solid), extentOfSolid(body.solid));
      return {
        redrawn_mm: last.content === body.content ? 0 : (redrawn(last.solid, body.solid) ?? Number.POSITIVE_INFINITY),
        box,
        longestSide_mm: Math.max(box[3]! - box[0]!, box[4]! - box[1]!, box[5]! - box[2]!),
      };
    });
  }

  #shiftOf(body: ModelBody, { box }: BodyEdit, last: Motion, motion: Motion): Shift {
    const ofMotions = recall(
      recall(this.#shifts, last, newMap<Motion, Map<ModelBody, Shift>>),
      motion,
      newMap<ModelBody, Shift>,
    );
    return recall(ofMotions, body, () => {
      const before = stepsOf(last, box);
      if (alike(last, motion)) return { by_mm: 0, before, after: before };
      return { by_mm: shiftBetween(last, motion, box), before, after: stepsOf(motion, box) };
    });
  }
}

function newMap<K, V>(): Map<K, V> {
  return new Map();
}

/** Where the ways of a pair begin. */
function variantAtRest({ sweep }: PlannedPair): SweepVariant | undefined {
  return sweep.variants.find(({ rock }) => !rock);
}

function onWay(
  rest: Shift,
  pose: Shift,
  bendBefore_mm: number,
  bendAfter_mm: number,
  sameWay: boolean,
  body: BodyEdit,
): Shift {
  const ends_mm = Math.max(rest.by_mm, pose.by_mm);
  const between_mm = sameWay && ends_mm === 0 ? 0 : (bendBefore_mm + bendAfter_mm) / 8;
  return {
    by_mm: ends_mm + between_mm,
    before: stepsOnWay(rest.before, pose.before, bendBefore_mm, body),
    after: stepsOnWay(rest.after, pose.after, bendAfter_mm, body),
  };
}

function stepsOnWay(rest: Steps, pose: Steps, bend_mm: number, { longestSide_mm }: BodyEdit): Steps {
  if (bend_mm === 0 || pose.isStill) return pose;
  return {
    isStill: false,
    step_mm: Math.max(rest.step_mm, pose.step_mm) + bend_mm / 4,
    turn: Math.max(rest.turn, pose.turn) + bend_mm / longestSide_mm,
  };
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
