import { type Remote, releaseProxy } from "comlink";

/**
 * Ends a worker, once, and lets go of it: comlink keeps a worker for as long as somebody could still ask it through its shell, and
 * the worker's own listeners know the shell. `shell` is what `wrap` gave; whoever asks it after this gets an error.
 */
export function endWorker(worker: Worker, shell: object): void {
  worker.terminate();
  worker.onerror = null;
  (shell as Remote<unknown>)[releaseProxy]();
}
