/** Pairs and trees that a board has places for; a check with more goes without one. */
const PAIRS = 16_384;
const TREES = 16_384;

const FREE = 0;
const BEGUN = 1;
const DONE = 2;

/**
 * Who does what of one check, on memory that several threads share: each pair is swept by one of them, each tree made by
 * one of them. All number pairs and trees alike, since all prepare the same scene.
 */
export class CheckBoard {
  readonly memory: Int32Array;

  constructor(memory: Int32Array = new Int32Array(PAIRS + TREES)) {
    this.memory = memory;
  }

  static shared(): CheckBoard {
    return new CheckBoard(new Int32Array(new SharedArrayBuffer(4 * (PAIRS + TREES))));
  }

  holds(pairs: number, trees: number): boolean {
    return pairs <= PAIRS && trees <= TREES;
  }

  /** True for the first who asks. */
  takePair(pair: number): boolean {
    return this.take(pair);
  }

  isPairTaken(pair: number): boolean {
    return Atomics.load(this.memory, pair) !== FREE;
  }

  /** True for the first who asks: it is to make the tree and to say so. */
  takeTree(tree: number): boolean {
    return this.take(PAIRS + tree);
  }

  treeIsMade(tree: number): void {
    Atomics.store(this.memory, PAIRS + tree, DONE);
  }

  isTreeMade(tree: number): boolean {
    return Atomics.load(this.memory, PAIRS + tree) === DONE;
  }

  private take(place: number): boolean {
    return Atomics.compareExchange(this.memory, place, FREE, BEGUN) === FREE;
  }
}
