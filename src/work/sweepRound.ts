import type { SweepOptions } from "../clearance/sweep.ts";
import type { CheckBoard } from "./checkBoard.ts";
import type { PairTrees } from "./pairTrees.ts";

/** Which pairs a machine sweeps: those whose number is `index` of `of`; with a board, then those that others are behind with. */
export interface Share {
  readonly index: number;
  readonly of: number;
  /** Shared by the machines of one check. */
  readonly board?: CheckBoard;
}

/** What a machine does next. */
export type Errand =
  | { readonly kind: "sweep"; readonly pair: number }
  | { readonly kind: "make"; readonly tree: number }
  | { readonly kind: "wait" }
  | { readonly kind: "end" };

/** In the queue: settled, by this machine or another. */
const SETTLED = -1;
/** A tree that another machine made is not expected any more when it has not come after so many turns of the event loop. */
const MOST_TURNS = 20;

/** What one machine has to do of a check. */
export class SweepRound {
  private readonly board: CheckBoard | null;
  private readonly trees: PairTrees;
  private readonly queue: Int32Array;
  /** All before it is settled. */
  private head = 0;
  /** By the trees that others made and that are on their way: the turn at which they were missed first. */
  private readonly missedAt = new Map<number, number>();

  /** `pairs`: numbers of the pairs it may sweep, first things first. Without a board all of them are its own. */
  constructor(pairs: readonly number[], board: CheckBoard | null, trees: PairTrees) {
    this.queue = Int32Array.from(pairs);
    this.board = board;
    this.trees = trees;
  }

  /** Pairs whose sweep is known already: this machine's from now on, unless another has them. */
  takeKnown(isKnown: (pair: number) => boolean): number[] {
    const taken: number[] = [];
    this.queue.forEach((pair, i) => {
      if (isKnown(pair) && this.take(i)) taken.push(pair);
    });
    return taken;
  }

  /** Whether the first so many pairs are swept or in other hands. */
  isPast(count: number): boolean {
    while (this.head < count && this.isSettled(this.head)) this.head++;
    return this.head >= count;
  }

  /**
   * The first pair that nobody has, or a tree to make for it; pairs that wait for a tree of another machine are passed over.
   * `turn`: how many times messages were let in so far.
   */
  next(turn: number): Errand {
    let waits = false;
    for (let i = this.head; i < this.queue.length; i++) {
      if (this.isSettled(i)) {
        if (i === this.head) this.head++;
        continue;
      }
      const pair = this.queue[i]!;
      const missing = this.board ? this.trees.missing(pair) : [];
      if (missing.length === 0) {
        if (this.take(i)) return { kind: "sweep", pair };
        continue;
      }
      const tree = missing.find((each) => this.mayMake(each, turn));
      if (tree !== undefined) return { kind: "make", tree };
      waits = true;
    }
    return waits ? { kind: "wait" } : { kind: "end" };
  }

  /** Puts a tree on the shelf and says so. Throws SweepStopped if cancelled. */
  make(tree: number, options: SweepOptions): void {
    this.trees.make(tree, options);
    this.board?.treeIsMade(tree);
  }

  /** Whether it falls to this machine: nobody makes it, or what another made is lost. */
  private mayMake(tree: number, turn: number): boolean {
    if (!this.board || this.board.takeTree(tree)) return true;
    if (!this.board.isTreeMade(tree)) return false;
    const missedAt = this.missedAt.get(tree) ?? turn;
    this.missedAt.set(tree, missedAt);
    return turn - missedAt >= MOST_TURNS;
  }

  private isSettled(place: number): boolean {
    const pair = this.queue[place]!;
    if (pair !== SETTLED && this.board?.isPairTaken(pair)) this.queue[place] = SETTLED;
    return this.queue[place] === SETTLED;
  }

  private take(place: number): boolean {
    const pair = this.queue[place]!;
    this.queue[place] = SETTLED;
    return this.board === null || this.board.takePair(pair);
  }
}
