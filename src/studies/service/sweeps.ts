import { MotionBound } from "../../clearance/bound.ts";
import { type TravelInterval, uniteIntervals } from "../../clearance/intervals.ts";
import { type RelativeMotion, relativeMotion } from "../../clearance/motion.ts";
import type { PairGauge } from "../../clearance/pairState.ts";
import { ballsOf, gaugeOf, pollOf, SweepStopped, sweepBelow } from "../../clearance/sweep.ts";
import { lowestBetween } from "../../clearance/sweepLowest.ts";
import { type ClippedBody, TreeShelf } from "../../clearance/sweepShelf.ts";
import { UNSEEN_mm } from "../../clearance/sweepTrack.ts";
import type { JointExcuse, Motion, PairSweep, SweepBody } from "../../clearance/types.ts";
import { dropOldest } from "../../maths/dropOldest.ts";
import { applyPose, identityPose, poseOfTrack } from "../../maths/pose.ts";
import { distance, type Vec3 } from "../../maths/vec3.ts";
import { StudyStopped } from "../stopped.ts";

/** A body with how it goes over the stretch that is asked. */
export interface Going {
  readonly body: SweepBody;
  readonly motion: Motion;
}

export interface Meeting {
  readonly a: Going;
  readonly b: Going;
  readonly excuses: readonly JointExcuse[];
}

/** Where a stretch ends is told to this, in mm of it. */
export const END_mm = 0.05;
/** Room within what is blocked that is no longer than this may stay unseen: it is of no use to anybody. */
const GAP_mm = 2;
/** Gauges kept by what they measure: each starts from where its last measure ended. */
const MOST_GAUGES = 512;

/** How one pair goes over a stretch, and what proves how little it can change between two places of it. */
interface Track {
  readonly motion: RelativeMotion;
  readonly bound: MotionBound;
  readonly gauge: PairGauge;
}

/** A place of the stretch: the clearance is at least `least_mm`. */
interface Place {
  readonly at: number;
  readonly least_mm: number;
}

/**
 * Asks how pairs of bodies go along stretches of mm. Nothing is sampled: between any two places that were measured the bounds of
 * the check's own sweep (clearance/bound.ts) prove that nothing hides. Everything throws StudyStopped once it is not wanted.
 */
export class Sweeps {
  readonly #trees = new TreeShelf();
  readonly #gauges = new Map<string, { readonly of: readonly [ClippedBody, ClippedBody]; readonly gauge: PairGauge }>();
  readonly #isCancelled: () => boolean;
  readonly #spheres = new Map<string, { readonly centre: Vec3; readonly radius_mm: number }>();

  constructor(isCancelled: () => boolean) {
    this.#isCancelled = isCancelled;
  }

  /** Throws StudyStopped once the caller wants no more. */
  poll(): void {
    if (this.#isCancelled()) throw new StudyStopped();
  }

  /** The sweep of two bodies from one place of the stretch to another; null: they stay `cap_mm` apart. */
  below({ a, b, excuses }: Meeting, from: number, to: number, cap_mm: number): PairSweep | null {
    if (this.#isFar(a, b, cap_mm)) return null;
    const variants = [{ pose: "rest", a: a.motion, b: b.motion, from_mm: from, to_mm: to }];
    const pair = { a: a.body.key, b: b.body.key, required_mm: 0, excuses, variants };
    const options = { isCancelled: this.#isCancelled };
    try {
      pollOf(options)();
      const sweep = sweepBelow(this.#trees, a.body, b.body, pair, cap_mm, options);
      return sweep !== null && Number.isFinite(sweep.clearance_mm) ? sweep : null;
    } catch (error) {
      throw error instanceof SweepStopped ? new StudyStopped() : error;
    }
  }

  /**
   * The last place of [from, to] before the clearance falls below `limit_mm`, which it has at `from`; null: it never does, but for less
   * than 0.1 mm. A limit below 0 asks for depths, which takes longer. The place is at most 0.05 mm before the first that is below.
   */
  firstBelow(meeting: Meeting, from: number, to: number, limit_mm: number): number | null {
    if (this.#isFar(meeting.a, meeting.b, Math.max(0, limit_mm))) return null;
    return this.#working(() => {
      const track = this.#track(meeting, from, to);
      const place = (at: number, last: number): Place => this.#place(track, at, limit_mm, track.bound.path(at, last));
      const go = (a: Place, b: Place): number | null => {
        if (a.least_mm < limit_mm) return a.at;
        const isEnd = b.at - a.at <= END_mm;
        if (b.least_mm < limit_mm && isEnd) return a.at;
        if (lowest(track, a, b) >= limit_mm - UNSEEN_mm && b.least_mm >= limit_mm) return null;
        const middle = place((a.at + b.at) / 2, b.at);
        return go(a, middle) ?? go(middle, b);
      };
      const first = place(from, to);
      if (first.least_mm - track.bound.path(from, to) >= limit_mm) return null;
      return go(first, this.#place(track, to, limit_mm, track.bound.path(from, to)));
    });
  }

  /**
   * Where within [from, to] the two are nearer than `within_mm` (0: overlap). Nothing lies outside, but for overlaps no deeper than
   * 0.1 mm; ends lie on the clear side, at most 0.05 mm off. Clear stretches of 2 mm and less may be counted as blocked.
   */
  blocked(meeting: Meeting, from: number, to: number, within_mm: number): TravelInterval[] {
    if (this.#isFar(meeting.a, meeting.b, within_mm)) return [];
    return this.#working(() => {
      const track = this.#track(meeting, from, to);
      const found: TravelInterval[] = [];
      const place = (at: number, reach_mm: number): Place => this.#place(track, at, within_mm, reach_mm);
      const go = (a: Place, b: Place): void => {
        const [hitA, hitB] = [a.least_mm < within_mm, b.least_mm < within_mm];
        if (!hitA && !hitB && lowest(track, a, b) >= within_mm - UNSEEN_mm) return;
        if ((hitA && hitB && b.at - a.at <= GAP_mm) || (hitA !== hitB && b.at - a.at <= END_mm)) {
          found.push([a.at, b.at]);
          return;
        }
        const middle = place((a.at + b.at) / 2, track.bound.path(a.at, b.at));
        go(a, middle);
        go(middle, b);
      };
      const reach_mm = track.bound.path(from, to);
      const first = place(from, reach_mm);
      if (first.least_mm - reach_mm >= within_mm) return [];
      if (from === to) return [[from, to]];
      go(first, place(to, reach_mm));
      return uniteIntervals(found, 0);
    });
  }

  /** Whether they are nearer than `within_mm` anywhere on the stretch. */
  meets(meeting: Meeting, from: number, to: number, within_mm: number): boolean {
    return this.firstBelow(meeting, from, to, within_mm) !== null;
  }

  #working<T>(work: () => T): T {
    this.poll();
    try {
      return work();
    } catch (error) {
      throw error instanceof SweepStopped ? new StudyStopped() : error;
    }
  }

  #track({ a, b, excuses }: Meeting, from: number, to: number): Track {
    const motion = relativeMotion(a.motion, b.motion, from, to);
    const poll = pollOf({ isCancelled: this.#isCancelled });
    const clipped = [
      this.#trees.clip(a.body, ballsOf(excuses, "centreInA"), poll),
      this.#trees.clip(b.body, ballsOf(excuses, "centreInB"), poll),
    ] as const;
    const balls = excuses.map(({ centreInA, radius_mm }) => `${centreInA.join(",")}:${radius_mm}`);
    const name = `${a.body.content} ${b.body.content} ${balls.join(" ")}`;
    let kept = this.#gauges.get(name);
    // a tree that the shelf has let go of has given its memory back
    if (!kept || kept.of[0] !== clipped[0] || kept.of[1] !== clipped[1]) {
      kept = { of: clipped, gauge: gaugeOf(...clipped, poll) };
    }
    this.#gauges.delete(name);
    this.#gauges.set(name, kept);
    dropOldest(this.#gauges, MOST_GAUGES);
    const bound = new MotionBound(motion, clipped[0].whole.extent, clipped[1].whole.extent);
    return { motion, bound, gauge: kept.gauge };
  }

  /** `reach_mm`: farther apart than that need not be known. */
  #place({ motion, gauge }: Track, at: number, limit_mm: number, reach_mm: number): Place {
    this.poll();
    const relative = motion.poseAt(at, identityPose());
    if (limit_mm >= 0) {
      // how deep they overlap is not asked
      if (gauge.overlaps(relative)) return { at, least_mm: -TINY_mm };
      gauge.measure(relative, true, limit_mm + reach_mm + TINY_mm);
    } else gauge.measure(relative, false);
    return { at, least_mm: gauge.state.least_mm };
  }

  /** Where one of the two stands still, by the spheres around both: from knot to knot a centre goes along a chord or a short arc. */
  #isFar(a: Going, b: Going, cap_mm: number): boolean {
    const [moving, other] = b.motion.travel_mm.length === 1 ? [a, b] : [b, a];
    if (other.motion.travel_mm.length !== 1) return false;
    const [p, q] = [this.#sphereOf(moving.body), this.#sphereOf(other.body)];
    if (p.radius_mm < 0 || q.radius_mm < 0) return true;
    const there = applyPose(other.motion.poses, q.centre);
    const reach_mm = p.radius_mm + q.radius_mm + cap_mm;
    let last: Vec3 | null = null;
    for (let i = 0; i < moving.motion.travel_mm.length; i++) {
      const here = applyPose(poseOfTrack(moving.motion.poses, i), p.centre);
      // every place of the stretch is within the chord of either end of its knot's interval, as an arc of up to 30° is
      const way: number = last ? distance(last, here) : 0;
      if (distance(here, there) - way <= reach_mm) return false;
      last = here;
    }
    return true;
  }

  #sphereOf({ content, solid: { positions } }: SweepBody) {
    let sphere = this.#spheres.get(content);
    if (!sphere) {
      const low = [Infinity, Infinity, Infinity];
      const high = [-Infinity, -Infinity, -Infinity];
      for (let i = 0; i < positions.length; i++) {
        const k = i % 3;
        low[k] = Math.min(low[k]!, positions[i]!);
        high[k] = Math.max(high[k]!, positions[i]!);
      }
      const centre: Vec3 = [(low[0]! + high[0]!) / 2, (low[1]! + high[1]!) / 2, (low[2]! + high[2]!) / 2];
      const radius_mm =
        positions.length === 0 ? -1 : Math.hypot(high[0]! - low[0]!, high[1]! - low[1]!, high[2]! - low[2]!) / 2;
      sphere = { centre, radius_mm };
      this.#spheres.set(content, sphere);
    }
    return sphere;
  }
}

const TINY_mm = 1e-9;

/** No clearance between the two places is below this. */
function lowest({ bound }: Track, a: Place, b: Place): number {
  return lowestBetween(a.least_mm, b.least_mm, bound.path(a.at, b.at), (least_mm) => bound.sag(a.at, b.at, least_mm));
}

/** The parts of [from, to] that no stretch covers, ascending. */
export function freeOf(blocked: readonly TravelInterval[], from: number, to: number): TravelInterval[] {
  const free: TravelInterval[] = [];
  let at = from;
  for (const [start, end] of uniteIntervals(blocked, 0)) {
    if (start > at) free.push([at, Math.min(start, to)]);
    at = Math.max(at, end);
  }
  if (at < to) free.push([at, to]);
  return free;
}
