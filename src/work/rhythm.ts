import type { OnStudyProgress } from "./protocol.ts";

/** Between two tellings of how far a job is. */
export const PROGRESS_EVERY_MS = 60;

/** A turn of the event loop without the clamp that timers have, so that messages can come in. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

/** True at most once in so many milliseconds, not at once. */
export function everyWhile(interval_ms: number): () => boolean {
  let last = performance.now();
  return () => {
    const now = performance.now();
    if (now - last < interval_ms) return false;
    last = now;
    return true;
  };
}

/** Tells the first progress at once, and the others only as often as an eye follows. */
export function nowAndThen(onProgress: OnStudyProgress): OnStudyProgress {
  const isTime = everyWhile(PROGRESS_EVERY_MS);
  let isFirst = true;
  return (progress) => {
    if (isTime() || isFirst || progress.done === progress.total) onProgress(progress);
    isFirst = false;
  };
}
