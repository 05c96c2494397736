import { useSyncExternalStore } from "react";
import type { StoreApi } from "zustand/vanilla";

const LETTING_GO = ["pointerup", "pointercancel", "blur"] as const;

/**
 * Whether components hear of changes at once or, while the hand pulls at something in the view, in a task of their own:
 * the picture follows the hand first, and no task holds both.
 */
class Pace {
  private isPulling = false;
  private readonly waiting = new Set<() => void>();
  private channel: MessageChannel | null = null;

  /** Until the pointer is let go, wherever that is. */
  beginPull(): void {
    if (this.isPulling) return;
    this.isPulling = true;
    for (const end of LETTING_GO) window.addEventListener(end, this.endPull, { capture: true });
  }

  /** What waits is told at once. */
  private readonly endPull = (): void => {
    this.isPulling = false;
    for (const end of LETTING_GO) window.removeEventListener(end, this.endPull, { capture: true });
    this.tell();
  };

  get pulling(): boolean {
    return this.isPulling;
  }

  /** A hook that reads a store at this pace. */
  hookFor<S>({ getState, subscribe }: Pick<StoreApi<S>, "getState" | "subscribe">): <T>(select: (state: S) => T) => T {
    const hear = (listener: () => void): (() => void) => {
      const end = subscribe(() => (this.isPulling ? this.wait(listener) : listener()));
      return () => {
        end();
        this.waiting.delete(listener);
      };
    };
    return (select) => {
      const now = () => select(getState());
      return useSyncExternalStore(hear, now, now);
    };
  }

  /** In the next task, once, however often it is asked for until then; at once where the pointer is let go before. */
  soon(work: () => void): void {
    this.wait(work);
  }

  private wait(listener: () => void): void {
    if (this.waiting.size === 0) this.tellInNextTask();
    this.waiting.add(listener);
  }

  /** Before what else waits to be done, where the browser takes an order; only the hand itself comes first. */
  private tellInNextTask(): void {
    if ("scheduler" in globalThis) void scheduler.postTask(() => this.tell(), { priority: "user-blocking" });
    else this.lineToMyself().port2.postMessage(null);
  }

  /** A message to oneself is the next task, without the clamp that timers have. */
  private lineToMyself(): MessageChannel {
    if (!this.channel) {
      this.channel = new MessageChannel();
      this.channel.port1.onmessage = () => this.tell();
    }
    return this.channel;
  }

  private tell(): void {
    const listeners = [...this.waiting];
    this.waiting.clear();
    for (const listener of listeners) listener();
  }
}

export const pace = new Pace();
