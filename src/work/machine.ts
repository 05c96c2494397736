import { concludeCheck, type PreparedCheck, prepareCheck } from "../check/check.ts";
import { fingerprint } from "../check/fingerprint.ts";
import { nearestFirst } from "../check/nearestFirst.ts";
import type { PlannedPair } from "../check/plan.ts";
import type { CheckResult } from "../check/result.ts";
import { CheckShelf } from "../check/shelf.ts";
import { poseOfMotion } from "../clearance/motion.ts";
import { contactPatch, worstPatch } from "../clearance/patch.ts";
import { motionsOf, type SweepOptions, SweepStopped, sweepPair } from "../clearance/sweep.ts";
import { TreeShelf } from "../clearance/sweepShelf.ts";
import type { ContactPatch, Motion, PairSweep } from "../clearance/types.ts";
import { solidHash } from "../geometry/content.ts";
import type { Solid } from "../geometry/solid.ts";
import { POSE_SIZE } from "../maths/pose.ts";
import type { SceneDocument } from "../scene/document.ts";
import { resolveScene } from "../scene/resolve.ts";
import { StoppedError } from "./outcome.ts";
import type { CheckProgress, PatchRequest } from "./protocol.ts";

/** How a long job reports and learns that it is not wanted any more. */
export interface Watch {
  /** `done`: what this machine has swept so far; nearest pairs come first. */
  onProgress(progress: CheckProgress, done: readonly IndexedSweep[]): void;
  isStopped(): boolean;
  /** Lets messages in; called every few milliseconds. */
  breathe(): Promise<void>;
}

/** The number of a pair in PreparedCheck.pairs, and its sweep. */
export type IndexedSweep = readonly [index: number, sweep: PairSweep];

/** Which part of the pairs a machine sweeps: those whose number is `index` of `of`. */
export interface Share {
  readonly index: number;
  readonly of: number;
}

const BREATH_MS = 12;
/** Sweeps kept from check to check; a scene of 60 bodies a side has some 3,000. */
const KEPT_SWEEPS = 20_000;

/** Everything that is kept between jobs so that an edit costs only what it touches. One thread, any number of jobs. */
export class Machine {
  readonly #shelf = new CheckShelf();
  readonly #trees = new TreeShelf();
  readonly #sweeps = new Map<string, PairSweep>();
  #prepared: { key: string; check: PreparedCheck } | null = null;

  /** Ready for the sweep, in every powertrain pose or in one. Throws InputError. */
  prepare(document: SceneDocument, meshFiles: ReadonlyMap<string, Solid>, onlyPose?: string): PreparedCheck {
    const meshes = [...meshFiles].map(([file, solid]) => [file, solidHash(solid)]);
    const key = JSON.stringify([document, meshes, onlyPose]);
    if (this.#prepared?.key !== key) {
      this.#prepared = { key, check: prepareCheck(resolveScene(document), meshFiles, this.#shelf, onlyPose) };
    }
    return this.#prepared.check;
  }

  /** Sweeps this machine's share of the pairs: nearest first. Throws StoppedError when stopped. */
  async sweepShare(prepared: PreparedCheck, share: Share, watch: Watch): Promise<IndexedSweep[]> {
    const mine = nearestFirst(prepared)
      .map((index) => ({ planned: prepared.pairs[index]!, index }))
      .filter(({ index }) => index % share.of === share.index);
    const done: IndexedSweep[] = [];
    let breathed = performance.now();
    for (const { planned, index } of mine) {
      const key = fingerprint(planned);
      let sweep = this.#sweeps.get(key);
      if (!sweep) {
        if (performance.now() - breathed > BREATH_MS) {
          await watch.breathe();
          breathed = performance.now();
        }
        if (watch.isStopped()) throw new StoppedError();
        sweep = this.#sweep(planned, watch);
      }
      // set anew on every use: what was used longest ago stands first and goes first
      this.#sweeps.delete(key);
      this.#sweeps.set(key, sweep);
      done.push([index, sweep]);
      watch.onProgress({ pairsDone: done.length, pairsTotal: mine.length }, done);
    }
    for (const key of this.#sweeps.keys()) {
      if (this.#sweeps.size <= KEPT_SWEEPS) break;
      this.#sweeps.delete(key);
    }
    return done;
  }

  #sweep({ sweep, first, second }: PlannedPair, watch: Watch): PairSweep {
    const isCancelled = () => watch.isStopped();
    return untilStopped(() => sweepPair(this.#trees, first, second, sweep, { isCancelled }));
  }

  /** The whole check on this thread. */
  async check(prepared: PreparedCheck, sceneName: string, watch: Watch): Promise<CheckResult> {
    const sweeps = await this.sweepShare(prepared, { index: 0, of: 1 }, watch);
    return concludeCheck(prepared, sweeps, sceneName);
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
      const swept = this.#sweeps.get(fingerprint(planned))?.byVariant.find(({ pose }) => pose === variant.pose);
      const worst = { ...variant, ...motionsOf(variant, swept?.share) };
      return worstPatch(this.#trees, first, second, sweep, worst, swept?.travel_mm ?? 0, options);
    }
    const { travel_mm } = at;
    const poseOf = (motion: Motion) => poseOfMotion(motion, travel_mm, new Float64Array(POSE_SIZE));
    const motions = motionsOf(variant, at.share);
    return contactPatch(this.#trees, first, second, sweep, poseOf(motions.a), poseOf(motions.b), options);
  }

  /** Drops finished sweeps but keeps solids and trees. */
  forgetSweeps(): void {
    this.#sweeps.clear();
  }
}

function untilStopped<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw error instanceof SweepStopped ? new StoppedError() : error;
  }
}
