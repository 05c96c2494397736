import type { Carried, IndexedSweep } from "./machine.ts";

type Conclude = (sweeps: readonly IndexedSweep[], carried: readonly Carried[]) => Promise<void>;

/**
 * Gathers from every worker of a check what an edit may have changed, and what is carried over it; once all have told, and
 * while something is left to be swept, they are concluded together.
 */
export class VerdictGathering {
  /** The whole check is there: nobody waits for these any more. */
  isOver = false;
  readonly #sweeps: IndexedSweep[] = [];
  readonly #carried: Carried[] = [];
  readonly #conclude: Conclude;
  #awaited: number;

  constructor(workers: number, conclude: Conclude) {
    this.#awaited = workers;
    this.#conclude = conclude;
  }

  readonly take = (sweeps: readonly IndexedSweep[], carried: readonly Carried[]): void => {
    this.#awaited--;
    this.#sweeps.push(...sweeps);
    this.#carried.push(...carried);
    if (this.#awaited > 0 || this.#carried.length === 0 || this.isOver) return;
    // where it fails the check itself fails too, and tells
    this.#conclude(this.#sweeps, this.#carried).catch(() => {});
  };
}
