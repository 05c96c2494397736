import { prepareCheck } from "../../src/check/check.ts";
import { acceptedWhy } from "../../src/check/pairRules.ts";
import { isMovedByPose } from "../../src/check/tracks.ts";
import { ballsOf, gaugeOf } from "../../src/clearance/sweep.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { composePoses, identityPose, invertPose, type Pose } from "../../src/maths/pose.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";

export interface NaiveMargin {
  readonly side: string;
  readonly a: string;
  readonly b: string;
  margin_mm: number;
}

/**
 * Every pair's least margin at some states of a document, by the check's own bodies and the sweep's own gauge, everything made anew:
 * each pair of bodies of one id counted together, as a check tells them.
 */
export function naiveMargins(
  document: SceneDocument,
  states: readonly { readonly travel_mm: number; readonly pose: string }[],
): NaiveMargin[] {
  const prepared = prepareCheck(resolveScene(document));
  const { scene, pairs } = prepared;
  const shelf = new TreeShelf();
  const poses = new Map<string, Pose[]>();
  for (const side of scene.sides) {
    const corner = compileCorner(scene, side);
    for (const { travel_mm, pose } of states) {
      const mounts = mountPoses(corner, solveCorner(corner, travel_mm).pose, pose);
      for (const [mount, at] of mounts) {
        const key = `${mount} ${side}`;
        poses.set(key, [...(poses.get(key) ?? []), at]);
      }
    }
  }
  const found = new Map<string, NaiveMargin>();
  for (const { side, first, second, sweep } of pairs) {
    if (acceptedWhy(scene.clearances, first, second) !== null) continue;
    const gauge = gaugeOf(
      shelf.clip(first, ballsOf(sweep.excuses, "centreInA")),
      shelf.clip(second, ballsOf(sweep.excuses, "centreInB")),
    );
    const own = side === "both" ? scene.sides[0]! : side;
    const placed = (mount: string, i: number) => poses.get(`${mount} ${own}`)?.[i] ?? identityPose();
    let least = Number.POSITIVE_INFINITY;
    for (const [i, { pose }] of states.entries()) {
      if (pose !== "rest" && !isMovedByPose(first.mount) && !isMovedByPose(second.mount)) continue;
      gauge.measure(composePoses(invertPose(placed(first.mount, i)), placed(second.mount, i)), false, Infinity);
      least = Math.min(least, gauge.state.clearance_mm);
    }
    const key = `${side} ${first.id} ${second.id}`;
    const margin_mm = least - sweep.required_mm;
    const known = found.get(key);
    if (known) known.margin_mm = Math.min(known.margin_mm, margin_mm);
    else found.set(key, { side, a: first.id, b: second.id, margin_mm });
  }
  return [...found.values()];
}
