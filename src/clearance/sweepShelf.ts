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

/** From so many triangles on, what joints leave of a body shares the tree of all of it. */
const SHARED_FROM = 50_000;

/**
 * Trees by the content of their bodies, and trees of what joints leave of them: made when first asked for, kept for the
 * next sweep, dropped longest unused first, from the kernel's memory as well.
 */
export class TreeShelf {
  private readonly whole = new Map<string, PreparedBody>();
  private readonly clipped = new Map<string, ClippedBody>();
  /** By the bodies' keys, what each was when it was prepared last. */
  private readonly latest = new Map<string, string>();

  private readonly onMade: (made: MadeTree) => MadeTree;
  private readonly room: number;

  /**
   * `onMade` hears of every tree that is made here; what it answers is kept, so it may put the arrays elsewhere. `room`: how
   * many bytes of trees are kept in all.
   */
  constructor(onMade: (made: MadeTree) => MadeTree = (made) => made, room = KEPT_BYTES) {
    this.onMade = onMade;
    this.room = room;
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
    for (const tree of this.trees()) releaseTree(tree);
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
    const { key, content, clipping, replaced, mark } = made;
    const whole = this.whole.get(content);
    if (clipping === null) {
      if (!whole) this.whole.set(content, wholeOf(made));
      this.latest.set(key, content);
    } else if (whole && (replaced === null || whole.mark === mark)) {
      this.clipped.set(clippedName(content, clipping), clippedOf(whole, made));
    }
    this.makeRoom(0);
  }

  private made(made: MadeTree): MadeTree {
    this.makeRoom(made.tree ? bytesOf(made.tree) : 0);
    return this.onMade(made);
  }

  private makeRoom(bytes: number): void {
    const before = this.trees();
    let kept = bytes;
    for (const tree of before) kept += bytesOf(tree);
    if (kept <= this.room) return;
    for (const shelf of [this.clipped, this.whole]) {
      for (const name of shelf.keys()) {
        shelf.delete(name);
        if (bytes + totalBytesOf(this.trees()) <= this.room) break;
      }
      if (bytes + totalBytesOf(this.trees()) <= this.room) break;
    }
    const left = this.trees();
    for (const tree of before) if (!left.has(tree)) releaseTree(tree);
  }

  private trees(): Set<CollisionTree> {
    const trees = new Set<CollisionTree>();
    for (const { tree } of this.whole.values()) trees.add(tree);
    for (const { whole, counted } of this.clipped.values())
      for (const tree of [whole.tree, ...counted]) trees.add(tree);
    return trees;
  }
}

function totalBytesOf(trees: Iterable<CollisionTree>): number {
  let total = 0;
  for (const tree of trees) total += bytesOf(tree);
  return total;
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
