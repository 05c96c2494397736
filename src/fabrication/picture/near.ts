import type { PreparedCheck } from "../../check/check.ts";
import { acceptedWhy } from "../../check/pairRules.ts";
import type { PlannedPair } from "../../check/plan.ts";
import type { Verdict } from "../../check/result.ts";
import { toldClearance, toldVerdict } from "../../check/within.ts";
import { contactPatch } from "../../clearance/patch.ts";
import { ballsOf, gaugeOf } from "../../clearance/sweep.ts";
import type { TreeShelf } from "../../clearance/sweepShelf.ts";
import type { ContactPatch } from "../../clearance/types.ts";
import type { Poll } from "../../maths/poll.ts";
import { applyPose, composePoses, invertPose, type Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";

/** The gap of a checked pair where its bodies stand; what the joints excuse does not count, as in the check. */
export interface StandingGap {
  readonly planned: PlannedPair;
  /** As the check tells it: less what the surfaces may be off. */
  readonly clearance_mm: number;
  readonly verdict: Verdict;
  /** Nearest points, or those between which the depth runs; car coordinates. */
  readonly from: Vec3;
  readonly to: Vec3;
}

/** Poses of bodies by their keys, car coordinates. */
export type BodyPoses = ReadonlyMap<string, Pose>;

/** The gap of one pair; null where one of its bodies does not stand, or, with `below_mm`, where it is farther apart than that. */
export function gapOf(
  { scene }: PreparedCheck,
  planned: PlannedPair,
  poses: BodyPoses,
  trees: TreeShelf,
  below_mm?: number,
  poll?: Poll,
): StandingGap | null {
  const { first, second, required_mm, within_mm, sweep } = planned;
  const [poseA, poseB] = [poses.get(first.key), poses.get(second.key)];
  if (!poseA || !poseB) return null;
  const a = trees.clip(first, ballsOf(sweep.excuses, "centreInA"), poll);
  const b = trees.clip(second, ballsOf(sweep.excuses, "centreInB"), poll);
  const gauge = gaugeOf(a, b, poll);
  gauge.measure(composePoses(invertPose(poseA), poseB), false, below_mm);
  const { clearance_mm, pointA, pointB } = gauge.state;
  if (!Number.isFinite(clearance_mm) || (below_mm !== undefined && clearance_mm >= below_mm)) return null;
  const isAccepted = acceptedWhy(scene.clearances, first, second) !== null;
  return {
    planned,
    clearance_mm: toldClearance(clearance_mm, within_mm),
    verdict: isAccepted ? "accepted" : toldVerdict(clearance_mm, within_mm, required_mm),
    // both are told in the first body's axes
    from: applyPose(poseA, [pointA[0]!, pointA[1]!, pointA[2]!]),
    to: applyPose(poseA, [pointB[0]!, pointB[1]!, pointB[2]!]),
  };
}

/** Every pair that is nearer than it wants where its bodies stand, the worst first; accepted ones are left out. */
export function nearPairs(prepared: PreparedCheck, poses: BodyPoses, trees: TreeShelf, poll?: Poll): StandingGap[] {
  const near: StandingGap[] = [];
  for (const planned of prepared.pairs) {
    if (acceptedWhy(prepared.scene.clearances, planned.first, planned.second) !== null) continue;
    const gap = gapOf(prepared, planned, poses, trees, planned.sweep.required_mm, poll);
    if (gap && gap.verdict !== "clear") near.push(gap);
  }
  return near.sort((p, q) => p.clearance_mm - q.clearance_mm);
}

/** The surface of both bodies that is nearer than it must be, with the curves in which the two cross. */
export function patchOf({ planned }: StandingGap, poses: BodyPoses, trees: TreeShelf): ContactPatch {
  const { first, second, sweep } = planned;
  return contactPatch(trees, first, second, sweep, poses.get(first.key)!, poses.get(second.key)!);
}
