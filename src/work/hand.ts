import { transfer, wrap } from "comlink";
import { endWorker } from "./endWorker.ts";
import { nameOfLife, whenLifeEnds } from "./life.ts";
import type { MachineShell } from "./machine.worker.ts";
import { reasonOf, WorkError } from "./outcome.ts";
import type { Signals } from "./signals.ts";

/** A worker that is still at a stopped job after this is in one long step: it is replaced rather than waited for. */
const STOP_PATIENCE_MS = 500;
/** As long as this where it loads its program, or makes what the next job needs too. */
const KEEPING_PATIENCE_MS = 10_000;

/** One worker of the pool, and what it has been asked for. */
export class Hand {
  /** Every method of the shell answers with a promise already, so its far side looks the same from here. */
  readonly shell: MachineShell;
  /** Meshes it was given or is being given, by name (meshStore.ts). */
  readonly meshes = new Map<string, Promise<void>>();
  private readonly place: number;
  private readonly signals: Signals;
  private readonly areShared: boolean;
  private readonly worker: Worker;
  private readonly onGone: () => void;
  /** Its program is loaded. */
  private hasBegun = false;
  private death: WorkError | null = null;
  /** Called when the worker dies. A promise that lives as long as the worker would hold on to every answer. */
  private readonly mourners = new Set<(error: WorkError) => void>();
  /** What it has not answered yet, oldest first. */
  private readonly errands = new Set<{ readonly job: number }>();

  /** `areShared`: whether the signals are in memory that the worker sees too. */
  constructor(place: number, signals: Signals, areShared: boolean, onGone: () => void) {
    this.place = place;
    this.signals = signals;
    this.areShared = areShared;
    this.onGone = onGone;
    this.worker = new Worker(new URL("./machine.worker.ts", import.meta.url), { type: "module" });
    this.worker.onerror = (event) => {
      event.preventDefault();
      this.dismiss(event.message || "a worker stopped");
    };
    this.shell = wrap<MachineShell>(this.worker) as unknown as MachineShell;
    signals.clear(place);
    const life = nameOfLife();
    void Promise.resolve(this.shell.hire({ place, signals: areShared ? signals.memory : null, life })).then(() => {
      this.hasBegun = true;
      whenLifeEnds(life, () => this.dismiss("a worker stopped"));
    });
  }

  /** Lets two workers talk to each other past the page. */
  meet(other: Hand): void {
    const { port1, port2 } = new MessageChannel();
    void this.shell.meet(other.place, transfer(port1, [port1]));
    void other.shell.meet(this.place, transfer(port2, [port2]));
  }

  /**
   * What the worker answers. Rejects with a WorkError when it dies, or throws in the middle of the job: what that leaves behind in
   * it (memory that is full, a shelf half filled) is not worked on with.
   */
  async ask<T>(job: number, call: (shell: MachineShell) => T | Promise<T>): Promise<T> {
    const errand = { job };
    this.errands.add(errand);
    try {
      return await this.whileAlive(Promise.resolve(call(this.shell)));
    } catch (error) {
      this.dismiss(reasonOf(error));
      throw this.death;
    } finally {
      this.errands.delete(errand);
    }
  }

  /** What the promise becomes. Rejects with a WorkError when the worker dies before that. */
  async whileAlive<T>(promise: Promise<T>): Promise<T> {
    if (this.death) throw this.death;
    let mourn: (error: WorkError) => void = () => {};
    try {
      return await new Promise((resolve, reject) => {
        mourn = reject;
        this.mourners.add(mourn);
        promise.then(resolve, reject);
      });
    } finally {
      this.mourners.delete(mourn);
    }
  }

  /** Lets the worker know that the job is not wanted any more, if the signals did not do so. */
  tellStopped(job: number): void {
    if (!this.areShared) void this.shell.stop(job);
  }

  /** Ends the worker if it is deaf to the stop of a job. */
  endIfDeafTo(job: number): void {
    if (!this.isAt(job)) return;
    const asked = performance.now();
    const look = (): void => {
      if (!this.isAt(job)) return;
      const [oldest] = this.errands;
      const isUsefullyBusy = !this.hasBegun || this.signals.isKeeping(this.place);
      const isExcused = isUsefullyBusy && performance.now() - asked < KEEPING_PATIENCE_MS;
      // an earlier job that is still wanted keeps it from hearing of this one
      if (oldest?.job !== job || isExcused) setTimeout(look, STOP_PATIENCE_MS);
      else this.dismiss("a worker did not stop when asked");
    };
    setTimeout(look, STOP_PATIENCE_MS);
  }

  /** Ends the worker; what was asked of it rejects with a WorkError. */
  dismiss(why: string): void {
    if (this.death) return;
    endWorker(this.worker, this.shell);
    this.death = new WorkError(why);
    for (const mourn of this.mourners) mourn(this.death);
    this.onGone();
  }

  private isAt(job: number): boolean {
    for (const errand of this.errands) if (errand.job === job) return true;
    return false;
  }
}
