import { type Extent, extentOf } from "./bound.ts";
import { type Ball, clipOutside } from "./excuse.ts";
import { buildTree, type CollisionTree, createPointQuery, createSurfacePoint, refitTree } from "./kernel.ts";
import type { SweepBody } from "./types.ts";

/** A body ready to be measured. */
export interface PreparedBody {
  readonly tree: CollisionTree;
  readonly extent: Extent;
}

/** A body without the surface that joints excuse. */
export interface ClippedBody {
  readonly whole: PreparedBody;
  /** The surface that counts; the whole one if the excuses touch none of it. */
  readonly counted: CollisionTree;
  /** excuse.ts: a corner of each connected piece of the surface that counts; null if all of it does. */
  readonly farthest: Float64Array | null;
}

/** Trees are kept up to this many triangles in all: some 400 MB at worst. */
const KEPT_TRIANGLES = 3_000_000;

/**
 * Trees by the content of their bodies, and trees of what joints leave of them: made when first asked for, kept for the
 * next sweep, dropped longest unused first.
 */
export class TreeShelf {
  private readonly whole = new Map<string, PreparedBody>();
  private readonly clipped = new Map<string, ClippedBody>();
  /** By the bodies' keys, what each was when it was prepared last. */
  private readonly latest = new Map<string, string>();

  /** A body that was drawn anew with the same triangles gets the tree of its last drawing, refitted. */
  prepare(body: SweepBody): PreparedBody {
    const prepared = recall(this.whole, body.content, () => {
      const before = this.whole.get(this.latest.get(body.key) ?? "")?.tree;
      const refitted = before ? refitTree(before, body.solid) : null;
      const made = { tree: refitted ?? buildTree(body.solid), extent: extentOf(body.solid.positions) };
      this.makeRoom(made.tree.triangleCount);
      return made;
    });
    this.latest.set(body.key, body.content);
    return prepared;
  }

  /** The body less the surface within the balls, which are given in its design position. */
  clip(body: SweepBody, balls: readonly Ball[]): ClippedBody {
    const whole = this.prepare(body);
    const places = balls.map(({ centre, radius_mm }) => `${centre.join(",")}:${radius_mm}`);
    return recall(this.clipped, `${body.content}|${places.sort().join("|")}`, () => {
      const clipped = touches(whole.tree, balls) ? clipOutside(body.solid, balls) : null;
      if (clipped === null) return { whole, counted: whole.tree, farthest: null };
      const counted = buildTree(clipped.solid);
      this.makeRoom(counted.triangleCount);
      return { whole, counted, farthest: clipped.farthest };
    });
  }

  private makeRoom(triangles: number): void {
    let kept = triangles;
    for (const { tree } of this.whole.values()) kept += tree.triangleCount;
    for (const { counted } of this.clipped.values()) kept += counted.triangleCount;
    for (const shelf of [this.clipped, this.whole]) {
      for (const [name, item] of shelf) {
        if (kept <= KEPT_TRIANGLES) return;
        shelf.delete(name);
        kept -= "tree" in item ? item.tree.triangleCount : item.counted.triangleCount;
      }
    }
  }
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
