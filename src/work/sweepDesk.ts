import type { Carried, IndexedSweep } from "./machine.ts";

/** What one machine tells of its part of a check. */
export interface SweepNews {
  readonly sweeps: readonly IndexedSweep[];
  /** Pairs that it has not swept yet. */
  readonly carried: readonly Carried[];
  /** It has nothing more to tell. */
  readonly isLast: boolean;
}

/** Where the sweeps of one check come together from all machines. */
class CheckDesk {
  readonly sweeps: IndexedSweep[] = [];
  readonly #swept = new Set<number>();
  readonly #carried = new Map<number, number>();
  #ended = 0;
  #onEnd: () => void = () => {};
  #pairs = Number.NaN;
  #onCovered: ((carried: readonly Carried[]) => void) | null = null;

  put({ sweeps, carried, isLast }: SweepNews): void {
    for (const sweep of sweeps) {
      this.sweeps.push(sweep);
      this.#swept.add(sweep[0]);
      this.#carried.delete(sweep[0]);
    }
    for (const [pair, least_mm] of carried) if (!this.#swept.has(pair)) this.#carried.set(pair, least_mm);
    if (isLast) {
      this.#ended++;
      this.#onEnd();
    }
    this.#lookIfCovered();
  }

  whenCovered(pairs: number, onCovered: (carried: readonly Carried[]) => void): void {
    this.#pairs = pairs;
    this.#onCovered = onCovered;
    this.#lookIfCovered();
  }

  async ended(machines: number): Promise<void> {
    while (this.#ended < machines) {
      await new Promise<void>((resolve) => {
        this.#onEnd = resolve;
      });
    }
  }

  #lookIfCovered(): void {
    if (this.#swept.size + this.#carried.size !== this.#pairs || this.#carried.size === 0) return;
    this.#onCovered?.([...this.#carried]);
    this.#onCovered = null;
  }
}

/** The desks of the checks that a pool is at, by their jobs. */
export class SweepDesks {
  readonly #desks = new Map<number, CheckDesk>();
  readonly #isStopped: (job: number) => boolean;

  constructor(isStopped: (job: number) => boolean) {
    this.#isStopped = isStopped;
  }

  put(job: number, news: SweepNews): void {
    // nobody will ask for these any more
    for (const known of this.#desks.keys()) if (this.#isStopped(known)) this.#desks.delete(known);
    if (!this.#isStopped(job)) this.#of(job).put(news);
  }

  /**
   * Calls back once, when the sweeps of the job and what is carried beside them come to so many pairs; never where nothing is
   * carried.
   */
  whenCovered(job: number, pairs: number, onCovered: (carried: readonly Carried[]) => void): void {
    this.#of(job).whenCovered(pairs, onCovered);
  }

  soFar(job: number): readonly IndexedSweep[] {
    return this.#of(job).sweeps;
  }

  /** All sweeps of the job, once so many machines have told their last; they are not kept after that. */
  async all(job: number, machines: number): Promise<readonly IndexedSweep[]> {
    const desk = this.#of(job);
    await desk.ended(machines);
    this.#desks.delete(job);
    return desk.sweeps;
  }

  #of(job: number): CheckDesk {
    const desk = this.#desks.get(job) ?? new CheckDesk();
    this.#desks.set(job, desk);
    return desk;
  }
}
