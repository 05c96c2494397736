import { Pacer, type Poll } from "../maths/poll.ts";
import { POSE_SIZE, type Pose } from "../maths/pose.ts";
import { createSurfacePoint, type PointQuery } from "./distancePoint.ts";
import { createInsideQuery, type InsideQuery } from "./inside.ts";
import { createPointQuery } from "./kernelChoice.ts";
import type { CollisionTree } from "./tree.ts";

/** What the depth found may fall short of the true one: this share of it, but no more and no less than so many mm. */
const SHORT_SHARE = 0.1;
const SHORT_MOST_mm = 1.15;
const SHORT_LEAST_mm = 0.05;

/** The deepest point of a surface inside a body. */
export interface Deepest {
  /** Distance from the point to the body's surface; a search writes only what is deeper than what it finds here. */
  depth_mm: number;
  /** The point and the place of the body's surface nearest to it, both in the body's design axes. */
  readonly point: Float64Array;
  readonly nearest: Float64Array;
}

export interface DeepestSearch {
  /** Looks where the deepest point was last, which in a state close by is a good start for any search. */
  guess(pose: Pose, deepest: Deepest): boolean;
  /** `pose` brings the surface into the body's design axes. True if something deeper was found. */
  search(pose: Pose, deepest: Deepest): boolean;
}

/**
 * Searches the (possibly open) surface of one tree for its deepest point inside the closed shells of another.
 *
 * Branch and bound over parts of the surface, each sampled at its middle m. If m is outside by d, nothing in the part, of
 * radius r, is deeper than r − d. If m is inside and q is the nearest point of the body's surface, no point p is deeper
 * than |p − q|, which over a triangle is largest at a corner. A part is left out once that bound exceeds the deepest point
 * known by no more than may be missing: a tenth of that depth, at most 1.15 mm (as samples 2 mm apart would leave,
 * 2/√3), at least 0.05 mm; else it is halved along its longest edge.
 */
export function createDeepestSearch(surface: CollisionTree, body: CollisionTree, poll?: Poll): DeepestSearch {
  return new TreeDeepest(surface, body, poll);
}

/** Points to look at before polling, some 10 to 50 µs each. */
const STRETCH = 100;

class TreeDeepest implements DeepestSearch {
  private readonly surface: CollisionTree;
  private readonly inside: InsideQuery;
  private readonly points: PointQuery;
  private readonly found = createSurfacePoint();
  private readonly stack: Int32Array;
  private readonly place = new Float64Array(9);
  private pose: Pose = new Float64Array(POSE_SIZE);
  private deepest: Deepest = { depth_mm: 0, point: new Float64Array(3), nearest: new Float64Array(3) };
  /** The triangle on which the deepest point was found last. */
  private likely = 0;
  private searched = 0;
  private readonly pacer: Pacer;

  constructor(surface: CollisionTree, body: CollisionTree, poll: Poll | undefined) {
    this.surface = surface;
    this.pacer = new Pacer(poll, STRETCH);
    this.inside = createInsideQuery(body, poll);
    this.points = createPointQuery(body);
    this.stack = new Int32Array(surface.depth + 2);
  }

  guess(pose: Pose, deepest: Deepest): boolean {
    if (this.surface.nodeCount === 0) return false;
    const before = deepest.depth_mm;
    this.pose = pose;
    this.deepest = deepest;
    this.searchTriangle(this.likely);
    return deepest.depth_mm > before;
  }

  search(pose: Pose, deepest: Deepest): boolean {
    const { surface, stack } = this;
    const { right, first, count } = surface;
    if (surface.nodeCount === 0) return false;
    const before = deepest.depth_mm;
    this.pose = pose;
    this.deepest = deepest;
    let top = 0;
    stack[top++] = 0;
    while (top > 0) {
      const node = stack[--top]!;
      if (!this.mayHoldDeeper(node)) continue;
      const second = right[node]!;
      if (second !== 0) {
        stack[top++] = second;
        stack[top++] = node + 1;
        continue;
      }
      const end = first[node]! + count[node]!;
      for (let i = first[node]!; i < end; i++) this.searchTriangle(i);
    }
    return deepest.depth_mm > before;
  }

  private mayHoldDeeper(node: number): boolean {
    const { boxes, radius } = this.surface;
    const { place, found } = this;
    this.pacer.spend(1);
    this.bring(boxes[6 * node]!, boxes[6 * node + 1]!, boxes[6 * node + 2]!, 0);
    const [x, y, z] = [place[0]!, place[1]!, place[2]!];
    const reach = radius[node]!;
    if (!this.inside.isInside(x, y, z)) return this.outsideMayBeDeeper(x, y, z, reach);
    const spare = this.enough() - reach;
    if (spare <= 0) return true;
    this.points.nearest(x, y, z, Number.POSITIVE_INFINITY, found, spare);
    return found.distance_mm > spare;
  }

  private searchTriangle(triangle: number): void {
    const { place } = this;
    const { triangles } = this.surface;
    this.searched = triangle;
    for (let k = 0; k < 9; k += 3) {
      const at = 9 * triangle + k;
      this.bring(triangles[at]!, triangles[at + 1]!, triangles[at + 2]!, k);
    }
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = place as unknown as number[];
    if (!this.partMayBeDeeper(ax!, ay!, az!, bx!, by!, bz!, cx!, cy!, cz!)) return;
    this.sample(ax!, ay!, az!);
    this.sample(bx!, by!, bz!);
    this.sample(cx!, cy!, cz!);
    this.halve(ax!, ay!, az!, bx!, by!, bz!, cx!, cy!, cz!);
  }

  // Nine numbers and no array: nothing is allocated on the way down.
  private searchPart(
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    cx: number,
    cy: number,
    cz: number,
  ): void {
    if (this.partMayBeDeeper(ax, ay, az, bx, by, bz, cx, cy, cz)) this.halve(ax, ay, az, bx, by, bz, cx, cy, cz);
  }

  private halve(
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    cx: number,
    cy: number,
    cz: number,
  ): void {
    const ab = squareOf(bx - ax, by - ay, bz - az);
    const bc = squareOf(cx - bx, cy - by, cz - bz);
    const ca = squareOf(ax - cx, ay - cy, az - cz);
    if (ab >= bc && ab >= ca) {
      const [mx, my, mz] = [(ax + bx) / 2, (ay + by) / 2, (az + bz) / 2];
      this.searchPart(ax, ay, az, mx, my, mz, cx, cy, cz);
      this.searchPart(mx, my, mz, bx, by, bz, cx, cy, cz);
    } else if (bc >= ca) {
      const [mx, my, mz] = [(bx + cx) / 2, (by + cy) / 2, (bz + cz) / 2];
      this.searchPart(bx, by, bz, mx, my, mz, ax, ay, az);
      this.searchPart(mx, my, mz, cx, cy, cz, ax, ay, az);
    } else {
      const [mx, my, mz] = [(cx + ax) / 2, (cy + ay) / 2, (cz + az) / 2];
      this.searchPart(cx, cy, cz, mx, my, mz, bx, by, bz);
      this.searchPart(mx, my, mz, ax, ay, az, bx, by, bz);
    }
  }

  private partMayBeDeeper(
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    cx: number,
    cy: number,
    cz: number,
  ): boolean {
    this.pacer.spend(1);
    const x = (ax + bx + cx) / 3;
    const y = (ay + by + cy) / 3;
    const z = (az + bz + cz) / 3;
    const square = Math.max(
      squareOf(ax - x, ay - y, az - z),
      squareOf(bx - x, by - y, bz - z),
      squareOf(cx - x, cy - y, cz - z),
    );
    if (!this.inside.isInside(x, y, z)) return this.outsideMayBeDeeper(x, y, z, Math.sqrt(square));
    const { found, points } = this;
    const enough = this.enough();
    const limit = enough * enough;
    // too large a part for any single surface point to be near all of it
    if (square >= limit) return true;
    // a surface point may be near all corners once it is this near the middle; mostly it need not be the nearest
    const near = Math.sqrt(limit - square);
    points.nearest(x, y, z, Number.POSITIVE_INFINITY, found, near);
    if (this.farthestFromFound(ax, ay, az, bx, by, bz, cx, cy, cz) <= limit) return false;
    if (found.distance_mm < near) points.nearest(x, y, z, found.distance_mm, found);
    this.takeIfDeeper(x, y, z);
    return this.farthestFromFound(ax, ay, az, bx, by, bz, cx, cy, cz) > limit;
  }

  private farthestFromFound(
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    cx: number,
    cy: number,
    cz: number,
  ): number {
    const { point } = this.found;
    const qx = point[0]!;
    const qy = point[1]!;
    const qz = point[2]!;
    return Math.max(
      squareOf(ax - qx, ay - qy, az - qz),
      squareOf(bx - qx, by - qy, bz - qz),
      squareOf(cx - qx, cy - qy, cz - qz),
    );
  }

  /** Whether something within `reach` of a point outside may be deeper than what is known. */
  private outsideMayBeDeeper(x: number, y: number, z: number, reach: number): boolean {
    const spare = reach - this.enough();
    return spare > 0 && this.points.nearest(x, y, z, spare, this.found, spare);
  }

  private sample(x: number, y: number, z: number): void {
    if (!this.inside.isInside(x, y, z)) return;
    this.points.nearest(x, y, z, Number.POSITIVE_INFINITY, this.found, this.deepest.depth_mm);
    this.takeIfDeeper(x, y, z);
  }

  /** Notes a point of the surface inside the body, whose nearest surface point was found. */
  private takeIfDeeper(x: number, y: number, z: number): void {
    const { found, deepest } = this;
    if (found.distance_mm <= deepest.depth_mm) return;
    deepest.depth_mm = found.distance_mm;
    deepest.point[0] = x;
    deepest.point[1] = y;
    deepest.point[2] = z;
    deepest.nearest.set(found.point);
    this.likely = this.searched;
  }

  /** A part in which nothing is deeper than this is not worth a closer look. */
  private enough(): number {
    const { depth_mm } = this.deepest;
    return depth_mm + Math.max(SHORT_LEAST_mm, Math.min(SHORT_MOST_mm, SHORT_SHARE * depth_mm));
  }

  private bring(x: number, y: number, z: number, at: number): void {
    const { pose, place } = this;
    place[at] = pose[0]! * x + pose[1]! * y + pose[2]! * z + pose[3]!;
    place[at + 1] = pose[4]! * x + pose[5]! * y + pose[6]! * z + pose[7]!;
    place[at + 2] = pose[8]! * x + pose[9]! * y + pose[10]! * z + pose[11]!;
  }
}

function squareOf(x: number, y: number, z: number): number {
  return x * x + y * y + z * z;
}
