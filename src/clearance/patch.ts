import { composePoses, invertPose, POSE_SIZE, type Pose } from "../maths/pose.ts";
import { crossingCurves } from "./crossing.ts";
import type { Poll } from "./kernel.ts";
import { poseOfMotion, RelativeMotion } from "./motion.ts";
import { ClearanceField, type FieldState } from "./patchField.ts";
import { patchMesh } from "./patchMesh.ts";
import { ballsOf, gaugeOf, pollOf, type SweepOptions } from "./sweep.ts";
import type { ClippedBody, TreeShelf } from "./sweepShelf.ts";
import type { ContactPatch, JointExcuse, SweepBody, SweepVariant } from "./types.ts";

/** States of the worst patch lie no farther apart than this, mm of travel. */
const STEP_mm = 2.5;

/** What of a pair its patches depend on, apart from where the bodies are. */
export interface PatchPair {
  readonly required_mm: number;
  readonly excuses: readonly JointExcuse[];
}

/**
 * The surface of each of two bodies nearer to the other than `required_mm` in one state, each in its own design position,
 * with the curves in which the surfaces cross. `poseOfA` and `poseOfB` take the bodies to where they are in the car.
 */
export function contactPatch(
  shelf: TreeShelf,
  bodyA: SweepBody,
  bodyB: SweepBody,
  pair: PatchPair,
  poseOfA: Pose,
  poseOfB: Pose,
  options: SweepOptions = {},
): ContactPatch {
  const relative = composePoses(invertPose(poseOfA), poseOfB);
  return patchOver(shelf, bodyA, bodyB, pair, [relative], relative, poseOfA, options);
}

/**
 * The same over a variant's whole travel: at each place the least clearance of all states every 2.5 mm and of the one at
 * `worst_mm`, for which the crossing curves hold.
 */
export function worstPatch(
  shelf: TreeShelf,
  bodyA: SweepBody,
  bodyB: SweepBody,
  pair: PatchPair,
  variant: SweepVariant,
  worst_mm: number,
  options: SweepOptions = {},
): ContactPatch {
  const motion = new RelativeMotion(variant.a, variant.b, variant.from_mm, variant.to_mm);
  const worst = motion.poseAt(worst_mm, new Float64Array(POSE_SIZE));
  const poses = [worst];
  const steps = motion.still ? 0 : Math.max(1, Math.ceil((motion.to_mm - motion.from_mm) / STEP_mm));
  for (let i = 0; i <= steps && steps > 0; i++) {
    const travel = motion.from_mm + ((motion.to_mm - motion.from_mm) * i) / steps;
    poses.push(motion.poseAt(travel, new Float64Array(POSE_SIZE)));
  }
  const poseOfA = poseOfMotion(variant.a, worst_mm, new Float64Array(POSE_SIZE));
  return patchOver(shelf, bodyA, bodyB, pair, poses, worst, poseOfA, options);
}

function patchOver(
  shelf: TreeShelf,
  bodyA: SweepBody,
  bodyB: SweepBody,
  pair: PatchPair,
  relatives: readonly Pose[],
  crossingAt: Pose,
  poseOfA: Pose,
  options: SweepOptions,
): ContactPatch {
  const poll = pollOf(options);
  const a = shelf.clip(bodyA, ballsOf(pair.excuses, "centreInA"), poll);
  const b = shelf.clip(bodyB, ballsOf(pair.excuses, "centreInB"), poll);
  const overlaps = overlapsOf(a, b, relatives, poll);
  const ofAIntoB: FieldState[] = [];
  const ofBIntoA: FieldState[] = [];
  relatives.forEach((relative, i) => {
    ofAIntoB.push({ intoOther: invertPose(relative), overlap: overlaps[i]! });
    ofBIntoA.push({ intoOther: relative, overlap: overlaps[i]! });
  });
  return {
    a: patchMesh(a.counted, new ClearanceField(b, ofAIntoB, poll), pair.required_mm),
    b: patchMesh(b.counted, new ClearanceField(a, ofBIntoA, poll), pair.required_mm),
    crossing: crossingCurves(a.counted, b.counted, crossingAt, poseOfA, poll),
  };
}

function overlapsOf(a: ClippedBody, b: ClippedBody, relatives: readonly Pose[], poll: Poll): boolean[] {
  const gauge = gaugeOf(a, b, poll);
  return relatives.map((relative) => gauge.overlaps(relative));
}
