import { composePoses, type Pose } from "../../maths/pose.ts";
import { type Leg, legLength_mm, poseOnLeg } from "../../studies/service/legs.ts";
import type { WalkedStep } from "../../studies/service/walk.ts";

/** How far a step goes before what stops it, mm along its leg. */
export function goneOf({ leg, got }: WalkedStep): number {
  const whole = legLength_mm(leg);
  if (leg.kind === "straight") return Math.min(got, whole);
  return leg.angle_deg === 0 ? 0 : Math.min(1, got / Math.abs(leg.angle_deg)) * whole;
}

/** The step that is at work a share of the way, and how far it has got, mm along its leg. */
export function placeOnPath(steps: readonly WalkedStep[], along: number): { step: number; at_mm: number } {
  const lengths = steps.map(goneOf);
  let left = lengths.reduce((sum, each) => sum + each, 0) * along;
  for (const [step, whole] of lengths.entries()) {
    if (left <= whole || step === steps.length - 1) return { step, at_mm: Math.min(left, whole) };
    left -= whole;
  }
  return { step: 0, at_mm: 0 };
}

/** Poses of all bodies a share of the way along the path, given where they stand before it. */
export function posesOnPath(
  steps: readonly WalkedStep[],
  along: number,
  poses: ReadonlyMap<string, Pose>,
): ReadonlyMap<string, Pose> {
  const { step, at_mm } = placeOnPath(steps, along);
  const moved = new Map(poses);
  for (const [i, { leg, moves }] of steps.entries()) {
    if (i > step) break;
    move(moved, moves, leg, i === step ? at_mm : legLength_mm(leg));
  }
  return moved;
}

function move(poses: Map<string, Pose>, keys: readonly string[], leg: Leg, at_mm: number): void {
  const by = poseOnLeg(leg, at_mm);
  for (const key of keys) {
    const pose = poses.get(key);
    if (pose) poses.set(key, composePoses(by, pose));
  }
}
