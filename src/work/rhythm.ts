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

/** Who tells spends a tenth of the time on it at most. */
const REST_PER_TOLD = 9;

/**
 * When to tell again what takes time to make and to hear: at most once in so many milliseconds, not at once; not before the last
 * was heard and the hearer had as long for other things; and so that making it takes a tenth of the time.
 */
export class TellingPace {
  private readonly interval_ms: number;
  private next: number;
  private isHeard = true;

  constructor(interval_ms: number) {
    this.interval_ms = interval_ms;
    this.next = performance.now() + interval_ms;
  }

  isTime(): boolean {
    return this.isHeard && performance.now() >= this.next;
  }

  /** `say` makes and tells; its promise is kept once that was heard. */
  tell(say: () => unknown): void {
    const begun = performance.now();
    this.isHeard = false;
    const heard = say();
    const said = performance.now();
    this.next = Math.max(begun + this.interval_ms, said + REST_PER_TOLD * (said - begun));
    void Promise.resolve(heard).finally(() => {
      const now = performance.now();
      this.isHeard = true;
      this.next = Math.max(this.next, now + (now - begun));
    });
  }
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
