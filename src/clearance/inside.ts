import { Pacer, type Poll } from "../maths/poll.ts";
import { windingBySolidAngle } from "./insideSolidAngle.ts";
import type { CollisionTree } from "./tree.ts";

/** Whether points lie inside a solid: within its closed shells taken together, so a hollow counts as outside. */
export interface InsideQuery {
  /** The point is in the tree's design axes; on the surface itself either answer may come. Open shells have no inside. */
  isInside(x: number, y: number, z: number): boolean;
}

export function createInsideQuery(tree: CollisionTree, poll?: Poll): InsideQuery {
  return new TreeInside(tree, poll);
}

/** Boxes and triangles to look at before polling: some 2 ms. */
const STRETCH = 50_000;

/**
 * Ray directions without a simple relation to each other or to the axes: a ray that comes too near an edge proves
 * nothing, and the next one is tried.
 */
const DIRECTIONS = Float64Array.of(
  ...[0.13817, 0.05741, 0.98874],
  ...[0.97563, -0.19377, 0.10283],
  ...[-0.23119, 0.96817, 0.09577],
  ...[-0.61883, -0.53171, -0.57829],
  ...[0.52411, -0.68113, 0.51131],
  ...[-0.44657, 0.31873, -0.83603],
);

/** Products below this share of their factors' size have no sure sign; rounding alone reaches about 1e-15. */
const UNSURE = 1e-12;

const DEGENERATE = Number.MIN_SAFE_INTEGER;

/** Winding number: how often the surface is crossed outwards along a ray, less how often inwards. */
class TreeInside implements InsideQuery {
  private readonly tree: CollisionTree;
  private readonly isClosed: Uint8Array;
  private readonly anyClosed: boolean;
  private readonly stack: Int32Array;
  private readonly pacer: Pacer;

  constructor(tree: CollisionTree, poll: Poll | undefined) {
    this.tree = tree;
    this.pacer = new Pacer(poll, STRETCH);
    this.isClosed = Uint8Array.from(tree.solid.shells, (shell) => (shell.closed ? 1 : 0));
    this.anyClosed = tree.nodeCount > 0 && this.isClosed.includes(1);
    this.stack = new Int32Array(tree.depth + 2);
  }

  isInside(x: number, y: number, z: number): boolean {
    if (!this.anyClosed || !this.isInBox(x, y, z)) return false;
    for (let k = 0; k < DIRECTIONS.length; k += 3) {
      const winding = this.castRay(x, y, z, DIRECTIONS[k]!, DIRECTIONS[k + 1]!, DIRECTIONS[k + 2]!);
      if (winding !== DEGENERATE) return winding !== 0;
    }
    return Math.abs(windingBySolidAngle(this.tree, this.isClosed, x, y, z, this.pacer)) > 0.5;
  }

  private isInBox(x: number, y: number, z: number): boolean {
    const { boxes } = this.tree;
    return (
      Math.abs(x - boxes[0]!) <= boxes[3]! &&
      Math.abs(y - boxes[1]!) <= boxes[4]! &&
      Math.abs(z - boxes[2]!) <= boxes[5]!
    );
  }

  private castRay(x: number, y: number, z: number, dx: number, dy: number, dz: number): number {
    const { tree, stack, pacer } = this;
    const { boxes, right, first, count } = tree;
    let winding = 0;
    let top = 1;
    stack[0] = 0;
    while (top > 0) {
      const node = stack[--top]!;
      const box = 6 * node;
      // Widened, for a ray along a face of the box.
      const gx = boxes[box + 3]! * (1 + 1e-9) + 1e-9;
      const gy = boxes[box + 4]! * (1 + 1e-9) + 1e-9;
      const gz = boxes[box + 5]! * (1 + 1e-9) + 1e-9;
      const toX = (boxes[box]! - x) / dx;
      const toY = (boxes[box + 1]! - y) / dy;
      const toZ = (boxes[box + 2]! - z) / dz;
      const acrossX = gx / Math.abs(dx);
      const acrossY = gy / Math.abs(dy);
      const acrossZ = gz / Math.abs(dz);
      const enter = Math.max(toX - acrossX, toY - acrossY, toZ - acrossZ);
      const leave = Math.min(toX + acrossX, toY + acrossY, toZ + acrossZ);
      if (leave < 0 || enter > leave) continue;
      const second = right[node]!;
      if (second !== 0) {
        stack[top++] = second;
        stack[top++] = node + 1;
        continue;
      }
      pacer.spend(count[node]!);
      const end = first[node]! + count[node]!;
      for (let i = first[node]!; i < end; i++) {
        if (this.isClosed[tree.shell[i]!] === 0) continue;
        const crossing = this.crossTriangle(9 * i, x, y, z, dx, dy, dz);
        if (crossing === DEGENERATE) return DEGENERATE;
        winding += crossing;
      }
    }
    return winding;
  }

  /** 1: the ray leaves through the triangle; −1: enters; 0: misses it. */
  private crossTriangle(at: number, x: number, y: number, z: number, dx: number, dy: number, dz: number): number {
    const { triangles } = this.tree;
    const ax = triangles[at]! - x;
    const ay = triangles[at + 1]! - y;
    const az = triangles[at + 2]! - z;
    const bx = triangles[at + 3]! - x;
    const by = triangles[at + 4]! - y;
    const bz = triangles[at + 5]! - z;
    const cx = triangles[at + 6]! - x;
    const cy = triangles[at + 7]! - y;
    const cz = triangles[at + 8]! - z;
    // On which side of each edge the ray's line passes, as seen along the ray.
    const ab = dx * (ay * bz - az * by) + dy * (az * bx - ax * bz) + dz * (ax * by - ay * bx);
    const bc = dx * (by * cz - bz * cy) + dy * (bz * cx - bx * cz) + dz * (bx * cy - by * cx);
    const ca = dx * (cy * az - cz * ay) + dy * (cz * ax - cx * az) + dz * (cx * ay - cy * ax);
    const aa = Math.abs(ax) + Math.abs(ay) + Math.abs(az);
    const bb = Math.abs(bx) + Math.abs(by) + Math.abs(bz);
    const cc = Math.abs(cx) + Math.abs(cy) + Math.abs(cz);
    const sideAB = sign(ab, UNSURE * aa * bb);
    const sideBC = sign(bc, UNSURE * bb * cc);
    const sideCA = sign(ca, UNSURE * cc * aa);
    const low = Math.min(sideAB, sideBC, sideCA);
    const high = Math.max(sideAB, sideBC, sideCA);
    if (low < 0 && high > 0) return 0;
    // How far the plane lies ahead: the volume spanned by the corners as seen from the point.
    const volume = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    const ahead = sign(volume, UNSURE * aa * bb * cc);
    const outwards = low < 0 ? -1 : 1;
    if (low !== 0 && high !== 0) return ahead === outwards ? outwards : 0;
    // The line grazes an edge: that matters unless the whole triangle lies behind.
    return ax * dx + ay * dy + az * dz < 0 && bx * dx + by * dy + bz * dz < 0 && cx * dx + cy * dy + cz * dz < 0
      ? 0
      : DEGENERATE;
  }
}

function sign(value: number, unsure: number): number {
  return value > unsure ? 1 : value < -unsure ? -1 : 0;
}
