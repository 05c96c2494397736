import { applyPose, POSE_SIZE, type Pose, turnByPose } from "../maths/pose.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { MotionBound } from "./bound.ts";
import type { Ball } from "./excuse.ts";
import { type TravelInterval, uniteIntervals } from "./intervals.ts";
import type { Poll } from "./kernel.ts";
import { poseOfMotion, relativeMotion } from "./motion.ts";
import { createPairGauge, type PairGauge } from "./pairState.ts";
import { createExcusedGauge } from "./pairStateExcused.ts";
import { RockSweep, reserveOf, type ShareTrack, wayOf } from "./sweepRock.ts";
import { type ClippedBody, TreeShelf } from "./sweepShelf.ts";
import { SweepTolerance } from "./sweepTolerance.ts";
import { SweepTrack, type TrackGoal, type TrackHint } from "./sweepTrack.ts";
import type {
  JointExcuse,
  Motion,
  PairSweep,
  Rock,
  SweepBody,
  SweepPair,
  SweepVariant,
  SweptState,
  VariantSweep,
} from "./types.ts";

/** Clash stretches of different variants that end this close to each other are one, mm of travel. */
const JOIN_mm = 0.1;

export interface SweepOptions {
  /** Asked before every state and every few milliseconds within one: true makes the sweep throw a SweepStopped. */
  readonly isCancelled?: () => boolean;
}

export interface SweepAllOptions extends SweepOptions {
  readonly onProgress?: (pairsDone: number, pairsTotal: number) => void;
  /** Kept by the caller, it saves building the trees of unchanged bodies again. */
  readonly shelf?: TreeShelf;
}

/** Throws a SweepStopped once the caller wants no more. */
export function pollOf({ isCancelled }: SweepOptions): Poll {
  return () => {
    if (isCancelled?.()) throw new SweepStopped("the sweep was stopped");
  };
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
 * The signed clearance of one pair over the travel of all its variants and all the way from rest to each that rocks. What is
 * promised, for the motion as RelativeMotion defines it at each share and beside the tessellation:
 *
 * - `clearance_mm` is within 0.01 mm of the smallest of all states where that is between 0 and `required_mm` + 5 mm,
 *   within 0.1 mm where they stay farther apart. While they overlap it is within 0.05 mm, or 2 % if that is more, of the
 *   deepest state of the variants, within 0.1 mm or 5 % of the deepest on the ways between, and the deepest in its own
 *   neighbourhood of travel to 0.05 mm; where depth is sampled, 0.5 mm or 5 %. It is always a clearance that was measured
 *   at `at`, never below the true smallest one. Each `byVariant` holds to 0.1 mm, or to those shares of a depth, where the
 *   pair comes within `required_mm` + 25 mm; farther off it may be no more than a proven lower bound, `isAtLeast`.
 * - No overlap deeper than 0.1 mm goes unseen, however short, nor does one lie outside `clashTravel_mm`, whose ends lie on
 *   the clear side, at most 0.05 mm of travel from the state where the overlap begins.
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
  return sweepBelow(shelf, bodyA, bodyB, pair, Number.POSITIVE_INFINITY, options)!;
}

/**
 * The same for a pair that comes nearer than `cap_mm` at any state; null for one that is proved not to, which costs a tenth
 * of knowing how far it stays. Throws SweepStopped if cancelled.
 */
export function sweepBelow(
  shelf: TreeShelf,
  bodyA: SweepBody,
  bodyB: SweepBody,
  pair: SweepPair,
  cap_mm: number,
  options: SweepOptions = {},
): PairSweep | null {
  if (pair.variants.length === 0) throw new Error(`the pair ${pair.a}, ${pair.b} has no variant to sweep`);
  const poll = pollOf(options);
  const a = shelf.clip(bodyA, ballsOf(pair.excuses, "centreInA"), poll);
  const b = shelf.clip(bodyB, ballsOf(pair.excuses, "centreInB"), poll);
  const gauge = gaugeOf(a, b, poll);
  const tolerance = new SweepTolerance(pair.required_mm, gauge.samplesDepth);
  const all: SweepTrack[] = [];
  const worstOfAll = (): number => all.reduce((least, track) => Math.min(least, track.worst_mm), Infinity);
  const trackOf: TrackMaker = (motions, from_mm, to_mm, goal, hint) => {
    const motion = relativeMotion(motions.a, motions.b, from_mm, to_mm);
    const bound = new MotionBound(motion, a.whole.extent, b.whole.extent);
    const track = new SweepTrack(motion, bound, gauge, goal, poll, hint);
    all.push(track);
    return track;
  };
  /** Of a variant, from which ways may lead to others. */
  const goalOf = (ways: readonly Rock[]): TrackGoal => ({
    floor: (worst_mm) => Math.min(cap_mm, tolerance.floorInPose(worst_mm, Math.min(worst_mm, worstOfAll()))),
    told_mm: Math.min(cap_mm, tolerance.plotted_mm),
    reserve: (floor_mm) => ways.reduce((most, way) => Math.max(most, reserveOf(wayOf(way), 1, floor_mm)), 0),
  });
  const tracks = variantTracks(pair.variants, goalOf, trackOf);
  const rocks = pair.variants.map((_, i) => rockOf(pair.variants, tracks, i, trackOf));

  const clashesOfAll = (): TravelInterval[] =>
    uniteIntervals(
      all.flatMap((track) => track.clashes()),
      JOIN_mm,
    );
  const settle = (clashes: () => TravelInterval[] | null): void => {
    for (const rock of rocks) {
      if (rock === null) continue;
      const enough = () => Math.min(cap_mm, tolerance.floorOnWay(rock.worst_mm, worstOfAll()));
      rock.settle({ enough, clashes });
    }
  };

  for (const track of [...all].sort((p, q) => (p.worst_mm < q.worst_mm ? -1 : 1))) {
    track.refineWorst();
    track.refinePlot();
  }
  if (tracks.some((track) => track.lowest_mm < Infinity)) settle(() => null);
  if (worstOfAll() >= cap_mm && cap_mm < Infinity) return null;
  const nearest = all.find((track) => track.worst_mm === worstOfAll());
  if (nearest?.worst) nearest.measureExactly(nearest.worst);
  if (worstOfAll() < 0) {
    const deepest = all.find((track) => track.worst_mm === worstOfAll());
    deepest?.polishWorst(tolerance.polish_mm);
    // last, so that every state that was measured counts
    for (const track of all) track.refineClashes();
    settle(clashesOfAll);
  }
  const told = pair.variants.map((variant, i): ShareTrack => {
    const worst = rocks[i]?.told ?? { share: 1, track: tracks[i]! };
    const state = worst.track.worst;
    if (worst.share === 1 || !variant.rock || state === null) return worst;
    const motions = variant.rock.motionsAt(worst.share);
    const track = trackOf(motions, variant.from_mm, variant.to_mm, goalOf([]), state);
    track.measureAt(state.travel_mm);
    track.refinePlot();
    if (track.worst_mm < 0) track.refineClashes();
    return { share: worst.share, track };
  });
  return report(pair, told, clashesOfAll(), gauge);
}

type TrackMaker = (
  motions: { readonly a: Motion; readonly b: Motion },
  from_mm: number,
  to_mm: number,
  goal: TrackGoal,
  hint: TrackHint | null,
) => SweepTrack;

/** One track a variant, the same where two move alike. */
function variantTracks(
  variants: readonly SweepVariant[],
  goalOf: (ways: readonly Rock[]) => TrackGoal,
  trackOf: TrackMaker,
): SweepTrack[] {
  const tracks: SweepTrack[] = [];
  variants.forEach((variant, i) => {
    const alike = variants.findIndex((earlier) => movesAlike(earlier, variant));
    if (alike < i) {
      tracks.push(tracks[alike]!);
      return;
    }
    const ways = variant.rock ? [variant.rock] : variants.flatMap(({ rock }) => rock ?? []);
    tracks.push(trackOf(variant, variant.from_mm, variant.to_mm, goalOf(ways), tracks[0]?.worst ?? null));
  });
  return tracks;
}

function rockOf(
  variants: readonly SweepVariant[],
  tracks: readonly SweepTrack[],
  index: number,
  trackOf: TrackMaker,
): RockSweep | null {
  const { pose, rock, from_mm, to_mm } = variants[index]!;
  if (!rock) return null;
  const rest = variants.findIndex((each) => !each.rock && each.from_mm <= from_mm && each.to_mm >= to_mm);
  if (rest < 0) throw new Error(`the way to the pose ${pose} begins at no variant`);
  return new RockSweep(rock, tracks[rest]!, tracks[index]!, (share, from, to, goal, hint) =>
    trackOf(rock.motionsAt(share), from, to, goal, hint),
  );
}

/** Where the surface of one of the two bodies does not count, in its design position. */
export function ballsOf(excuses: readonly JointExcuse[], centre: "centreInA" | "centreInB"): Ball[] {
  return excuses.map((excuse) => ({ centre: excuse[centre], radius_mm: excuse.radius_mm }));
}

/** The gauge of two bodies as far as their surfaces count. */
export function gaugeOf(a: ClippedBody, b: ClippedBody, poll?: Poll): PairGauge {
  const isWhole = a.farthest === null && b.farthest === null;
  return isWhole ? createPairGauge(a.whole.tree, b.whole.tree, poll) : createExcusedGauge(a, b, poll);
}

function report(
  pair: SweepPair,
  told: readonly ShareTrack[],
  clashTravel_mm: readonly TravelInterval[],
  gauge: PairGauge,
): PairSweep {
  const byVariant = told.map(({ share, track }, i): VariantSweep => {
    const { pose } = pair.variants[i]!;
    const profile = track.profile();
    if (track.worst === null && track.lowest_mm < Infinity) {
      const { travel_mm } = track.first;
      return { ...stateAt(travel_mm, pose, share), clearance_mm: track.lowest_mm, isAtLeast: true, profile };
    }
    const { travel_mm, measured_mm: clearance_mm } = track.worst ?? track.first;
    return { ...stateAt(travel_mm, pose, share), clearance_mm, profile };
  });
  let worst = 0;
  told.forEach(({ track }, i) => {
    if (track.worst_mm < told[worst]!.track.worst_mm) worst = i;
  });
  const { share, track } = told[worst]!;
  const variant = pair.variants[worst]!;
  const state = track.worst ?? track.first;
  const { travel_mm, measured_mm: clearance_mm } = state;
  track.revisit(state);
  const { state: found } = gauge;
  const { a } = motionsOf(variant, share);
  const poseOfA = poseOfMotion(a, travel_mm, new Float64Array(POSE_SIZE));
  return {
    clearance_mm,
    measure: found.measure,
    at: stateAt(travel_mm, variant.pose, share),
    pointA: placed(poseOfA, found.pointA),
    pointB: placed(poseOfA, found.pointB),
    partingOfA: turnByPose(poseOfA, vectorOf(found.partingOfA)),
    clashTravel_mm,
    byVariant,
  };
}

function stateAt(travel_mm: number, pose: string, share: number): SweptState {
  return share === 1 ? { travel_mm, pose } : { travel_mm, pose, share };
}

/** How the two bodies move through the travel at a share of the way to the variant's pose. */
export function motionsOf(variant: SweepVariant, share = 1): { readonly a: Motion; readonly b: Motion } {
  return share === 1 || !variant.rock ? variant : variant.rock.motionsAt(share);
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
