import { concludeCheck, type KnownSweep, prepareCheck } from "../check/check.ts";
import type { CheckResult } from "../check/result.ts";
import { SweepStopped, sweepPair } from "../clearance/sweep.ts";
import { TreeShelf } from "../clearance/sweepShelf.ts";
import type { Solid } from "../geometry/solid.ts";
import type { SceneDocument } from "../scene/document.ts";
import { resolveScene } from "../scene/resolve.ts";
import type { Scene } from "../scene/scene.ts";
import { StudyStopped } from "./stopped.ts";

/** The whole check of a document on this thread: what proves a place that a study found. Throws InputError and StudyStopped. */
export function fullCheck(
  document: SceneDocument,
  meshFiles: ReadonlyMap<string, Solid>,
  sceneName: string,
  isCancelled: () => boolean = () => false,
): CheckResult {
  return sceneCheck(resolveScene(document), meshFiles, sceneName, isCancelled);
}

/** The same of a scene that no document tells, such as one with a link's adjuster turned. */
export function sceneCheck(
  scene: Scene,
  meshFiles: ReadonlyMap<string, Solid>,
  sceneName: string,
  isCancelled: () => boolean = () => false,
): CheckResult {
  const prepared = prepareCheck(scene, meshFiles);
  const trees = new TreeShelf();
  const sweeps = prepared.pairs.map(({ first, second, sweep }, i): [number, KnownSweep] => {
    try {
      return [i, sweepPair(trees, first, second, sweep, { isCancelled })];
    } catch (error) {
      throw error instanceof SweepStopped ? new StudyStopped() : error;
    }
  });
  return concludeCheck(prepared, sweeps, sceneName);
}
