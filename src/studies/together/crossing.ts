import type { PreparedCheck } from "../../check/check.ts";
import type { ModelBody } from "../../check/model.ts";
import { acceptedWhy, requiredClearance } from "../../check/pairRules.ts";
import type { Verdict } from "../../check/result.ts";
import { CheckShelf } from "../../check/shelf.ts";
import { credibleRange, isMovedByPose, ridingTracks, type Tracks, tracksOf } from "../../check/tracks.ts";
import { toldClearance, toldVerdict } from "../../check/within.ts";
import { poseOfMotion } from "../../clearance/motion.ts";
import { SweepStopped, sweepPair } from "../../clearance/sweep.ts";
import { TreeShelf } from "../../clearance/sweepShelf.ts";
import type { Motion, SweepVariant } from "../../clearance/types.ts";
import { POSE_SIZE } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import { StudyStopped } from "../stopped.ts";
import { boxCorners, boxesApart, sweptBox, travelReach } from "./reach.ts";

/** A part of the left corner and one of the right, each wheel at any height. */
export interface CrossingPair {
  /** On the left; on the right. */
  readonly left: string;
  readonly right: string;
  readonly required_mm: number;
  readonly clearance_mm: number;
  readonly verdict: Verdict;
  readonly at: { readonly left_mm: number; readonly right_mm: number; readonly pose: string };
  readonly pointLeft: Vec3;
  readonly pointRight: Vec3;
  readonly why?: string;
}

/** Between knots a body strays less than this from where its box says it is, mm. */
const STRAY_mm = 1;

/**
 * Every part of the left corner against every one of the right, one wheel at any height while the other is at any other: the check holds the
 * corners of one wheel height only. Those that come as near as they may, over all pairs of heights, are told; that a pair stays
 * farther off is proved by the boxes about all their places, and what comes nearer is swept as the check sweeps (sweepPair), the right
 * wheel's way up and down from ride height taken as a rock. Parts that the powertrain moves are taken in each of its poses, not on the way to them.
 */
export function crossingPairs(
  { scene, bodies, runs, poses }: PreparedCheck,
  isCancelled: () => boolean = () => false,
): CrossingPair[] {
  const [leftRun, rightRun] = (["left", "right"] as const).map((side) => runs.find((run) => run.side === side));
  if (!leftRun || !rightRun) return [];
  const shelf = new CheckShelf();
  const riding = ridingTracks(runs, shelf);
  const requiredOf = requiredClearance(scene.clearances);
  const trees = new TreeShelf();
  const parts = (side: "left" | "right", tracks: Tracks) =>
    bodies.flatMap((body) => {
      const motion = tracks.get(body.mount);
      if (body.side !== side || !motion || body.mount === "chassis" || body.mount === "powertrain") return [];
      const corners = boxCorners(body.solid.positions);
      return [{ body, motion, corners, box: sweptBox(motion, corners) }];
    });
  const worst = new Map<string, CrossingPair>();
  for (const pose of poses) {
    const { from_mm, to_mm } = leftRun.run;
    const range = credibleRange(pose, from_mm, to_mm);
    if (!range) continue;
    const lefts = parts("left", tracksOf(leftRun, riding.get("left")!, pose.id, shelf));
    const rights = parts("right", tracksOf(rightRun, riding.get("right")!, pose.id, shelf));
    for (const left of lefts) {
      for (const right of rights) {
        const moved = isMovedByPose(left.body.mount) || isMovedByPose(right.body.mount);
        if (isOnePart(left.body, right.body) || (pose.id !== poses[0]!.id && !moved)) continue;
        const required_mm = requiredOf(left.body, right.body);
        const within_mm = [left, right].reduce((sum, { body }) => sum + (body.within_mm ?? 0) + (body.give_mm ?? 0), 0);
        if (boxesApart(left.box, right.box) >= required_mm + within_mm + STRAY_mm) continue;
        if (isCancelled()) throw new StudyStopped();
        const told = sweepCrossing(trees, left, right, { range, required_mm: required_mm + within_mm, isCancelled });
        if (!Number.isFinite(told.clearance_mm)) continue;
        const why = acceptedWhy(scene.clearances, left.body, right.body);
        const clearance_mm = toldClearance(told.clearance_mm, within_mm);
        const verdict = why === null ? toldVerdict(told.clearance_mm, within_mm, required_mm) : "accepted";
        const pair: CrossingPair = {
          left: left.body.id,
          right: right.body.id,
          required_mm,
          clearance_mm,
          verdict,
          at: { left_mm: told.left_mm, right_mm: told.right_mm, pose: pose.id },
          pointLeft: told.pointA,
          pointRight: told.pointB,
          ...(why === null ? {} : { why }),
        };
        const name = `${pair.left}/${pair.right}`;
        if (clearance_mm < (worst.get(name)?.clearance_mm ?? Infinity)) worst.set(name, pair);
      }
    }
  }
  return [...worst.values()].sort((a, b) => a.clearance_mm - b.clearance_mm);
}

/** Both halves of the bar are one bar. */
function isOnePart(left: ModelBody, right: ModelBody): boolean {
  return left.mount === "bar" && right.mount === "bar";
}

interface Moving {
  readonly body: ModelBody;
  readonly motion: Motion;
  readonly corners: readonly Vec3[];
}

interface CrossingOptions {
  readonly range: readonly [number, number];
  readonly required_mm: number;
  readonly isCancelled: () => boolean;
}

function sweepCrossing(
  trees: TreeShelf,
  left: Moving,
  right: Moving,
  { range: [from_mm, to_mm], required_mm, isCancelled }: CrossingOptions,
) {
  const reach = travelReach(right.motion, right.corners);
  const stays = { speed_mm: 0, bend_mm: 0 };
  const ride: SweepVariant = { pose: "0", a: left.motion, b: stillAt(right.motion, 0), from_mm, to_mm };
  const ways = [from_mm, to_mm]
    .filter((end_mm) => end_mm !== 0)
    .map((end_mm): SweepVariant => {
      const motionsAt = (share: number) => ({ a: left.motion, b: stillAt(right.motion, share * end_mm) });
      const b = { speed_mm: reach.speed_mm * Math.abs(end_mm), bend_mm: reach.bend_mm * end_mm ** 2 };
      return { pose: String(end_mm), ...motionsAt(1), from_mm, to_mm, rock: { content: "", a: stays, b, motionsAt } };
    });
  const [a, b] = [left.body.key, right.body.key];
  try {
    const pair = { a, b, required_mm, excuses: [], variants: [ride, ...ways] };
    const { clearance_mm, at, pointA, pointB } = sweepPair(trees, left.body, right.body, pair, { isCancelled });
    return {
      clearance_mm,
      left_mm: at.travel_mm,
      right_mm: Number(at.pose) * (at.share ?? 1),
      pointA,
      pointB,
    };
  } catch (error) {
    throw error instanceof SweepStopped ? new StudyStopped() : error;
  }
}

function stillAt(motion: Motion, travel_mm: number): Motion {
  return { travel_mm: Float64Array.of(0), poses: poseOfMotion(motion, travel_mm, new Float64Array(POSE_SIZE)) };
}
