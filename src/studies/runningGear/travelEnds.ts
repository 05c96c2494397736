import { coilBind, type LimitHolder, limitHolders, readingsOf } from "../../check/limits.ts";
import type { LimitName, StateAt } from "../../check/result.ts";
import { credibleRange, runSide } from "../../check/tracks.ts";
import { type Corner, solveCorner } from "../../kinematics/corner.ts";
import { readCorner } from "../../kinematics/readings.ts";
import { rocks } from "../../kinematics/rock.ts";
import { springAtRide } from "../../kinematics/spring.ts";
import { poseOfTrack } from "../../maths/pose.ts";
import type { Scene, Side } from "../../scene/scene.ts";

/** What comes to its end, or only begins to act: the stop is touched, the spring comes off its seat. */
export type EndName = LimitName | "stop-touched" | "spring-loose";

/** One thing met on the way out from ride height. */
export interface TravelEnd {
  readonly what: EndName;
  /** Of a joint's tilt and twist. */
  readonly joint?: string;
  /** The bound that is met; null where the corner itself locks. */
  readonly limit: number | null;
  /** Wheel height at which it is met, and the engine's pose there. */
  readonly at: StateAt;
  /** Nothing stops there; it only begins to act. */
  readonly isSoft: boolean;
}

export interface TravelEnds {
  readonly side: Side;
  /** Each way outward from ride height, what is met first first. */
  readonly up: readonly TravelEnd[];
  readonly down: readonly TravelEnd[];
  /** How far was looked. */
  readonly lookedFrom_mm: number;
  readonly lookedTo_mm: number;
}

/** So far beyond the scene's own travel is looked for what ends it. */
const BEYOND_mm = 100;
/** Parts of the way from rest to a pose at which the shaft is asked. */
const PARTS = 4;
const CLOSE_mm = 0.001;

/**
 * What ends one side's travel each way, and at which wheel height: every limit that the scene states, in every powertrain
 * pose where it is credible and on the way there, and the corner's own lock, out to 100 mm beyond the scene's travel.
 */
export function travelEnds(scene: Scene, side: Side): TravelEnds {
  const { bump_mm, droop_mm } = scene.travel;
  const { corner, run } = runSide(
    { ...scene, travel: { ...scene.travel, bump_mm: bump_mm + BEYOND_mm, droop_mm: droop_mm + BEYOND_mm } },
    side,
  );
  const read = readingsOf(corner);
  const list: readonly Bound[] = [...limitHolders(corner), ...springBounds(corner)];
  const engines = scene.powertrain.poses.flatMap((pose) => {
    const range = credibleRange(pose, run.from_mm, run.to_mm);
    const shares = rocks(pose) ? Array.from({ length: PARTS }, (_, i) => (i + 1) / PARTS) : [1];
    return range
      ? shares.map((share) => ({ range, engine: { pose: pose.id, ...(share === 1 ? {} : { share }) } }))
      : [];
  });

  /** `knots`: numbers of the run's knots, outward from ride height. */
  const wayOut = (knots: readonly number[]): TravelEnd[] => {
    const met = new Map<Bound, TravelEnd>();
    let last_mm = 0;
    for (const knot of knots) {
      const travel_mm = run.travel_mm[knot]!;
      const open = list.filter((bound) => !met.has(bound));
      for (const { range, engine } of engines) {
        if (travel_mm < range[0] || travel_mm > range[1]) continue;
        const reading = read(poseOfTrack(run.carrier, knot), engine);
        for (const bound of open) {
          const held = bound.hold(reading);
          if (!held || held.spare >= 0) continue;
          const spareAt = (at_mm: number) => bound.hold(read(solveCorner(corner, at_mm).pose, engine))?.spare ?? 0;
          // a pose may only be credible from a travel between the two knots on
          const from_mm = Math.min(Math.max(last_mm, range[0]), range[1]);
          const at_mm = lastGood(spareAt, from_mm, travel_mm);
          const known = met.get(bound);
          if (known && Math.abs(known.at.travel_mm) <= Math.abs(at_mm)) continue;
          const { what, joint, isSoft = false } = bound;
          const named = { what, ...(joint === undefined ? {} : { joint }) };
          met.set(bound, { ...named, limit: held.limit, at: { travel_mm: at_mm, ...engine }, isSoft });
        }
      }
      last_mm = travel_mm;
    }
    return [...met.values()];
  };

  const [atRide, count] = [run.travel_mm.indexOf(0), run.travel_mm.length];
  const up = Array.from({ length: count - atRide }, (_, i) => atRide + i);
  const down = Array.from({ length: atRide + 1 }, (_, i) => atRide - i);
  return {
    side,
    up: nearestFirst(wayOut(up), run.to_mm < bump_mm + BEYOND_mm ? run.to_mm : null),
    down: nearestFirst(wayOut(down), run.from_mm > -droop_mm - BEYOND_mm ? run.from_mm : null),
    lookedFrom_mm: run.from_mm,
    lookedTo_mm: run.to_mm,
  };
}

interface Bound extends Omit<LimitHolder, "what"> {
  readonly what: EndName;
  readonly isSoft?: boolean;
}

/**
 * Where the stop begins to press, where the spring is as long as it is free, and where its turns touch if its length at
 * ride follows from what the wheel carries: the check knows only a measured one.
 */
function springBounds(corner: Corner): Bound[] {
  const { damper } = corner.scene;
  if (!damper) return [];
  const { stopTouches_mm, springFree_mm, springSolid_mm, springAtRide_mm } = damper;
  const atRide_mm = springAtRide(corner)?.length_mm ?? null;
  const ride_mm = readCorner(corner, corner.ridePose, "rest").damper_mm!;
  const bounds: Bound[] = [];
  const add = (what: EndName, limit: number, spareOf: (damper_mm: number) => number) =>
    bounds.push({
      what,
      isSoft: true,
      hold: ({ damper_mm: value }) => (value === null ? null : { value, limit, spare: spareOf(value) }),
    });
  if (stopTouches_mm !== null) add("stop-touched", stopTouches_mm, (value) => value - stopTouches_mm);
  if (springFree_mm !== null && atRide_mm !== null) {
    const loose_mm = ride_mm + springFree_mm - atRide_mm;
    add("spring-loose", loose_mm, (value) => loose_mm - value);
  }
  if (springSolid_mm !== null && atRide_mm !== null && springAtRide_mm === null)
    bounds.push(coilBind(corner, atRide_mm, springSolid_mm));
  return bounds;
}

/** Bisects for the travel at which the spare runs out between one nearer to ride height and one where it has. */
function lastGood(spareAt: (travel_mm: number) => number, from_mm: number, past_mm: number): number {
  if (spareAt(from_mm) < 0) return from_mm;
  let [good_mm, bad_mm] = [from_mm, past_mm];
  while (Math.abs(bad_mm - good_mm) > CLOSE_mm) {
    const middle_mm = (good_mm + bad_mm) / 2;
    if (spareAt(middle_mm) < 0) bad_mm = middle_mm;
    else good_mm = middle_mm;
  }
  return bad_mm;
}

function nearestFirst(ends: readonly TravelEnd[], lock_mm: number | null): TravelEnd[] {
  const lock: TravelEnd[] =
    lock_mm === null ? [] : [{ what: "binds", limit: null, at: { travel_mm: lock_mm, pose: "rest" }, isSoft: false }];
  return [...ends, ...lock].sort((a, b) => Math.abs(a.at.travel_mm) - Math.abs(b.at.travel_mm));
}

/** The first that stops the wheel on its way; null: nothing does as far as was looked. */
export function firstEnd(ends: readonly TravelEnd[]): TravelEnd | null {
  return ends.find(({ isSoft }) => !isSoft) ?? null;
}
