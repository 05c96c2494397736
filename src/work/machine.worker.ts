import { expose } from "comlink";
import { concludeCheck } from "../check/check.ts";
import type { ModelBody } from "../check/model.ts";
import type { CheckResult } from "../check/result.ts";
import type { ContactPatch } from "../clearance/types.ts";
import { importMesh } from "../geometry/importMesh.ts";
import type { Solid } from "../geometry/solid.ts";
import type { SceneDocument } from "../scene/document.ts";
import { meshFilesOf } from "../scene/meshFiles.ts";
import { type IndexedSweep, Machine, type Share, type Watch } from "./machine.ts";
import { type Outcome, outcomeOf } from "./outcome.ts";
import type { CheckProgress, PatchRequest, SceneFiles } from "./protocol.ts";

const machine = new Machine();
const imported = new Map<string, { bytes: Uint8Array; solid: Solid }>();
const stopped = new Set<number>();
const running = new Set<number>();

/** The worker's side of the pool: thin shells over the plain functions of machine.ts. Every job carries a number of its own. */
const shell = {
  build(document: SceneDocument, files: SceneFiles): Promise<Outcome<readonly ModelBody[]>> {
    return outcomeOf(async () => machine.prepare(document, await solidsOf(document, files)).bodies);
  },

  sweep(
    job: number,
    document: SceneDocument,
    files: SceneFiles,
    share: Share,
    onProgress: (progress: CheckProgress) => void,
  ): Promise<Outcome<IndexedSweep[]>> {
    return during(job, async (watch) => {
      const prepared = machine.prepare(document, await solidsOf(document, files));
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
    document: SceneDocument,
    files: SceneFiles,
    sweeps: readonly IndexedSweep[],
    sceneName: string,
  ): Promise<Outcome<CheckResult>> {
    return outcomeOf(async () =>
      concludeCheck(machine.prepare(document, await solidsOf(document, files)), sweeps, sceneName),
    );
  },

  patch(job: number, request: PatchRequest, files: SceneFiles): Promise<Outcome<ContactPatch>> {
    return during(job, async () => {
      const solids = await solidsOf(request.document, files);
      return machine.patch(machine.prepare(request.document, solids), request);
    });
  },

  /** Takes effect at the job's next breath, some ten milliseconds later. */
  stop(job: number): void {
    if (running.has(job)) stopped.add(job);
  },
};

export type MachineShell = typeof shell;

expose(shell);

async function during<T>(job: number, work: (watch: Watch) => Promise<T>): Promise<Outcome<T>> {
  running.add(job);
  try {
    return await outcomeOf(() => work({ onProgress() {}, isStopped: () => stopped.has(job), breathe }));
  } finally {
    running.delete(job);
    stopped.delete(job);
  }
}

/** A turn of the event loop without the clamp that timers have, so that a stop can come in. */
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

async function solidsOf(document: SceneDocument, files: SceneFiles): Promise<ReadonlyMap<string, Solid>> {
  const solids = new Map<string, Solid>();
  for (const { file, unit } of meshFilesOf(document)) {
    const bytes = files.get(file);
    if (!bytes) continue;
    const kept = imported.get(`${unit}:${file}`);
    const solid = kept && sameBytes(kept.bytes, bytes) ? kept.solid : await importMesh(bytes, file, unit);
    imported.set(`${unit}:${file}`, { bytes, solid });
    solids.set(file, solid);
  }
  return solids;
}

function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}
