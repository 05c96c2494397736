import { carryOver, leastOfSweep, matcher, standIn, UNKNOWN } from "../check/carry.ts";
import { concludeCheck, type KnownSweep, type PreparedCheck, prepareCheck } from "../check/check.ts";
import { fingerprint } from "../check/fingerprint.ts";
import { nearestFirst } from "../check/nearestFirst.ts";
import type { PlannedPair } from "../check/plan.ts";
import type { CheckResult } from "../check/result.ts";
import { CheckShelf } from "../check/shelf.ts";
import { type Gap, GapMeter } from "../clearance/gap.ts";
import type { CollisionTree } from "../clearance/kernel.ts";
import { poseOfMotion } from "../clearance/motion.ts";
import { contactPatch, worstPatch } from "../clearance/patch.ts";
import { motionsOf, type SweepOptions, SweepStopped, sweepPair } from "../clearance/sweep.ts";
import { TreeShelf } from "../clearance/sweepShelf.ts";
import type { ContactPatch, Motion, PairSweep, SweepBody } from "../clearance/types.ts";
import { solidHash } from "../geometry/content.ts";
import type { Solid } from "../geometry/solid.ts";
import { dropOldest } from "../maths/dropOldest.ts";
import type { Poll } from "../maths/poll.ts";
import { POSE_SIZE } from "../maths/pose.ts";
import type { SceneDocument } from "../scene/document.ts";
import { resolveScene } from "../scene/resolve.ts";
import type { KeptOfChecks } from "../studies/places/placeStudy.ts";
import { StoppedError } from "./outcome.ts";
import { PairTrees } from "./pairTrees.ts";
import type { GapPair, PairsDone, PatchRequest } from "./protocol.ts";
import { type Share, SweepRound } from "./sweepRound.ts";

/** How a long job reports and learns that it is not wanted any more. */
export interface Watch {
  /** `done`: what this machine has swept so far; nearest pairs come first. */
  onProgress(progress: PairsDone, done: readonly IndexedSweep[]): void;
  /**
   * Told once, when all pairs of the share are swept or in other hands that an edit may have brought to less than they want:
   * `carried` are the rest.
   */
  onVerdicts?(done: readonly IndexedSweep[], carried: readonly Carried[]): void;
  isStopped(): boolean;
  /** Lets messages in; called every few milliseconds. */
  breathe(): Promise<void>;
}

export interface PrepareOptions {
  /** The one powertrain pose to check in; otherwise all. */
  readonly onlyPose?: string | undefined;
  readonly isStopped?: () => boolean;
}

/** The number of a pair in PreparedCheck.pairs, and its sweep. */
export type IndexedSweep = readonly [index: number, sweep: PairSweep];

/** The number of a pair that is not swept since an edit, and what it is proved to keep. */
export type Carried = readonly [index: number, least_mm: number];

const BREATH_MS = 12;
/** How long a machine that waits for another's tree rests before it looks again. */
const REST_MS = 2;
/** Sweeps kept from check to check, if one check has no more; a scene of 60 bodies a side has some 3,000. */
const KEPT_SWEEPS = 20_000;

/** The result of the sweeps, the same in whatever order they were done: of bodies with one id the first tells what is equal. */
export function concludeSweeps(
  prepared: PreparedCheck,
  sweeps: readonly (readonly [pair: number, sweep: KnownSweep])[],
  sceneName: string,
): CheckResult {
  const inOrder = [...sweeps].sort(([p], [q]) => p - q);
  return concludeCheck(prepared, inOrder, sceneName);
}

/** Everything that is kept between jobs so that an edit costs only what it touches. One thread, any number of jobs. */
export class Machine {
  readonly #shelf = new CheckShelf();
  readonly #trees: TreeShelf;
  readonly #gaps: GapMeter;
  readonly #sweeps = new Map<string, PairSweep>();
  /** The newest check, and of each of its pairs the least that is known of its clearance (carry.ts). */
  #prepared: { readonly key: string; readonly check: PreparedCheck; readonly least_mm: Float64Array } | null = null;
  /** The last whole check that was concluded here, with its sweeps in the order of its pairs. */
  #whole: { readonly check: PreparedCheck; readonly sweeps: readonly PairSweep[] } | null = null;

  constructor(trees = new TreeShelf()) {
    this.#trees = trees;
    this.#gaps = new GapMeter(trees);
  }

  /** Ready for the sweep, in every powertrain pose or in one. Throws InputError, and StoppedError when stopped. */
  prepare(
    document: SceneDocument,
    meshFiles: ReadonlyMap<string, Solid>,
    { onlyPose, isStopped = () => false }: PrepareOptions = {},
  ): PreparedCheck {
    const poll = () => stopIf(isStopped());
    const meshes = [...meshFiles].map(([file, solid]) => [file, solidHash(solid, poll)]);
    const key = JSON.stringify([document, meshes, onlyPose]);
    if (this.#prepared?.key !== key) {
      const last = this.#prepared;
      const check = prepareCheck(resolveScene(document), meshFiles, this.#shelf, onlyPose, poll);
      const least_mm = last
        ? carryOver(last.check, last.least_mm, check)
        : new Float64Array(check.pairs.length).fill(UNKNOWN);
      this.#prepared = { key, check, least_mm };
    }
    return this.#prepared.check;
  }

  /**
   * Sweeps this machine's share of the pairs: first those that are not proved to keep what they want, within them the
   * nearest first. Throws StoppedError when stopped.
   */
  async sweepShare(prepared: PreparedCheck, share: Share, watch: Watch): Promise<IndexedSweep[]> {
    const { pairs } = prepared;
    const least_mm = this.leastOf(prepared);
    const keys = pairs.map(fingerprint);
    const order = nearestFirst(prepared, () => stopIf(watch.isStopped()));
    const isMine = (pair: number): boolean => pair % share.of === share.index;
    const isCarried = (pair: number): boolean =>
      least_mm !== null && least_mm[pair]! >= pairs[pair]!.sweep.required_mm && !this.#sweeps.has(keys[pair]!);
    const trees = new PairTrees(prepared, this.#trees);
    const board = share.board?.holds(pairs.length, trees.count) ? share.board : null;
    const mine = order.filter(isMine);
    const others = board ? order.filter((pair) => !isMine(pair)) : [];
    const [open, carried] = split(mine, isCarried);
    const [openElsewhere, carriedElsewhere] = split(others, isCarried);
    const round = new SweepRound([...open, ...openElsewhere, ...carried, ...carriedElsewhere], board, trees);

    const done: IndexedSweep[] = [];
    const finish = (pair: number, sweep: PairSweep): void => {
      const key = keys[pair]!;
      // set anew on every use: what was used longest ago stands first and goes first
      this.#sweeps.delete(key);
      this.#sweeps.set(key, sweep);
      if (least_mm) least_mm[pair] = leastOfSweep(pairs[pair]!, sweep);
      done.push([pair, sweep]);
      watch.onProgress({ pairsDone: done.length, pairsTotal: pairs.length }, done);
    };
    for (const pair of round.takeKnown((each) => this.#sweeps.has(keys[each]!))) {
      finish(pair, this.#sweeps.get(keys[pair]!)!);
    }
    const options = { isCancelled: () => watch.isStopped() };
    let breathed = performance.now();
    let areVerdictsTold = false;
    for (let turn = 0; ; ) {
      if (!areVerdictsTold && round.isPast(open.length)) {
        areVerdictsTold = true;
        watch.onVerdicts?.(
          done,
          carried.map((pair) => [pair, least_mm![pair]!]),
        );
      }
      if (performance.now() - breathed > BREATH_MS) {
        await watch.breathe();
        breathed = performance.now();
        turn++;
      }
      stopIf(watch.isStopped());
      const errand = round.next(turn);
      if (errand.kind === "end") break;
      if (errand.kind === "wait") {
        await new Promise((resolve) => setTimeout(resolve, REST_MS));
        turn++;
      } else if (errand.kind === "make") untilStopped(() => round.make(errand.tree, options));
      else finish(errand.pair, this.#sweep(pairs[errand.pair]!, options));
    }
    dropOldest(this.#sweeps, Math.max(KEPT_SWEEPS, pairs.length));
    return done;
  }

  /** Of each pair the least that is known of its clearance (carry.ts); null for a check that is not the newest. */
  leastOf(prepared: PreparedCheck): Float64Array | null {
    return this.#prepared?.check === prepared ? this.#prepared.least_mm : null;
  }

  /** The whole check's result, of all its sweeps. */
  conclude(prepared: PreparedCheck, sweeps: readonly IndexedSweep[], sceneName: string): CheckResult {
    const inOrder: PairSweep[] = [];
    const least_mm = this.leastOf(prepared);
    for (const [pair, sweep] of sweeps) {
      inOrder[pair] = sweep;
      if (least_mm) least_mm[pair] = leastOfSweep(prepared.pairs[pair]!, sweep);
    }
    this.#whole = { check: prepared, sweeps: inOrder };
    return concludeSweeps(prepared, sweeps, sceneName);
  }

  /**
   * Every verdict of a check before the whole of it is done: `carried` pairs are told with what they are proved to keep.
   * null where one of them was in no whole check that this machine concluded.
   */
  concludeCarried(
    prepared: PreparedCheck,
    sweeps: readonly IndexedSweep[],
    carried: readonly Carried[],
    sceneName: string,
  ): CheckResult | null {
    if (!this.#whole) return null;
    const indexOf = matcher(this.#whole.check.pairs);
    const known: (readonly [number, KnownSweep])[] = [...sweeps];
    for (const [index, least_mm] of carried) {
      const planned = prepared.pairs[index]!;
      const last = this.#whole.sweeps[indexOf(planned, index)];
      if (!last) return null;
      known.push([index, standIn(planned, last, least_mm)]);
    }
    return concludeSweeps(prepared, known, sceneName);
  }

  #sweep({ sweep, first, second }: PlannedPair, options: SweepOptions): PairSweep {
    return untilStopped(() => sweepPair(this.#trees, first, second, sweep, options));
  }

  /** The whole check on this thread. */
  async check(prepared: PreparedCheck, sceneName: string, watch: Watch): Promise<CheckResult> {
    const sweeps = await this.sweepShare(prepared, { index: 0, of: 1 }, watch);
    return this.conclude(prepared, sweeps, sceneName);
  }

  /** The touching surfaces of one pair of bodies at one state, or the worst over the travel of one pose. Throws InputError. */
  patch(
    prepared: PreparedCheck,
    { keys, at }: Omit<PatchRequest, "document">,
    isStopped: () => boolean = () => false,
  ): ContactPatch {
    return untilStopped(() => this.#patch(prepared, keys, at, { isCancelled: isStopped }));
  }

  #patch(
    prepared: PreparedCheck,
    keys: PatchRequest["keys"],
    at: PatchRequest["at"],
    options: SweepOptions,
  ): ContactPatch {
    const planned = prepared.pairs.find(({ sweep }) => sweep.a === keys[0] && sweep.b === keys[1]);
    if (!planned) throw new Error(`${keys[0]} and ${keys[1]} make no pair`);
    const { sweep, first, second } = planned;
    const variant = sweep.variants.find(({ pose }) => pose === at.pose) ?? sweep.variants[0]!;
    if (at.travel_mm === "worst") {
      const { byVariant } = this.#sweeps.get(fingerprint(planned)) ?? this.#sweep(planned, options);
      const { share, travel_mm } = byVariant.find(({ pose }) => pose === variant.pose)!;
      const worst = { ...variant, ...motionsOf(variant, share) };
      return worstPatch(this.#trees, first, second, sweep, worst, travel_mm, options);
    }
    const { travel_mm } = at;
    const poseOf = (motion: Motion) => poseOfMotion(motion, travel_mm, new Float64Array(POSE_SIZE));
    const motions = motionsOf(variant, at.share);
    return contactPatch(this.#trees, first, second, sweep, poseOf(motions.a), poseOf(motions.b), options);
  }

  /** The gap of each pair where its bodies are; null where the scene lacks one of them. */
  gaps({ bodies }: PreparedCheck, pairs: readonly GapPair[], isStopped: () => boolean = () => false): (Gap | null)[] {
    const byKey = new Map(bodies.map((body) => [body.key, body]));
    const poll = () => {
      if (isStopped()) throw new StoppedError();
    };
    return pairs.map(({ keys, poses }) => {
      poll();
      const [a, b] = [byKey.get(keys[0]), byKey.get(keys[1])];
      return a && b ? this.#gaps.measure(a, poses[0], b, poses[1], poll) : null;
    });
  }

  /** The tree of a whole body, kept with the others. What `poll` throws ends the making of it. */
  treeOf(body: SweepBody, poll?: Poll): CollisionTree {
    return this.#trees.prepare(body, poll).tree;
  }

  /** Trees of the bodies, kept from job to job. */
  get trees(): TreeShelf {
    return this.#trees;
  }

  /** What a study that asks places may begin with. */
  get kept(): KeptOfChecks {
    return { shelf: this.#shelf, trees: this.#trees };
  }

  /** Drops finished sweeps but keeps solids and trees. */
  forgetSweeps(): void {
    this.#sweeps.clear();
  }
}

/** Those for which it does not hold, and those for which it does. */
function split(pairs: readonly number[], holds: (pair: number) => boolean): [number[], number[]] {
  return [pairs.filter((pair) => !holds(pair)), pairs.filter(holds)];
}

function stopIf(isStopped: boolean): void {
  if (isStopped) throw new StoppedError();
}

function untilStopped<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw error instanceof SweepStopped ? new StoppedError() : error;
  }
}
