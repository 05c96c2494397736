import type { Extent } from "../clearance/bound.ts";
import type { JointExcuse, Motion, SweepVariant } from "../clearance/types.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { extentOfSolid } from "./extents.ts";
import type { PlannedPair } from "./plan.ts";
import { recall, sameNumbers } from "./shelf.ts";
import { type Steps, stray, turnOf } from "./shift.ts";

/**
 * The gap that two bodies keep at least where one side is surface that a joint excuses. Such surface lies in the joint's
 * ball, about its centre as that body carries it. The other body carries the centre too, and knows how far all of its own
 * surface is from it; how far the two centres are apart at any travel (nothing, for most joints) takes away from that.
 */
export class HiddenSurface {
  readonly #apart = new Map<readonly JointExcuse[], readonly number[]>();

  /** mm; Infinity where no ball reaches a body, negative where what is hidden of one body may be in the other. */
  gapOf({ first, second, sweep: { excuses, variants } }: PlannedPair): number {
    let gap = Number.POSITIVE_INFINITY;
    if (excuses.length === 0) return gap;
    const [boxA, boxB] = [extentOfSolid(first.solid), extentOfSolid(second.solid)];
    excuses.forEach(({ centreInA, centreInB, radius_mm }, i) => {
      const beyondA = distanceFrom(centreInA, boxA) - radius_mm;
      const beyondB = distanceFrom(centreInB, boxB) - radius_mm;
      if (beyondA > 0 && beyondB > 0) return;
      // pairs that meet alike share the list (plan.ts)
      const apart = recall(this.#apart, excuses, () => excuses.map((excuse) => centresApart(excuse, variants)))[i]!;
      if (beyondA <= 0) gap = Math.min(gap, beyondB - apart);
      if (beyondB <= 0) gap = Math.min(gap, beyondA - apart);
    });
    return gap;
  }
}

/** How far apart the two bodies have the centre of their joint at most, mm; Infinity on ways between poses. */
function centresApart({ centreInA, centreInB }: JointExcuse, variants: readonly SweepVariant[]): number {
  let most = 0;
  for (const { a, b, rock } of variants) {
    if (rock) return Number.POSITIVE_INFINITY;
    const pathA = pathOf(a, centreInA);
    const pathB = pathOf(b, centreInB);
    if (pathA.length > 3 && pathB.length > 3 && !sameNumbers(a.travel_mm, b.travel_mm)) return Number.POSITIVE_INFINITY;
    const atKnots = farthestApart(pathA, pathB);
    most = Math.max(most, atKnots + stray(stepsAlong(a, pathA), stepsAlong(b, pathB), atKnots));
  }
  return most;
}

/** Where a point of a body is at the knots of its motion, 3 numbers each. */
function pathOf({ poses }: Motion, [x, y, z]: Vec3): Float64Array {
  const path = new Float64Array(poses.length / 4);
  for (let i = 0; i < path.length; i++) {
    path[i] = poses[4 * i]! * x + poses[4 * i + 1]! * y + poses[4 * i + 2]! * z + poses[4 * i + 3]!;
  }
  return path;
}

/** Of two paths over the same knots; what stands has one place for all of them. */
function farthestApart(p: Float64Array, q: Float64Array): number {
  let most = 0;
  for (let i = 0; i < Math.max(p.length, q.length); i += 3) {
    most = Math.max(most, squaredGap(p, p.length === 3 ? 0 : i, q, q.length === 3 ? 0 : i));
  }
  return Math.sqrt(most);
}

function stepsAlong(motion: Motion, path: Float64Array): Steps {
  let most = 0;
  for (let i = 3; i < path.length; i += 3) most = Math.max(most, squaredGap(path, i - 3, path, i));
  return { step_mm: Math.sqrt(most), turn: turnOf(motion) };
}

function squaredGap(p: Float64Array, i: number, q: Float64Array, j: number): number {
  return (q[j]! - p[i]!) ** 2 + (q[j + 1]! - p[i + 1]!) ** 2 + (q[j + 2]! - p[i + 2]!) ** 2;
}

/** Of a point from a box; 0 inside. */
function distanceFrom(point: Vec3, box: Extent): number {
  let square = 0;
  for (let axis = 0; axis < 3; axis++) {
    square += Math.max(box[axis]! - point[axis]!, 0, point[axis]! - box[axis + 3]!) ** 2;
  }
  return Math.sqrt(square);
}
