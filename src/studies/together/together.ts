import { concludeCheck, type KnownSweep, prepareCheck } from "../../check/check.ts";
import type { CheckResult } from "../../check/result.ts";
import { SweepStopped, sweepPair } from "../../clearance/sweep.ts";
import { TreeShelf } from "../../clearance/sweepShelf.ts";
import type { Solid } from "../../geometry/solid.ts";
import { readBar } from "../../kinematics/antiRollBar.ts";
import { poseOfTrack } from "../../maths/pose.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { resolveScene } from "../../scene/resolve.ts";
import { StudyStopped } from "../stopped.ts";
import { type Beyond, beyondBands } from "./beyond.ts";
import { type CrossingPair, crossingPairs } from "./crossing.ts";

/** How far the anti-roll bar is wound up with one wheel up and the other down. */
export interface BarWound {
  readonly wound_deg: number;
  readonly at: { readonly left_mm: number; readonly right_mm: number };
}

export interface Together {
  /** What must be clear: the check itself, every pose within its travel. */
  readonly check: CheckResult;
  /** Parts of the left and of the right corner that come near each other, each wheel at any height. */
  readonly crossing: readonly CrossingPair[];
  /** What would be too close where the scene says that it cannot come to that. */
  readonly cannotHappen: readonly Beyond[];
  /** Null without a bar or with one side. */
  readonly bar: BarWound | null;
}

/**
 * Which states may happen together and what each answer is: what must be clear, over all of them; parts that cross sides with one wheel in
 * bump while the other droops; and what is only too close in states that the scene rules out. Throws InputError, and StudyStopped.
 */
export function judgeTogether(
  document: SceneDocument,
  meshFiles: ReadonlyMap<string, Solid>,
  sceneName: string,
  isCancelled: () => boolean = () => false,
): Together {
  const prepared = prepareCheck(resolveScene(document), meshFiles);
  const trees = new TreeShelf();
  const sweeps = prepared.pairs.map(({ first, second, sweep }, i): [number, KnownSweep] => {
    try {
      return [i, sweepPair(trees, first, second, sweep, { isCancelled })];
    } catch (error) {
      throw error instanceof SweepStopped ? new StudyStopped() : error;
    }
  });
  const check = concludeCheck(prepared, sweeps, sceneName);
  const { runs } = prepared;
  return {
    check,
    crossing: crossingPairs(prepared, isCancelled),
    cannotHappen: beyondBands(prepared, check, meshFiles, isCancelled),
    bar: runs.length === 2 ? barWound(runs[0]!) : null,
  };
}

/** Both sides turn alike, so that it is wound most with one at its most and the other at its least. */
function barWound({ corner, run }: ReturnType<typeof prepareCheck>["runs"][number]): BarWound | null {
  const turns = [...run.travel_mm].flatMap((travel_mm, knot) => {
    const bar = readBar(corner, poseOfTrack(run.carrier, knot));
    return bar ? [{ travel_mm, turn_deg: bar.turn_deg }] : [];
  });
  if (turns.length === 0) return null;
  const most = turns.reduce((a, b) => (b.turn_deg > a.turn_deg ? b : a));
  const least = turns.reduce((a, b) => (b.turn_deg < a.turn_deg ? b : a));
  const [high, low] = most.travel_mm > least.travel_mm ? [most, least] : [least, most];
  return {
    wound_deg: most.turn_deg - least.turn_deg,
    at: { left_mm: high.travel_mm, right_mm: low.travel_mm },
  };
}
