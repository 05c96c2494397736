import { prepareCheck } from "../../check/check.ts";
import { fingerprint } from "../../check/fingerprint.ts";
import { limitName, limitsOf } from "../../check/limits.ts";
import { acceptedWhy } from "../../check/pairRules.ts";
import type { PlannedPair } from "../../check/plan.ts";
import { CheckShelf } from "../../check/shelf.ts";
import { runSides } from "../../check/tracks.ts";
import { toldVerdict } from "../../check/within.ts";
import { SweepStopped, sweepBelow } from "../../clearance/sweep.ts";
import { TreeShelf } from "../../clearance/sweepShelf.ts";
import type { PairSweep } from "../../clearance/types.ts";
import type { Solid } from "../../geometry/solid.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene } from "../../scene/scene.ts";
import { StudyStopped } from "../stopped.ts";

/** The pair that refused a document, and where it comes too close. */
export interface Refusal {
  readonly planned: PlannedPair;
  readonly swept: PairSweep;
}

/**
 * Asks one document after another whether every pair keeps what it wants and every limit holds, over the whole travel and all poses: the
 * check's own sweeps, stopped at the first pair that does not. What an alteration does not touch is asked once.
 */
export class WholeAsker {
  private readonly meshFiles: ReadonlyMap<string, Solid>;
  private readonly leaveOut: ReadonlySet<string>;
  private readonly isCancelled: () => boolean;
  private readonly shelf = new CheckShelf();
  private readonly trees = new TreeShelf();
  /** By the sweep's fingerprint. */
  private readonly known = new Map<string, PairSweep | null>();
  /** How often a pair refused: such are asked first. */
  private readonly refusals = new Map<string, number>();
  /** Names of limits that refused. */
  readonly passed = new Set<string>();
  /** Of the document that was asked last; null where it clears, or no pair refused it. */
  refusal: Refusal | null = null;

  /** `leaveOut`: pairs "a/b" and names of limits that do not count. */
  constructor(meshFiles: ReadonlyMap<string, Solid>, leaveOut: readonly string[], isCancelled: () => boolean) {
    this.meshFiles = meshFiles;
    this.leaveOut = new Set(leaveOut);
    this.isCancelled = isCancelled;
  }

  /** False too for a document whose parts cannot be made or do not go together. Throws StudyStopped. */
  clears(document: SceneDocument): boolean {
    if (this.isCancelled()) throw new StudyStopped();
    this.refusal = null;
    const scene = orNull(() => resolveScene(document));
    if (!scene || !this.keepsLimits(scene)) return false;
    const prepared = orNull(() => prepareCheck(scene, this.meshFiles, this.shelf));
    if (!prepared) return false;
    const asked = prepared.pairs
      .filter(
        ({ first, second }) =>
          !this.leaveOut.has(nameOf(first.id, second.id)) &&
          acceptedWhy(prepared.scene.clearances, first, second) === null,
      )
      .map((planned) => ({ planned, name: `${planned.first.key}/${planned.second.key}` }))
      .sort((p, q) => (this.refusals.get(q.name) ?? 0) - (this.refusals.get(p.name) ?? 0));
    for (const { planned, name } of asked) {
      const swept = this.tooClose(planned);
      if (!swept) continue;
      this.refusal = { planned, swept };
      this.refusals.set(name, (this.refusals.get(name) ?? 0) + 1);
      return false;
    }
    return true;
  }

  private keepsLimits(scene: Scene): boolean {
    const runs = orNull(() => runSides(scene));
    if (!runs) return false;
    const passed = runs
      .flatMap((run) => limitsOf(scene, run, scene.powertrain.poses))
      .filter((limit) => limit.verdict === "clash" && !this.leaveOut.has(limitName(limit)));
    for (const limit of passed) this.passed.add(limitName(limit));
    return passed.length === 0;
  }

  /** The sweep of a pair that does not keep what it wants, with its state and points as the pair itself has them; null: it does. */
  private tooClose(planned: PlannedPair): PairSweep | null {
    const print = fingerprint(planned);
    let known = this.known.get(print);
    if (known === undefined) {
      known = this.measure(planned);
      this.known.set(print, known);
    }
    return known;
  }

  private measure({ first, second, sweep, required_mm, within_mm }: PlannedPair): PairSweep | null {
    try {
      const { isCancelled } = this;
      const swept = sweepBelow(this.trees, first, second, sweep, required_mm + within_mm, { isCancelled });
      if (swept === null) return null;
      return toldVerdict(swept.clearance_mm, within_mm, required_mm) === "clear" ? null : swept;
    } catch (error) {
      throw error instanceof SweepStopped ? new StudyStopped() : error;
    }
  }
}

function orNull<T>(make: () => T): T | null {
  try {
    return make();
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

function nameOf(a: string, b: string): string {
  return `${a}/${b}`;
}
