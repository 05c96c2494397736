import { applyPose, POSE_SIZE, type Pose, turnByPose } from "../maths/pose.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { MotionBound } from "./bound.ts";
import type { Ball } from "./excuse.ts";
import { uniteIntervals } from "./intervals.ts";
import { poseOfMotion, RelativeMotion } from "./motion.ts";
import { createPairGauge, type PairGauge } from "./pairState.ts";
import { createExcusedGauge } from "./pairStateExcused.ts";
import { type ClippedBody, TreeShelf } from "./sweepShelf.ts";
import { SweepTrack } from "./sweepTrack.ts";
import type { JointExcuse, Motion, PairSweep, SweepBody, SweepPair, SweepVariant } from "./types.ts";

/** A pair farther apart than the required clearance by more than this is measured less finely, mm. */
const NEAR_mm = 5;
const FINE_mm = 0.01;
const COARSE_mm = 0.1;
/** Beyond the required clearance by more than this, nobody looks at the plot, mm. */
const PLOTTED_mm = 25;
/** What a depth may fall short of the deepest of the travel: so many mm, or so much of it if that is more. */
const DEPTH = { least_mm: 0.05, share: 0.02 };
const SAMPLED_DEPTH = { least_mm: 0.5, share: 0.05 };
/** Clash stretches of different variants that end this close to each other are one, mm of travel. */
const JOIN_mm = 0.1;

export interface SweepOptions {
  /** Called before every state that is measured (some tens of µs each): true makes the sweep throw a SweepStopped. */
  readonly isCancelled?: () => boolean;
}

export interface SweepAllOptions extends SweepOptions {
  readonly onProgress?: (pairsDone: number, pairsTotal: number) => void;
  /** Kept by the caller, it saves building the trees of unchanged bodies again. */
  readonly shelf?: TreeShelf;
}

/** The caller asked to stop. */
export class SweepStopped extends Error {
  override readonly name = "AbortError";
}

/**
 * Sweeps pairs one after another; each result comes as soon as it is there, so that whoever drives this can let others in
 * between two pairs. Throws SweepStopped if cancelled.
 */
export function* sweepPairs(
  bodies: readonly SweepBody[],
  pairs: readonly SweepPair[],
  options: SweepAllOptions = {},
): Generator<PairSweep, void, undefined> {
  const shelf = options.shelf ?? new TreeShelf();
  const byKey = new Map(bodies.map((body) => [body.key, body]));
  const bodyOf = (key: string): SweepBody => {
    const body = byKey.get(key);
    if (body === undefined) throw new Error(`no body has the key ${key}`);
    return body;
  };
  let done = 0;
  for (const pair of pairs) {
    const result = sweepPair(shelf, bodyOf(pair.a), bodyOf(pair.b), pair, options);
    done++;
    options.onProgress?.(done, pairs.length);
    yield result;
  }
}

/** All of sweepPairs at once, in the order of the pairs. */
export function sweepAll(
  bodies: readonly SweepBody[],
  pairs: readonly SweepPair[],
  options: SweepAllOptions = {},
): PairSweep[] {
  return [...sweepPairs(bodies, pairs, options)];
}

/**
 * The signed clearance of one pair over the travel of all its variants. What is promised, for the motion as RelativeMotion
 * defines it and beside the tessellation:
 *
 * - `clearance_mm` is within 0.01 mm of the smallest over all travels where that is between 0 and `required_mm` + 5 mm,
 *   within 0.1 mm where they stay farther apart. While they overlap it is within 0.05 mm, or 2 % if that is more, of the
 *   deepest state, and the deepest in its own neighbourhood to 0.05 mm; where depth is sampled, 0.5 mm or 5 %. It is always
 *   a clearance that was measured at `at`, never below the true smallest one. Each `byVariant` holds to 0.1 mm, or to those
 *   shares of a depth, where the pair comes within `required_mm` + 25 mm; farther off it is the smallest that was measured.
 * - No overlap deeper than 0.1 mm goes unseen, however short; ends of `clashTravel_mm` lie on the clear side, at most
 *   0.05 mm of travel from the state where the overlap begins.
 *
 * Where joints excuse all of a body's surface, or a solid is empty, there is nothing to measure: the clearance is +Infinity.
 * Throws SweepStopped if cancelled.
 */
export function sweepPair(
  shelf: TreeShelf,
  bodyA: SweepBody,
  bodyB: SweepBody,
  pair: SweepPair,
  options: SweepOptions = {},
): PairSweep {
  if (pair.variants.length === 0) throw new Error(`the pair ${pair.a}, ${pair.b} has no variant to sweep`);
  const a = shelf.clip(bodyA, ballsOf(pair.excuses, "centreInA"));
  const b = shelf.clip(bodyB, ballsOf(pair.excuses, "centreInB"));
  const gauge = gaugeOf(a, b);
  const onMeasure = (): void => {
    if (options.isCancelled?.()) throw new SweepStopped("the sweep was stopped");
  };
  const tracks: SweepTrack[] = [];
  pair.variants.forEach((variant, i) => {
    const alike = pair.variants.findIndex((earlier) => movesAlike(earlier, variant));
    if (alike < i) tracks.push(tracks[alike]!);
    else {
      const motion = new RelativeMotion(variant.a, variant.b, variant.from_mm, variant.to_mm);
      const bound = new MotionBound(motion, a.whole.extent, b.whole.extent);
      tracks.push(new SweepTrack(motion, bound, gauge, onMeasure));
    }
  });
  const own = [...new Set(tracks)].sort((p, q) => p.worst.clearance_mm - q.worst.clearance_mm);
  const worstOfAll = (): number => own.reduce((least, track) => Math.min(least, track.worst.clearance_mm), Infinity);
  const toleranceOf = (worst_mm: number): number => tolerance(worst_mm, pair.required_mm, gauge.samplesDepth);
  for (const track of own) {
    track.refineWorst((worst_mm) => {
      const least = worstOfAll();
      const ofAll = least - toleranceOf(least);
      // a variant that is far from everything need not be told as finely as the worst one
      if (least > pair.required_mm + PLOTTED_mm) return ofAll;
      return Math.max(worst_mm - Math.max(COARSE_mm, toleranceOf(worst_mm)), ofAll);
    });
    track.refinePlot(pair.required_mm + PLOTTED_mm);
  }
  const deepest = own.find((track) => track.worst.clearance_mm === worstOfAll());
  if (worstOfAll() < 0) deepest?.polishWorst(gauge.samplesDepth ? SAMPLED_DEPTH.least_mm : DEPTH.least_mm);
  // last, so that every state that was measured counts
  for (const track of own) track.refineClashes();
  const worst = worstOfAll();
  const index = tracks.findIndex((track) => track.worst.clearance_mm === worst);
  return report(pair, tracks, index, gauge);
}

/** Where the surface of one of the two bodies does not count, in its design position. */
export function ballsOf(excuses: readonly JointExcuse[], centre: "centreInA" | "centreInB"): Ball[] {
  return excuses.map((excuse) => ({ centre: excuse[centre], radius_mm: excuse.radius_mm }));
}

/** The gauge of two bodies as far as their surfaces count. */
export function gaugeOf(a: ClippedBody, b: ClippedBody): PairGauge {
  return a.farthest === null && b.farthest === null ? createPairGauge(a.counted, b.counted) : createExcusedGauge(a, b);
}

function tolerance(worst_mm: number, required_mm: number, samplesDepth: boolean): number {
  if (worst_mm < 0) {
    const { least_mm, share } = samplesDepth ? SAMPLED_DEPTH : DEPTH;
    return Math.max(least_mm, -worst_mm * share);
  }
  return worst_mm <= required_mm + NEAR_mm ? FINE_mm : COARSE_mm;
}

function report(pair: SweepPair, tracks: readonly SweepTrack[], index: number, gauge: PairGauge): PairSweep {
  const track = tracks[index]!;
  const variant = pair.variants[index]!;
  const { travel_mm, clearance_mm } = track.worst;
  track.revisit(track.worst);
  const { state } = gauge;
  const poseOfA = poseOfMotion(variant.a, travel_mm, new Float64Array(POSE_SIZE));
  return {
    clearance_mm,
    measure: state.measure,
    at: { travel_mm, pose: variant.pose },
    pointA: placed(poseOfA, state.pointA),
    pointB: placed(poseOfA, state.pointB),
    partingOfA: turnByPose(poseOfA, vectorOf(state.partingOfA)),
    clashTravel_mm: uniteIntervals(
      tracks.flatMap((each) => each.clashes()),
      JOIN_mm,
    ),
    byVariant: tracks.map((each, i) => ({
      pose: pair.variants[i]!.pose,
      clearance_mm: each.worst.clearance_mm,
      travel_mm: each.worst.travel_mm,
      profile: each.profile(),
    })),
  };
}

function placed(pose: Pose, point: Float64Array): Vec3 {
  return applyPose(pose, vectorOf(point));
}

function vectorOf(values: Float64Array): Vec3 {
  return [values[0]!, values[1]!, values[2]!];
}

function movesAlike(p: SweepVariant, q: SweepVariant): boolean {
  return p.from_mm === q.from_mm && p.to_mm === q.to_mm && sameMotion(p.a, q.a) && sameMotion(p.b, q.b);
}

function sameMotion(p: Motion, q: Motion): boolean {
  return p === q || (sameNumbers(p.travel_mm, q.travel_mm) && sameNumbers(p.poses, q.poses));
}

function sameNumbers(p: Float64Array, q: Float64Array): boolean {
  if (p === q) return true;
  if (p.length !== q.length) return false;
  for (let i = 0; i < p.length; i++) if (p[i] !== q[i]) return false;
  return true;
}
