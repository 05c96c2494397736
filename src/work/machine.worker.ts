import { expose } from "comlink";
import { concludeCheck } from "../check/check.ts";
import type { ModelBody } from "../check/model.ts";
import type { CheckResult } from "../check/result.ts";
import type { ContactPatch, PairSweep } from "../clearance/types.ts";
import { importMesh } from "../geometry/importMesh.ts";
import type { Solid } from "../geometry/solid.ts";
import type { SceneDocument } from "../scene/document.ts";
import { meshFilesOf } from "../scene/meshFiles.ts";
import { Machine, type Share, type Watch } from "./machine.ts";
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
  ): Promise<Outcome<[number, PairSweep][]>> {
    return during(job, (watch) =>
      solidsOf(document, files).then((solids) =>
        machine.sweepShare(machine.prepare(document, solids), share, { ...watch, onProgress: throttled(onProgress) }),
      ),
    );
  },

  conclude(
    document: SceneDocument,
    files: SceneFiles,
    sweeps: readonly PairSweep[],
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

function throttled(onProgress: (progress: CheckProgress) => void): (progress: CheckProgress) => void {
  let told = 0;
  return (progress) => {
    const now = performance.now();
    if (progress.pairsDone < progress.pairsTotal && now - told < PROGRESS_EVERY_MS) return;
    told = now;
    onProgress(progress);
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
