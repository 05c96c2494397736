import { type PreparedCheck, prepareCheck } from "../../check/check.ts";
import { limitName, limitsOf } from "../../check/limits.ts";
import { acceptedWhy } from "../../check/pairRules.ts";
import type { CheckResult, LimitVerdict, StateAt, Verdict } from "../../check/result.ts";
import { CheckShelf } from "../../check/shelf.ts";
import { toldClearance, toldVerdict } from "../../check/within.ts";
import { SweepStopped, sweepPair } from "../../clearance/sweep.ts";
import { TreeShelf } from "../../clearance/sweepShelf.ts";
import type { Solid } from "../../geometry/solid.ts";
import type { PowertrainPose, Side } from "../../scene/scene.ts";
import { StudyStopped } from "../stopped.ts";

/** A pair that would come too close, or a limit that would be passed, where the scene says that it cannot come to that. */
export interface Beyond {
  readonly side: Side | "both";
  /** "a/b", or the limit's name. */
  readonly what: string;
  readonly kind: "pair" | "limit";
  /** The clearance or the limited value, and what is wanted of it. */
  readonly value: number;
  readonly wanted: number;
  readonly verdict: Verdict;
  readonly at: StateAt;
  /** Travel within which the pose is credible. */
  readonly within_mm: readonly [number, number];
  /** Of a limit, as the check would tell it; null for a pair. */
  readonly limit: LimitVerdict | null;
  /** What the same pair does where it must be clear: its verdict in the check. Null for a limit. */
  readonly mustClear: { readonly clearance_mm: number; readonly verdict: Verdict; readonly at: StateAt } | null;
}

/**
 * What would clash, be tight or be passed in a powertrain pose, and on the way to it, at travels where the scene says that the pose cannot
 * be: the other answer to the check's, which does not count it. Proved as the check is.
 */
export function beyondBands(
  prepared: PreparedCheck,
  now: CheckResult,
  meshFiles: ReadonlyMap<string, Solid>,
  isCancelled: () => boolean = () => false,
): Beyond[] {
  const { scene, runs } = prepared;
  const [anyRun] = runs;
  if (!anyRun) return [];
  const { from_mm, to_mm } = anyRun.run;
  const shelf = new CheckShelf();
  const trees = new TreeShelf();
  const found: Beyond[] = [];
  for (const pose of scene.powertrain.poses) {
    const { within_mm } = pose;
    if (!within_mm) continue;
    const outside = (
      [
        [from_mm, Math.min(within_mm[0], to_mm)],
        [Math.max(within_mm[1], from_mm), to_mm],
      ] as const
    ).filter(([from, to]) => from < to);
    for (const range of outside) {
      const there: PowertrainPose = { ...pose, within_mm: range };
      const rest = scene.powertrain.poses[0]!;
      const other = { ...scene, powertrain: { ...scene.powertrain, poses: [rest, there] } };
      const { pairs, runs: otherRuns } = prepareCheck(other, meshFiles, shelf);
      for (const run of otherRuns) {
        for (const limit of limitsOf(other, run, [there])) {
          if (limit.verdict !== "clash" || limit.what === "binds" || isPassed(now, limit)) continue;
          const { side, value, limit: wanted, at, verdict } = limit;
          found.push({
            side,
            what: limitName(limit),
            kind: "limit",
            value,
            wanted,
            verdict,
            at,
            within_mm,
            limit,
            mustClear: null,
          });
        }
      }
      for (const { side, first, second, sweep, required_mm, within_mm: off_mm, acrossCar } of pairs) {
        if (isCancelled()) throw new StudyStopped();
        const moved = sweep.variants.findIndex((variant) => variant.pose === pose.id);
        if (moved < 0 || acrossCar || acceptedWhy(scene.clearances, first, second) !== null) continue;
        const { byVariant } = swept(() => sweepPair(trees, first, second, sweep, { isCancelled }));
        const { clearance_mm, isAtLeast, travel_mm, share } = byVariant[moved]!;
        if (isAtLeast || !Number.isFinite(clearance_mm)) continue;
        const verdict = toldVerdict(clearance_mm, off_mm, required_mm);
        if (verdict === "clear") continue;
        const same = now.pairs.find((pair) => pair.side === side && pair.a === first.id && pair.b === second.id);
        const value = toldClearance(clearance_mm, off_mm);
        // nothing is said of what is no worse there than where it must be clear
        if (same && same.clearance_mm <= value) continue;
        found.push({
          side,
          what: `${first.id}/${second.id}`,
          kind: "pair",
          value,
          wanted: required_mm,
          verdict,
          at: { travel_mm, pose: pose.id, ...(share === undefined || share === 1 ? {} : { share }) },
          within_mm,
          limit: null,
          mustClear: same ? { clearance_mm: same.clearance_mm, verdict: same.verdict, at: same.at } : null,
        });
      }
    }
  }
  return worstOfEach(found);
}

function isPassed({ limits }: CheckResult, { side, what, joint }: CheckResult["limits"][number]): boolean {
  return limits.some(
    (limit) => limit.verdict === "clash" && limit.side === side && limit.what === what && limit.joint === joint,
  );
}

function swept<T>(sweep: () => T): T {
  try {
    return sweep();
  } catch (error) {
    throw error instanceof SweepStopped ? new StudyStopped() : error;
  }
}

/** One entry a pair and pose: the halves of a spring, and travel above and below the band. */
function worstOfEach(found: readonly Beyond[]): Beyond[] {
  const worst = new Map<string, Beyond>();
  for (const each of found) {
    const name = `${each.kind} ${each.side} ${each.what} ${each.at.pose}`;
    const last = worst.get(name);
    const isWorse = !last || (each.kind === "pair" ? each.value < last.value : false);
    if (isWorse) worst.set(name, each);
  }
  return [...worst.values()];
}
