import type { Solid } from "../geometry/solid.ts";
import { type Extent, extentOf } from "./bound.ts";
import { type Ball, clipOutside } from "./excuse.ts";
import { clipLeaves } from "./excuseLeaves.ts";
import {
  buildTree,
  type CollisionTree,
  createPointQuery,
  createSurfacePoint,
  type Poll,
  refitTree,
  releaseTree,
} from "./kernel.ts";
import type { Surface } from "./surface.ts";
import { bytesOf, maskTree } from "./treeMask.ts";
import type { SweepBody } from "./types.ts";

/** A body ready to be measured. */
export interface PreparedBody {
  readonly tree: CollisionTree;
  readonly extent: Extent;
  /** A number drawn when the tree was made: what was cut out by its leaves fits no other tree of the same body. */
  readonly mark: number;
}

/** A body without the surface that joints excuse. */
export interface ClippedBody {
  readonly whole: PreparedBody;
  /** The surface that counts; the whole one if the excuses touch none of it. */
  readonly counted: Surface;
  /** excuse.ts: a corner of each connected piece of the surface that counts; null if all of it does. */
  readonly farthest: Float64Array | null;
}

/** A tree made on one shelf, as it goes to another. */
export interface MadeTree {
  readonly key: string;
  readonly content: string;
  /** What is cut out of the surface (clippingOf); null: nothing, it is the tree of the whole body. */
  readonly clipping: string | null;
  /** Null where the balls of a clipping touch nothing. */
  readonly tree: CollisionTree | null;
  /** Leaves of the whole body's tree in whose place `tree` stands, beside the others; null: it is all of the surface. */
  readonly replaced: Uint32Array | null;
  /** ClippedBody.farthest. */
  readonly farthest: Float64Array | null;
  /** PreparedBody.mark of the whole body's tree. */
  readonly mark: number;
}

/** Names a set of balls, in any order. */
export function clippingOf(balls: readonly Ball[]): string {
  const places = balls.map(({ centre, radius_mm }) => `${centre.join(",")}:${radius_mm}`);
  return places.sort().join("|");
}

/** Trees are kept up to so many bytes in all; what a kernel keeps of them comes to as much again. */
const KEPT_BYTES = 400_000_000;
/** Of them, up to so many bytes that the newest check has no use for: an undo, or a study, may come back to these. */
const SPARE_BYTES = 16_000_000;
/** What is kept is looked through each time that so large a share of the room was made: a look takes all trees. */
const LOOK_SHARE = 0.01;

/** From so many triangles on, what joints leave of a body shares the tree of all of it. */
const SHARED_FROM = 50_000;

/**
 * Trees by the content of their bodies, and trees of what joints leave of them: made when first asked for, kept for the
 * next sweep, dropped longest unused first, those that the newest check needs last, from the kernel's memory as well.
 */
export class TreeShelf {
  private readonly whole = new Map<string, PreparedBody>();
  private readonly clipped = new Map<string, ClippedBody>();
  /** By the bodies' keys, what each was when it was prepared last. */
  private readonly latest = new Map<string, string>();

  private readonly onMade: (made: MadeTree) => MadeTree;
  private readonly room: { readonly all: number; readonly spare: number };
  /** Names of the trees that the newest check needs; null: none has told. */
  private needed: ReadonlySet<string> | null = null;
  private madeSinceLook = 0;

  /**
   * `onMade` hears of every tree that is made here; what it answers is kept, so it may put the arrays elsewhere. `room`: how
   * many bytes of trees are kept in all; `spare`: how many of them the newest check need not need (keepFor).
   */
  constructor(onMade: (made: MadeTree) => MadeTree = (made) => made, room = KEPT_BYTES, spare = SPARE_BYTES) {
    this.onMade = onMade;
    this.room = { all: room, spare };
  }

  /** What the newest check needs: it stays, and little else does. */
  keepFor(needed: Iterable<Pick<MadeTree, "content" | "clipping">>): void {
    const names = new Set<string>();
    for (const { content, clipping } of needed) {
      names.add(content);
      if (clipping !== null) names.add(clippedName(content, clipping));
    }
    this.needed = names;
    this.tidy(0);
  }

  /** A body that was drawn anew with the same triangles gets the tree of its last drawing, refitted. */
  prepare(body: SweepBody, poll?: Poll): PreparedBody {
    const { key, content, solid } = body;
    const prepared = recall(this.whole, content, () => {
      const before = this.whole.get(this.latest.get(key) ?? "")?.tree;
      const refitted = before ? refitTree(before, solid, poll) : null;
      const tree = refitted ?? buildTree(solid, poll);
      const made = { key, content, clipping: null, tree, replaced: null, farthest: null, mark: Math.random() };
      return wholeOf(this.made(made));
    });
    this.latest.set(key, content);
    return prepared;
  }

  /** The body less the surface within the balls, which are given in its design position. */
  clip(body: SweepBody, balls: readonly Ball[], poll?: Poll): ClippedBody {
    const whole = this.prepare(body, poll);
    if (balls.length === 0) return { whole, counted: [whole.tree], farthest: null };
    const clipping = clippingOf(balls);
    return recall(this.clipped, clippedName(body.content, clipping), () => {
      const { key, content, solid } = body;
      const made = { key, content, clipping, mark: whole.mark, ...clippedTree(whole.tree, solid, balls, poll) };
      return clippedOf(whole, this.made(made));
    });
  }

  /** Empties the shelf, and gives back what a kernel keeps of its trees. */
  clear(): void {
    for (const { item } of this.items()) for (const tree of treesOf(item)) releaseTree(tree);
    for (const shelf of [this.clipped, this.whole, this.latest]) shelf.clear();
  }

  has(content: string, clipping: string | null): boolean {
    return clipping === null ? this.whole.has(content) : this.clipped.has(clippedName(content, clipping));
  }

  /**
   * Keeps what another shelf made. The tree of the whole body goes first: a clipping without it is not kept, nor one that
   * was cut by the leaves of a tree unlike the one that is kept here.
   */
  take(made: MadeTree): void {
    this.makeRoom(made);
    const { key, content, clipping, replaced, mark } = made;
    const whole = this.whole.get(content);
    if (clipping === null) {
      if (!whole) this.whole.set(content, wholeOf(made));
      this.latest.set(key, content);
    } else if (whole && (replaced === null || whole.mark === mark)) {
      this.clipped.set(clippedName(content, clipping), clippedOf(whole, made));
    }
  }

  private made(made: MadeTree): MadeTree {
    this.makeRoom(made);
    return this.onMade(made);
  }

  private makeRoom({ tree }: MadeTree): void {
    if (!tree) return;
    const bytes = bytesOf(tree);
    this.madeSinceLook += bytes;
    if (this.madeSinceLook >= LOOK_SHARE * this.room.all) this.tidy(bytes);
  }

  /** Drops what is beyond the room, so that so many bytes more fit in: first what is not needed, then whatever is oldest. */
  private tidy(bytes: number): void {
    this.madeSinceLook = 0;
    const items = this.items();
    const uses = new Map<CollisionTree, number>();
    for (const { item } of items) for (const tree of treesOf(item)) uses.set(tree, (uses.get(tree) ?? 0) + 1);
    const kept = { all: bytes, spare: 0 };
    const spare = new Set(this.needed ? uses.keys() : []);
    for (const { item, isNeeded } of items) if (isNeeded) for (const tree of treesOf(item)) spare.delete(tree);
    const count = (tree: CollisionTree, sign: 1 | -1): void => {
      kept.all += sign * bytesOf(tree);
      if (spare.has(tree)) kept.spare += sign * bytesOf(tree);
    };
    for (const tree of uses.keys()) count(tree, 1);
    const drop = ({ shelf, name, item }: Kept): void => {
      if (!shelf.delete(name)) return;
      for (const tree of treesOf(item)) {
        uses.set(tree, uses.get(tree)! - 1);
        if (uses.get(tree)! > 0) continue;
        count(tree, -1);
        releaseTree(tree);
      }
    };
    for (const each of items) if (!each.isNeeded && kept.spare > this.room.spare) drop(each);
    for (const each of items) if (kept.all > this.room.all) drop(each);
  }

  /** What is kept, clippings first, longest unused first. */
  private items(): Kept[] {
    return [this.clipped, this.whole].flatMap((shelf) =>
      [...shelf].map(([name, item]): Kept => ({ shelf, name, item, isNeeded: this.needed?.has(name) ?? false })),
    );
  }
}

/** A body on one of the shelves. */
interface Kept {
  readonly shelf: Map<string, unknown>;
  readonly name: string;
  readonly item: PreparedBody | ClippedBody;
  readonly isNeeded: boolean;
}

function treesOf(item: PreparedBody | ClippedBody): CollisionTree[] {
  return "tree" in item ? [item.tree] : [...new Set([item.whole.tree, ...item.counted])];
}

function wholeOf({ tree, mark }: MadeTree): PreparedBody {
  if (!tree) throw new Error("a whole body has a tree");
  return { tree, extent: extentOf(tree.solid.positions), mark };
}

function clippedOf(whole: PreparedBody, { tree, replaced, farthest }: MadeTree): ClippedBody {
  if (tree === null) return { whole, counted: [whole.tree], farthest };
  const rest = tree.nodeCount > 0 ? [tree] : [];
  const others = replaced && maskTree(whole.tree, replaced);
  return { whole, counted: others ? [others, ...rest] : rest, farthest };
}

function clippedName(content: string, clipping: string): string {
  return `${content}|${clipping}`;
}

/** What balls leave of a body, in a tree of its own or beside the rest of the whole body's. */
function clippedTree(
  whole: CollisionTree,
  solid: Solid,
  balls: readonly Ball[],
  poll: Poll | undefined,
): Pick<MadeTree, "tree" | "replaced" | "farthest"> {
  if (whole.triangleCount >= SHARED_FROM) {
    const cut = clipLeaves(whole, balls, poll);
    if (cut) return { tree: buildTree(cut.rest, poll), replaced: cut.leaves, farthest: cut.farthest };
  } else {
    const clipped = touches(whole, balls) ? clipOutside(solid, balls, poll) : null;
    if (clipped) return { tree: buildTree(clipped.solid, poll), replaced: null, farthest: clipped.farthest };
  }
  return { tree: null, replaced: null, farthest: null };
}

/** Whether any of the surface is within a ball: the tree tells it faster than a look at every triangle. */
function touches(tree: CollisionTree, balls: readonly Ball[]): boolean {
  const query = createPointQuery(tree);
  const nearest = createSurfacePoint();
  return balls.some(({ centre: [x, y, z], radius_mm }) => query.nearest(x, y, z, radius_mm, nearest));
}

/** The item of that name, made if need be, now the one used last. */
function recall<T>(shelf: Map<string, T>, name: string, make: () => T): T {
  const item = shelf.get(name) ?? make();
  shelf.delete(name);
  shelf.set(name, item);
  return item;
}
