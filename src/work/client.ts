import { proxy, wrap } from "comlink";
import type { CheckResult } from "../check/result.ts";
import type { MachineShell } from "./machine.worker.ts";
import { stoppedError, unwrap, WorkError } from "./outcome.ts";
import type { CheckProgress, Job, Workshop } from "./protocol.ts";

/** More workers than this gain nothing: each prepares the scene for itself. */
const MOST_WORKERS = 4;

interface Hand {
  readonly shell: MachineShell;
  /** Rejects when the worker dies; never resolves. */
  readonly dead: Promise<never>;
  /** Ends the worker; what was asked of it rejects with a WorkError. */
  dismiss(why: string): void;
}

/** A stopped worker that has not taken notice after this is in one long step: it is replaced rather than waited for. */
const STOP_PATIENCE_MS = 500;

/**
 * The pool of workers behind the app. A worker that fails for a reason of its own, or that is deaf to a stop, is replaced
 * when it is next needed; its job is tried once more on the new one and then rejects with WorkError.
 */
export function createWorkshop(size = poolSize()): Workshop {
  const hands: (Hand | null)[] = Array.from({ length: size }, () => null);
  let lastJob = 0;

  function handAt(place: number): Hand {
    const hand = hands[place] ?? hire();
    hands[place] = hand;
    return hand;
  }

  function hire(): Hand {
    const worker = new Worker(new URL("./machine.worker.ts", import.meta.url), { type: "module" });
    let die: (error: WorkError) => void = () => {};
    const dead = new Promise<never>((_, reject) => {
      die = reject;
    });
    dead.catch(() => {});
    const hand: Hand = {
      shell: shellOf(worker),
      dead,
      dismiss(why) {
        worker.terminate();
        die(new WorkError(why));
        const place = hands.indexOf(hand);
        if (place >= 0) hands[place] = null;
      },
    };
    worker.onerror = (event) => {
      event.preventDefault();
      hand.dismiss(event.message || "a worker stopped");
    };
    return hand;
  }

  function start<T>(work: (job: number) => Promise<T>): Job<T> {
    const job = ++lastJob;
    let stop: () => void = () => {};
    const stopping = new Promise<never>((_, reject) => {
      stop = () => {
        for (const hand of hands) if (hand) void stopOn(hand, job);
        reject(stoppedError());
      };
    });
    stopping.catch(() => {});
    const tried = work(job).catch((error: unknown) => {
      if (error instanceof WorkError) return work(job);
      throw error;
    });
    return { done: Promise.race([tried, stopping]), stop };
  }

  async function stopOn(hand: Hand, job: number): Promise<void> {
    const patience = setTimeout(() => hand.dismiss("a worker did not stop when asked"), STOP_PATIENCE_MS);
    try {
      await ask(hand, (shell) => shell.stop(job));
    } catch (error) {
      if (!(error instanceof WorkError)) throw error;
    } finally {
      clearTimeout(patience);
    }
  }

  /** What a worker answers, or its death. */
  function ask<T>(hand: Hand, call: (shell: MachineShell) => T | Promise<T>): Promise<T> {
    return Promise.race([call(hand.shell), hand.dead]);
  }

  const lead = (): Hand => handAt(0);

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
          hands.map((_, index) =>
            ask(handAt(index), (shell) =>
              shell.sweep(job, document, files, { index, of: hands.length }, report(index)),
            ),
          ),
        );
        const sweeps = parts.flatMap(unwrap);
        return unwrap(await ask(lead(), (shell) => shell.conclude(document, files, sweeps, document.title)));
      }),

    patch: (request, files) =>
      start(async (job) => unwrap(await ask(handAt(hands.length - 1), (shell) => shell.patch(job, request, files)))),
  };
}

function poolSize(): number {
  return Math.max(1, Math.min(MOST_WORKERS, (navigator.hardwareConcurrency || 2) - 1));
}

/** Every method of the shell answers with a promise already, so its far side looks the same from here. */
function shellOf(worker: Worker): MachineShell {
  return wrap<MachineShell>(worker) as unknown as MachineShell;
}
