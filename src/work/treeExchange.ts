import { type MadeTree, TreeShelf } from "../clearance/sweepShelf.ts";
import { dropOldest } from "../maths/dropOldest.ts";
import { inSharedMemory } from "./sharedMemory.ts";

/** Bodies whose clippings are kept until the tree of the whole body comes; that of the others is not expected any more. */
const MOST_AWAITED = 64;

/** A shelf whose trees lie in shared memory, so that the shelves of other threads may keep them too. */
export class TreeExchange {
  readonly shelf: TreeShelf;
  /** By content: clippings that came before the tree of the whole body from which they are cut. */
  private readonly early = new Map<string, MadeTree[]>();

  /** `send`: to the exchange of every other thread. */
  constructor(send: (made: MadeTree) => void) {
    this.shelf = new TreeShelf((made) => {
      const shared = inSharedMemory(made);
      send(shared);
      return shared;
    });
  }

  /** Keeps what another thread sent. */
  receive(made: MadeTree): void {
    const { content, clipping } = made;
    if (clipping !== null && !this.shelf.has(content, null)) {
      this.early.set(content, [...(this.early.get(content) ?? []), made]);
      dropOldest(this.early, MOST_AWAITED);
      return;
    }
    this.shelf.take(made);
    if (clipping !== null) return;
    for (const each of this.early.get(content) ?? []) this.shelf.take(each);
    this.early.delete(content);
  }
}
