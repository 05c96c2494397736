import { proxy, wrap } from "comlink";
import type { CheckResult } from "../check/result.ts";
import type { MachineShell } from "./machine.worker.ts";
import { stoppedError, unwrap, WorkError } from "./outcome.ts";
import type { CheckProgress, Job, Workshop } from "./protocol.ts";

/** More workers than this gain nothing: each prepares the scene for itself. */
const MOST_WORKERS = 4;

interface Hand {
  readonly worker: Worker;
  readonly shell: MachineShell;
  /** Rejects when the worker dies; never resolves. */
  readonly dead: Promise<never>;
}

/** The pool of workers behind the app. A worker that fails for a reason of its own is replaced, its job rejects with WorkError. */
export function createWorkshop(size = poolSize()): Workshop {
  const hands: Hand[] = Array.from({ length: size }, () => hire());
  let lastJob = 0;

  function hire(): Hand {
    const worker = new Worker(new URL("./machine.worker.ts", import.meta.url), { type: "module" });
    let die: (error: Error) => void = () => {};
    const dead = new Promise<never>((_, reject) => {
      die = reject;
    });
    dead.catch(() => {});
    const hand: Hand = { worker, shell: shellOf(worker), dead };
    worker.onerror = (event) => {
      event.preventDefault();
      die(new WorkError(event.message || "a worker stopped"));
      dismiss(hand);
    };
    return hand;
  }

  function dismiss(hand: Hand): void {
    hand.worker.terminate();
    const place = hands.indexOf(hand);
    if (place >= 0) hands[place] = hire();
  }

  function start<T>(work: (job: number) => Promise<T>): Job<T> {
    const job = ++lastJob;
    let stop: () => void = () => {};
    const stopping = new Promise<never>((_, reject) => {
      stop = () => {
        for (const { shell } of hands) void shell.stop(job);
        reject(stoppedError());
      };
    });
    stopping.catch(() => {});
    return { done: Promise.race([work(job), stopping]), stop };
  }

  /** What a worker answers, or its death. */
  function ask<T>(hand: Hand, call: (shell: MachineShell) => Promise<T>): Promise<T> {
    return Promise.race([call(hand.shell), hand.dead]);
  }

  const lead = (): Hand => hands[0]!;

  return {
    build: (document, files) => start(async () => unwrap(await ask(lead(), (shell) => shell.build(document, files)))),

    check: (document, files, onProgress) =>
      start(async (job): Promise<CheckResult> => {
        const shares: CheckProgress[] = hands.map(() => ({ pairsDone: 0, pairsTotal: 0 }));
        const report = (index: number) =>
          proxy((progress: CheckProgress) => {
            shares[index] = progress;
            const { soFar } = progress;
            onProgress({
              ...(soFar && index === 0 ? { soFar } : {}),
              pairsDone: shares.reduce((sum, share) => sum + share.pairsDone, 0),
              pairsTotal: shares.reduce((sum, share) => sum + share.pairsTotal, 0),
            });
          });
        const parts = await Promise.all(
          hands.map((hand, index) =>
            ask(hand, (shell) => shell.sweep(job, document, files, { index, of: hands.length }, report(index))),
          ),
        );
        const sweeps = parts.flatMap(unwrap);
        return unwrap(await ask(lead(), (shell) => shell.conclude(document, files, sweeps, document.title)));
      }),

    patch: (request, files) =>
      start(async (job) => unwrap(await ask(hands.at(-1)!, (shell) => shell.patch(job, request, files)))),
  };
}

function poolSize(): number {
  return Math.max(1, Math.min(MOST_WORKERS, (navigator.hardwareConcurrency || 2) - 1));
}

/** Every method of the shell answers with a promise already, so its far side looks the same from here. */
function shellOf(worker: Worker): MachineShell {
  return wrap<MachineShell>(worker) as unknown as MachineShell;
}
