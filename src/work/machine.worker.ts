import { expose } from "comlink";
import { concludeCheck, type PreparedCheck } from "../check/check.ts";
import type { ModelBody } from "../check/model.ts";
import type { CheckResult } from "../check/result.ts";
import type { ContactPatch } from "../clearance/types.ts";
import { importMesh } from "../geometry/importMesh.ts";
import type { Solid } from "../geometry/solid.ts";
import type { SceneDocument } from "../scene/document.ts";
import { type IndexedSweep, Machine, type Share, type Watch } from "./machine.ts";
import type { MeshNames, MeshOrder } from "./meshStore.ts";
import { type Outcome, outcomeOf, StoppedError } from "./outcome.ts";
import type { CheckProgress, PatchRequest } from "./protocol.ts";
import { inSharedMemory } from "./sharedMemory.ts";
import { Signals } from "./signals.ts";

const machine = new Machine();
const meshes = new Map<string, Solid>();
let place = 0;
let signals = new Signals();
let areShared = false;

/** The worker's side of the pool: thin shells over the plain functions of machine.ts. Every job carries a number of its own. */
const shell = {
  /** The first call. `memory`: of the pool's signals, where memory is shared. */
  join(atPlace: number, memory: Int32Array | null): void {
    place = atPlace;
    areShared = memory !== null;
    if (memory) signals = new Signals(memory);
  },

  /** Keeps the mesh under its name; answers with it where memory is shared. */
  importMesh({ name, bytes, file, unit }: MeshOrder): Promise<Outcome<Solid | null>> {
    return outcomeOf(() =>
      signals.keeping(place, async () => {
        const solid = await importMesh(bytes, file, unit);
        meshes.set(name, areShared ? inSharedMemory(solid) : solid);
        return areShared ? meshes.get(name)! : null;
      }),
    );
  },

  takeMesh(name: string, solid: Solid): void {
    meshes.set(name, solid);
  },

  dropMesh(name: string): void {
    meshes.delete(name);
  },

  build(job: number, document: SceneDocument, names: MeshNames): Promise<Outcome<readonly ModelBody[]>> {
    return during(job, document, names, async ({ bodies }) => bodies);
  },

  sweep(
    job: number,
    document: SceneDocument,
    names: MeshNames,
    share: Share,
    onProgress: (progress: CheckProgress) => void,
  ): Promise<Outcome<IndexedSweep[]>> {
    return during(job, document, names, (prepared, watch) => {
      const tell = everyWhile(PROGRESS_EVERY_MS);
      const showSoFar = everyWhile(SO_FAR_EVERY_MS);
      return machine.sweepShare(prepared, share, {
        ...watch,
        onProgress(progress, done) {
          if (showSoFar()) onProgress({ ...progress, soFar: concludeCheck(prepared, done, document.title) });
          else if (progress.pairsDone === progress.pairsTotal || tell()) onProgress(progress);
        },
      });
    });
  },

  conclude(
    job: number,
    document: SceneDocument,
    names: MeshNames,
    sweeps: readonly IndexedSweep[],
  ): Promise<Outcome<CheckResult>> {
    return during(job, document, names, async (prepared) => concludeCheck(prepared, sweeps, document.title));
  },

  patch(job: number, request: PatchRequest, names: MeshNames): Promise<Outcome<ContactPatch>> {
    return during(job, request.document, names, async (prepared, watch) =>
      machine.patch(prepared, request, watch.isStopped),
    );
  },

  /** Where memory is not shared. Takes effect at the job's next breath, some ten milliseconds later. */
  stop(job: number): void {
    signals.stop(job);
  },
};

export type MachineShell = typeof shell;

expose(shell);

/** Works on the prepared scene unless the job is stopped before that. */
function during<T>(
  job: number,
  document: SceneDocument,
  names: MeshNames,
  work: (prepared: PreparedCheck, watch: Watch) => Promise<T>,
): Promise<Outcome<T>> {
  // at once: what was given is kept for this call
  const solids = new Map([...names].map(([file, name]) => [file, meshes.get(name)!]));
  const isStopped = () => signals.isStopped(job);
  return outcomeOf(async () => {
    await breathe();
    if (isStopped()) throw new StoppedError();
    const prepared = await signals.keeping(place, () => machine.prepare(document, solids));
    if (isStopped()) throw new StoppedError();
    return work(prepared, { onProgress() {}, isStopped, breathe });
  });
}

/** A turn of the event loop without the clamp that timers have, so that messages can come in. */
function breathe(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

const PROGRESS_EVERY_MS = 60;
const SO_FAR_EVERY_MS = 300;

/** True at most once in so many milliseconds, not at once. */
function everyWhile(interval_ms: number): () => boolean {
  let last = performance.now();
  return () => {
    const now = performance.now();
    if (now - last < interval_ms) return false;
    last = now;
    return true;
  };
}
