import type { Pose } from "../maths/pose.ts";
import type { ConvexOverlap } from "./convex.ts";
import { createPointQuery, createSurfacePoint, type PointQuery } from "./distancePoint.ts";
import { createInsideQuery, type InsideQuery } from "./inside.ts";
import type { CollisionTree } from "./tree.ts";

/** Triangles are cut until samples lie this close; where that finds next to nothing, once more at the finer spacing. */
const SPACING_mm = 2;
const FINE_SPACING_mm = 0.25;
const NEXT_TO_NOTHING_mm = 0.1;

export interface SampledDepth {
  /**
   * Deepest point of either surface inside the other body: depth, the point and the nearest point of the surface it has
   * to come out of. Depth 0 and nothing else set if no sample is inside.
   */
  deepest(relative: Pose, inverse: Pose, out: ConvexOverlap): void;
}

export function createSampledDepth(a: CollisionTree, b: CollisionTree): SampledDepth {
  const ofA = new SurfaceInBody(a, b);
  const ofB = new SurfaceInBody(b, a);
  return {
    deepest(relative, inverse, out) {
      out.depth_mm = 0;
      for (const spacing_mm of [SPACING_mm, FINE_SPACING_mm]) {
        if (out.depth_mm >= NEXT_TO_NOTHING_mm) return;
        ofA.search(inverse, spacing_mm, out.depth_mm);
        if (ofA.depth_mm > out.depth_mm) takeSampleOfA(ofA, relative, out);
        ofB.search(relative, spacing_mm, out.depth_mm);
        if (ofB.depth_mm > out.depth_mm) takeSampleOfB(ofB, out);
      }
    },
  };
}

/** The sample lies on A; both points are known in B's axes. */
function takeSampleOfA(found: SurfaceInBody, relative: Pose, out: ConvexOverlap): void {
  out.depth_mm = found.depth_mm;
  for (let row = 0; row < 3; row++) {
    const x = relative[4 * row]!;
    const y = relative[4 * row + 1]!;
    const z = relative[4 * row + 2]!;
    const shift = relative[4 * row + 3]!;
    out.pointA[row] = x * found.sample[0]! + y * found.sample[1]! + z * found.sample[2]! + shift;
    out.pointB[row] = x * found.exit[0]! + y * found.exit[1]! + z * found.exit[2]! + shift;
    out.partingOfA[row] = (out.pointB[row]! - out.pointA[row]!) / out.depth_mm;
  }
}

/** The sample lies on B; both points are known in A's axes. */
function takeSampleOfB(found: SurfaceInBody, out: ConvexOverlap): void {
  out.depth_mm = found.depth_mm;
  for (let k = 0; k < 3; k++) {
    out.pointA[k] = found.exit[k]!;
    out.pointB[k] = found.sample[k]!;
    out.partingOfA[k] = (found.sample[k]! - found.exit[k]!) / out.depth_mm;
  }
}

/**
 * The point of one surface that lies deepest in another body. Depth changes by no more than the way between two points,
 * so a node or triangle around a point of known depth is dropped when its radius cannot lead below the best so far.
 */
class SurfaceInBody {
  depth_mm = 0;
  /** Deepest sample and the nearest point of the body's surface, in the body's design axes. */
  readonly sample = new Float64Array(3);
  readonly exit = new Float64Array(3);
  private readonly surface: CollisionTree;
  private readonly nearest: PointQuery;
  private readonly inside: InsideQuery;
  private readonly near = createSurfacePoint();
  private readonly nodes: number[] = [];
  private readonly pending: number[] = [];
  private pose: Pose = new Float64Array(12);

  constructor(surface: CollisionTree, body: CollisionTree) {
    this.surface = surface;
    this.nearest = createPointQuery(body);
    this.inside = createInsideQuery(body);
  }

  /** `pose` takes the surface's design position into the body's; only what is deeper than `atLeast_mm` is told. */
  search(pose: Pose, spacing_mm: number, atLeast_mm: number): void {
    const { surface, nodes } = this;
    const { boxes, radius, right, first, count } = surface;
    this.pose = pose;
    this.depth_mm = atLeast_mm;
    if (surface.nodeCount > 0) nodes.push(0);
    while (nodes.length > 0) {
      const node = nodes.pop()!;
      const box = 6 * node;
      if (!this.mayBeDeeper(boxes[box]!, boxes[box + 1]!, boxes[box + 2]!, radius[node]!, false)) continue;
      if (right[node] !== 0) {
        nodes.push(right[node]!, node + 1);
        continue;
      }
      for (let i = first[node]!; i < first[node]! + count[node]!; i++) this.searchTriangle(9 * i, spacing_mm);
    }
  }

  private searchTriangle(at: number, spacing_mm: number): void {
    const { pending } = this;
    for (let k = 0; k < 9; k++) pending.push(this.surface.triangles[at + k]!);
    while (pending.length > 0) {
      const t = pending.splice(pending.length - 9, 9);
      const centre = [0, 1, 2].map((k) => (t[k]! + t[3 + k]! + t[6 + k]!) / 3);
      const [x, y, z] = [centre[0]!, centre[1]!, centre[2]!];
      const reach = [0, 3, 6].map((k) => Math.hypot(t[k]! - x, t[k + 1]! - y, t[k + 2]! - z));
      const radius = Math.max(...reach);
      if (!this.mayBeDeeper(x, y, z, radius, true)) continue;
      if (radius > spacing_mm / 2) {
        pushHalves(t, pending);
        continue;
      }
      for (let k = 0; k < 9; k += 3) this.mayBeDeeper(t[k]!, t[k + 1]!, t[k + 2]!, 0, true);
    }
  }

  /** Whether a ball around a point may reach deeper than the best so far; takes the point as the best if it is on the surface. */
  private mayBeDeeper(x: number, y: number, z: number, radius: number, onSurface: boolean): boolean {
    const { pose, near, nearest, inside, depth_mm } = this;
    const px = pose[0]! * x + pose[1]! * y + pose[2]! * z + pose[3]!;
    const py = pose[4]! * x + pose[5]! * y + pose[6]! * z + pose[7]!;
    const pz = pose[8]! * x + pose[9]! * y + pose[10]! * z + pose[11]!;
    if (!inside.isInside(px, py, pz)) {
      return radius > depth_mm && nearest.nearest(px, py, pz, radius - depth_mm, near);
    }
    nearest.nearest(px, py, pz, Number.POSITIVE_INFINITY, near);
    if (onSurface && near.distance_mm > depth_mm) {
      this.depth_mm = near.distance_mm;
      this.sample[0] = px;
      this.sample[1] = py;
      this.sample[2] = pz;
      this.exit.set(near.point);
    }
    return near.distance_mm + radius > this.depth_mm;
  }
}

/** Cuts a triangle across its longest edge. */
function pushHalves(t: readonly number[], into: number[]): void {
  let from = 0;
  let longest = -1;
  for (let corner = 0; corner < 3; corner++) {
    const p = 3 * corner;
    const q = 3 * ((corner + 1) % 3);
    const edge = Math.hypot(t[p]! - t[q]!, t[p + 1]! - t[q + 1]!, t[p + 2]! - t[q + 2]!);
    if (edge <= longest) continue;
    longest = edge;
    from = corner;
  }
  const p = t.slice(3 * from, 3 * from + 3);
  const q = t.slice(3 * ((from + 1) % 3), 3 * ((from + 1) % 3) + 3);
  const r = t.slice(3 * ((from + 2) % 3), 3 * ((from + 2) % 3) + 3);
  const middle = p.map((value, k) => (value + q[k]!) / 2);
  into.push(...p, ...middle, ...r, ...middle, ...q, ...r);
}
