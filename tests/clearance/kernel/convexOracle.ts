import { applyPose, type Pose } from "../../../src/maths/pose.ts";
import { cross, dot, length, normalise, scale, subtract, type Vec3 } from "../../../src/maths/vec3.ts";

export function pointsOf(cloud: ArrayLike<number>, pose?: Pose): Vec3[] {
  const points: Vec3[] = [];
  for (let k = 0; k < cloud.length; k += 3) {
    const p: Vec3 = [cloud[k]!, cloud[k + 1]!, cloud[k + 2]!];
    points.push(pose ? applyPose(pose, p) : p);
  }
  return points;
}

/** How far the first cloud reaches beyond the near side of the second along a unit direction; negative: a gap. */
export function overlapAlong(a: readonly Vec3[], b: readonly Vec3[], direction: Vec3): number {
  return Math.max(...a.map((p) => dot(p, direction))) - Math.min(...b.map((p) => dot(p, direction)));
}

/**
 * Every face of the Minkowski difference of two polytopes is square to a face normal of one of them or to an edge of each
 * (the separating-axis theorem: S. Gottschalk, M. Lin and D. Manocha, OBBTree, 1996, §5). So the smallest overlap along all of
 * these is the penetration depth, and a gap along any of them proves the two apart. Faces and edges are found by trial of
 * all triples of points: for small clouds only.
 */
export function depthBySeparatingAxes(a: readonly Vec3[], b: readonly Vec3[]): number {
  const [hullA, hullB] = [hullOf(a), hullOf(b)];
  const axes = [...hullA.normals, ...hullB.normals];
  for (const u of hullA.edges) for (const v of hullB.edges) axes.push(cross(u, v));
  let least = Number.POSITIVE_INFINITY;
  for (const axis of axes) {
    if (length(axis) < 1e-9) continue;
    const unit = normalise(axis);
    least = Math.min(least, overlapAlong(a, b, unit), overlapAlong(a, b, scale(unit, -1)));
  }
  return least;
}

function hullOf(points: readonly Vec3[]): { normals: Vec3[]; edges: Vec3[] } {
  const normals: Vec3[] = [];
  const edges: Vec3[] = [];
  for (let i = 0; i < points.length; i++) {
    for (let j = i + 1; j < points.length; j++) {
      const edge = subtract(points[j]!, points[i]!);
      let isOnHull = false;
      for (let k = 0; k < points.length; k++) {
        if (k === i || k === j) continue;
        const normal = normalise(cross(edge, subtract(points[k]!, points[i]!)));
        const sides = points.map((p) => dot(normal, subtract(p, points[i]!)));
        const slack = 1e-9 * length(edge);
        if (sides.every((side) => side <= slack) || sides.every((side) => side >= -slack)) {
          isOnHull = true;
          normals.push(normal);
        }
      }
      if (isOnHull) edges.push(normalise(edge));
    }
  }
  return { normals, edges };
}
