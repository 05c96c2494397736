import type { PreparedCheck } from "../check/check.ts";
import type { Ball } from "../clearance/excuse.ts";
import { ballsOf, pollOf, type SweepOptions } from "../clearance/sweep.ts";
import { clippingOf, type TreeShelf } from "../clearance/sweepShelf.ts";
import type { SweepBody } from "../clearance/types.ts";

/** A tree that pairs need: of a whole body, or of what balls leave of it. */
interface NeededTree {
  readonly body: SweepBody;
  readonly balls: readonly Ball[];
  readonly clipping: string | null;
}

/**
 * The trees that the pairs of a check need, which the shelf keeps for them, each with a number that is the same wherever the
 * check is prepared.
 */
export class PairTrees {
  private readonly needed: NeededTree[] = [];
  private readonly wholes: readonly (readonly number[])[];
  private readonly clippings: readonly (readonly number[])[];
  private readonly shelf: TreeShelf;
  /** By number: whether it was seen on the shelf. */
  private readonly isThere: Uint8Array;

  constructor({ pairs }: PreparedCheck, shelf: TreeShelf) {
    const numbers = new Map<string, Map<string | null, number>>();
    const numberOf = (body: SweepBody, balls: readonly Ball[]): number => {
      const ofBody = numbers.get(body.content) ?? new Map<string | null, number>();
      numbers.set(body.content, ofBody);
      const clipping = balls.length > 0 ? clippingOf(balls) : null;
      const number = ofBody.get(clipping) ?? this.needed.push({ body, balls, clipping }) - 1;
      ofBody.set(clipping, number);
      return number;
    };
    this.wholes = pairs.map(({ first, second }) => [numberOf(first, []), numberOf(second, [])]);
    this.clippings = pairs.map(({ first, second, sweep: { excuses } }) =>
      excuses.length === 0
        ? []
        : [numberOf(first, ballsOf(excuses, "centreInA")), numberOf(second, ballsOf(excuses, "centreInB"))],
    );
    this.shelf = shelf;
    shelf.keepFor(this.needed.map(({ body, clipping }) => ({ content: body.content, clipping })));
    this.isThere = new Uint8Array(this.needed.length);
  }

  get count(): number {
    return this.needed.length;
  }

  /** Trees of the pair that are not on the shelf: of whole bodies first, then, when those are there, what is cut from them. */
  missing(pair: number): number[] {
    const isMissing = (tree: number): boolean => !this.has(tree);
    const wholes = this.wholes[pair]!.filter(isMissing);
    return wholes.length > 0 ? wholes : this.clippings[pair]!.filter(isMissing);
  }

  /** Puts the tree on the shelf. Throws SweepStopped if cancelled. */
  make(tree: number, options: SweepOptions): void {
    const { body, balls } = this.needed[tree]!;
    this.shelf.clip(body, balls, pollOf(options));
  }

  private has(tree: number): boolean {
    if (this.isThere[tree] === 0) {
      const { body, clipping } = this.needed[tree]!;
      if (this.shelf.has(body.content, clipping)) this.isThere[tree] = 1;
    }
    return this.isThere[tree] === 1;
  }
}
