import { POSE_SIZE, type Pose } from "../maths/pose.ts";
import { type CollisionTree, createInsideQuery, createPointQuery, createSurfacePoint } from "./kernel.ts";
import type { PreparedBody } from "./sweepShelf.ts";

/** Spacing to which a surface is searched for its deepest point, mm; finer where that is not as deep. */
const SPACING_mm = 2;
const FINEST_mm = 0.1;

/** The deepest point of a surface inside a body. */
export interface Deepest {
  /** Distance from the point to the body's surface; the search writes only what is deeper than what it finds here. */
  depth_mm: number;
  /** The point and the place of the body's surface nearest to it, both in the body's design axes. */
  readonly point: Float64Array;
  readonly nearest: Float64Array;
}

export interface DeepestSearch {
  /** `pose` brings the surface into the body's design axes. True if something deeper was found. */
  search(pose: Pose, deepest: Deepest): boolean;
}

/**
 * Searches the (open) surface of a tree for its deepest point inside a body with closed shells. Triangles are halved until
 * their edges are at most e = 2 mm, or the depth found if that is less, down to 0.1 mm; a part is left out when its
 * corners, none of whose points is farther than e/√3 from the nearest, show that nothing in it is deeper than what is
 * known (depth changes no faster than the point moves). The depth found falls short of the true one by e/√3 at most.
 */
export function createDeepestSearch(surface: CollisionTree, body: PreparedBody): DeepestSearch {
  return new TreeDeepest(surface, body);
}

class TreeDeepest implements DeepestSearch {
  private readonly surface: CollisionTree;
  private readonly body: PreparedBody;
  private readonly inside;
  private readonly points;
  private readonly found = createSurfacePoint();
  private readonly stack: Int32Array;
  private readonly corner = new Float64Array(9);
  private pose: Pose = new Float64Array(POSE_SIZE);
  private deepest: Deepest = { depth_mm: 0, point: new Float64Array(3), nearest: new Float64Array(3) };

  constructor(surface: CollisionTree, body: PreparedBody) {
    this.surface = surface;
    this.body = body;
    this.inside = createInsideQuery(body.tree);
    this.points = createPointQuery(body.tree);
    this.stack = new Int32Array(surface.depth + 2);
  }

  search(pose: Pose, deepest: Deepest): boolean {
    const { surface, stack } = this;
    const before = deepest.depth_mm;
    this.pose = pose;
    this.deepest = deepest;
    let top = 0;
    if (surface.nodeCount > 0) stack[top++] = 0;
    while (top > 0) {
      const node = stack[--top]!;
      if (!this.reaches(node)) continue;
      const second = surface.right[node]!;
      if (second !== 0) {
        stack[top++] = second;
        stack[top++] = node + 1;
        continue;
      }
      const end = surface.first[node]! + surface.count[node]!;
      for (let i = surface.first[node]!; i < end; i++) this.searchTriangle(i);
    }
    return deepest.depth_mm > before;
  }

  /** Whether the node's ball meets the body's box. */
  private reaches(node: number): boolean {
    const { boxes, radius } = this.surface;
    const { corner } = this;
    this.place(boxes[6 * node]!, boxes[6 * node + 1]!, boxes[6 * node + 2]!, 0);
    return this.outsideBox(corner[0]!, corner[1]!, corner[2]!) <= radius[node]!;
  }

  private searchTriangle(triangle: number): void {
    const { triangles } = this.surface;
    const { corner } = this;
    for (let k = 0; k < 9; k += 3) {
      const at = 9 * triangle + k;
      this.place(triangles[at]!, triangles[at + 1]!, triangles[at + 2]!, k);
    }
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = corner as unknown as number[];
    const da = this.depthAt(ax!, ay!, az!);
    const db = this.depthAt(bx!, by!, bz!);
    const dc = this.depthAt(cx!, cy!, cz!);
    this.searchPart(ax!, ay!, az!, da, bx!, by!, bz!, db, cx!, cy!, cz!, dc);
  }

  // Twelve numbers and no array: nothing is allocated on the way down.
  private searchPart(
    ax: number,
    ay: number,
    az: number,
    da: number,
    bx: number,
    by: number,
    bz: number,
    db: number,
    cx: number,
    cy: number,
    cz: number,
    dc: number,
  ): void {
    const ab = (bx - ax) ** 2 + (by - ay) ** 2 + (bz - az) ** 2;
    const bc = (cx - bx) ** 2 + (cy - by) ** 2 + (cz - bz) ** 2;
    const ca = (ax - cx) ** 2 + (ay - cy) ** 2 + (az - cz) ** 2;
    // the longest edge becomes a-b
    if (bc > ab && bc >= ca) {
      this.searchPart(bx, by, bz, db, cx, cy, cz, dc, ax, ay, az, da);
      return;
    }
    if (ca > ab) {
      this.searchPart(cx, cy, cz, dc, ax, ay, az, da, bx, by, bz, db);
      return;
    }
    const edge = Math.sqrt(ab);
    const known = this.deepest.depth_mm;
    if (Math.max(da, db, dc) + edge / Math.sqrt(3) <= known) return;
    if (edge <= Math.max(FINEST_mm, Math.min(SPACING_mm, known))) return;
    const mx = (ax + bx) / 2;
    const my = (ay + by) / 2;
    const mz = (az + bz) / 2;
    const dm = this.depthAt(mx, my, mz);
    this.searchPart(ax, ay, az, da, mx, my, mz, dm, cx, cy, cz, dc);
    this.searchPart(mx, my, mz, dm, bx, by, bz, db, cx, cy, cz, dc);
  }

  /** Depth inside the body, negative outside (no less than the true value there); notes the deepest. */
  private depthAt(x: number, y: number, z: number): number {
    const away = this.outsideBox(x, y, z);
    if (away > 0) return -away;
    const { found, deepest } = this;
    this.points.nearest(x, y, z, Number.POSITIVE_INFINITY, found);
    if (!this.inside.isInside(x, y, z)) return -found.distance_mm;
    if (found.distance_mm > deepest.depth_mm) {
      deepest.depth_mm = found.distance_mm;
      deepest.point[0] = x;
      deepest.point[1] = y;
      deepest.point[2] = z;
      deepest.nearest.set(found.point);
    }
    return found.distance_mm;
  }

  /** Distance from the body's box, 0 within it. */
  private outsideBox(x: number, y: number, z: number): number {
    const [minX, minY, minZ, maxX, maxY, maxZ] = this.body.extent as unknown as number[];
    const dx = Math.max(minX! - x, 0, x - maxX!);
    const dy = Math.max(minY! - y, 0, y - maxY!);
    const dz = Math.max(minZ! - z, 0, z - maxZ!);
    return Math.sqrt(dx * dx + dy * dy + dz * dz);
  }

  private place(x: number, y: number, z: number, at: number): void {
    const { pose, corner } = this;
    corner[at] = pose[0]! * x + pose[1]! * y + pose[2]! * z + pose[3]!;
    corner[at + 1] = pose[4]! * x + pose[5]! * y + pose[6]! * z + pose[7]!;
    corner[at + 2] = pose[8]! * x + pose[9]! * y + pose[10]! * z + pose[11]!;
  }
}
