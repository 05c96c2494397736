import type { PairSweep } from "../clearance/types.ts";
import type { Solid } from "../geometry/solid.ts";
import type { Poll } from "../maths/poll.ts";
import { InputError } from "../scene/error.ts";
import type { PowertrainPose, Scene, Side } from "../scene/scene.ts";
import { assembleModel } from "./assemble.ts";
import { curvesOf } from "./curves.ts";
import { limitsOf } from "./limits.ts";
import type { ModelBody } from "./model.ts";
import { acceptedWhy } from "./pairRules.ts";
import { type PlannedPair, planPairs } from "./plan.ts";
import type { CheckResult, PairVerdict, SideCurves } from "./result.ts";
import { CheckShelf } from "./shelf.ts";
import { runSides, type SideRun } from "./tracks.ts";
import { type UncheckedPart, uncheckedParts } from "./unchecked.ts";
import { countVerdicts, uniteRanges, worstFirst } from "./verdict.ts";
import { toldClearance, toldVerdict } from "./within.ts";

/** A scene made ready for the sweep: everything but the distances. */
export interface PreparedCheck {
  readonly scene: Scene;
  readonly bodies: readonly ModelBody[];
  readonly runs: readonly SideRun[];
  readonly pairs: readonly PlannedPair[];
  /** Powertrain poses that are checked. */
  readonly poses: readonly PowertrainPose[];
  /** Parts that are not among the bodies. */
  readonly unchecked: readonly UncheckedPart[];
}

/**
 * `onlyPose`: the one powertrain pose to check in; otherwise all. With the same `shelf` from check to check only what changed
 * is made anew; the result is the same without. Throws InputError for a scene whose parts cannot be made or whose
 * corner cannot be solved, and for an unknown pose. Where `poll` ends it, the shelf keeps what was made.
 */
export function prepareCheck(
  scene: Scene,
  meshFiles?: ReadonlyMap<string, Solid>,
  shelf = new CheckShelf(),
  onlyPose?: string,
  poll?: Poll,
): PreparedCheck {
  const poses = posesOf(scene, onlyPose);
  const runs = runSides(scene);
  const bodies = assembleModel(scene, meshFiles, shelf.solids, poll);
  const pairs = planPairs(scene, bodies, runs, poses, shelf, poll);
  shelf.turn();
  return { scene, bodies, runs, pairs, poses, unchecked: uncheckedParts(scene, meshFiles ?? new Map()) };
}

/** A finished sweep, or what is carried from before an edit (carry.ts). */
export type KnownSweep = PairSweep & Pick<PairVerdict, "isAtLeast">;

/** Makes the result of the sweeps, each told with its pair's number in `prepared.pairs`: of all of them, or of those done so far. */
export function concludeCheck(
  prepared: PreparedCheck,
  sweeps: Iterable<readonly [index: number, sweep: KnownSweep]>,
  sceneName: string,
): CheckResult {
  const pairs = verdictsOf(prepared, sweeps).sort(worstFirst);
  const { unchecked } = prepared;
  const rest = unchecked.length > 0 ? { unchecked } : {};
  return { scene: sceneName, ...readingsOf(prepared), pairs, summary: countVerdicts(pairs), ...rest };
}

type CheckReadings = Pick<CheckResult, "sides" | "limits">;

/** A check is concluded several times over; what hangs on no sweep goes with it. */
const readings = new WeakMap<PreparedCheck, CheckReadings>();

function readingsOf(prepared: PreparedCheck): CheckReadings {
  let found = readings.get(prepared);
  if (!found) {
    const { scene, runs, poses } = prepared;
    const limits = runs.flatMap((run) => limitsOf(scene, run, poses));
    const sides: Partial<Record<Side, SideCurves>> = {};
    for (const run of runs) sides[run.side] = curvesOf(run, scene.travel);
    found = { sides, limits };
    readings.set(prepared, found);
  }
  return found;
}

function posesOf({ powertrain: { poses } }: Scene, onlyPose: string | undefined): readonly PowertrainPose[] {
  if (onlyPose === undefined) return poses;
  const chosen = poses.filter(({ id }) => id === onlyPose);
  if (chosen.length > 0) return chosen;
  const known = poses.map(({ id }) => id).join(", ");
  throw new InputError(
    "missing-id",
    { path: "powertrain.poses" },
    `there is no powertrain pose "${onlyPose}"`,
    `one of ${known}`,
  );
}

/**
 * A pair whose joints excuse all of a body's surface has nothing to measure and no verdict. The other side's copy of such a
 * bracket is then told only where it comes too close: that it is far away says nothing of the joint.
 */
function verdictsOf(prepared: PreparedCheck, sweeps: Iterable<readonly [number, KnownSweep]>): PairVerdict[] {
  const near: PairVerdict[] = [];
  const across: PairVerdict[] = [];
  for (const [index, sweep] of sweeps) {
    if (!Number.isFinite(sweep.clearance_mm)) continue;
    const planned = prepared.pairs[index]!;
    (planned.acrossCar ? across : near).push(pairVerdict(prepared.scene, planned, sweep));
  }
  const told = new Set(near.map(idsOf));
  return mergeBodies([
    ...near,
    ...across.filter((pair) => told.has(idsOf(pair)) || pair.clearance_mm < pair.required_mm),
  ]);
}

/** True where something clashes or a limit is passed. */
export function isClashing(result: CheckResult): boolean {
  return result.summary.clash > 0 || result.limits.some(({ verdict }) => verdict === "clash");
}

function pairVerdict(scene: Scene, planned: PlannedPair, swept: KnownSweep): PairVerdict {
  const { side, first, second, required_mm, within_mm, give_mm } = planned;
  const drawn_mm = within_mm - give_mm;
  const told = (measured_mm: number): number => toldClearance(measured_mm, within_mm);
  const farther = swept.byVariant.filter(({ isAtLeast }) => isAtLeast).map(({ pose }) => pose);
  const why = acceptedWhy(scene.clearances, first, second);
  const worst = swept.byVariant.find(({ pose }) => pose === swept.at.pose);
  const profile: [number, number][] = [];
  for (let i = 0; worst && i < worst.profile.length; i += 2) {
    profile.push([worst.profile[i]!, told(worst.profile[i + 1]!)]);
  }
  const open = [first, second].filter(({ solid }) => !solid.shells.every(({ closed }) => closed)).map(({ id }) => id);
  return {
    side,
    a: first.id,
    b: second.id,
    required_mm,
    clearance_mm: told(swept.clearance_mm),
    ...(swept.isAtLeast ? { isAtLeast: true } : {}),
    verdict: why === null ? toldVerdict(swept.clearance_mm, within_mm, required_mm) : "accepted",
    measure: swept.measure,
    ...(drawn_mm > 0 ? { within_mm: drawn_mm } : {}),
    ...(give_mm > 0 ? { give_mm } : {}),
    ...(open.length > 0 ? { open } : {}),
    at: swept.at,
    pointA: swept.pointA,
    pointB: swept.pointB,
    clashTravel_mm: swept.clashTravel_mm,
    partingOfA: swept.partingOfA,
    ...(why === null ? {} : { why }),
    profile,
    byPose: Object.fromEntries(
      swept.byVariant.flatMap(({ pose, clearance_mm, isAtLeast }) => (isAtLeast ? [] : [[pose, told(clearance_mm)]])),
    ),
    ...(farther.length > 0 ? { farther } : {}),
    keys: [first.key, second.key],
  };
}

function idsOf({ side, a, b }: PairVerdict): string {
  return `${side}/${a}/${b}`;
}

/** One entry a pair of ids: the halves of a spring are one part to the builder. */
function mergeBodies(verdicts: readonly PairVerdict[]): PairVerdict[] {
  const byIds = new Map<string, PairVerdict>();
  for (const verdict of verdicts) {
    const ids = idsOf(verdict);
    const other = byIds.get(ids);
    byIds.set(ids, other ? mergePair(other, verdict) : verdict);
  }
  return [...byIds.values()];
}

function mergePair(one: PairVerdict, other: PairVerdict): PairVerdict {
  const worst = other.clearance_mm < one.clearance_mm ? other : one;
  const byPose: Record<string, number> = { ...one.byPose };
  for (const [pose, clearance_mm] of Object.entries(other.byPose)) {
    byPose[pose] = Math.min(byPose[pose] ?? Number.POSITIVE_INFINITY, clearance_mm);
  }
  const clashTravel_mm = uniteRanges([...one.clashTravel_mm, ...other.clashTravel_mm]);
  if (!one.farther && !other.farther) return { ...worst, clashTravel_mm, byPose };
  const farther = [...new Set([...(one.farther ?? []), ...(other.farther ?? [])])];
  for (const pose of farther) delete byPose[pose];
  return { ...worst, clashTravel_mm, byPose, farther };
}
