import type { Solid } from "../../geometry/solid.ts";
import { applyPose, invertPose, type Pose, turnByPose } from "../../maths/pose.ts";
import { dot, subtract, type Vec3 } from "../../maths/vec3.ts";

/** A plane through `at` with axes `right` and `up` in it, car coordinates; all unit vectors, square to each other. */
export interface SectionPlane {
  readonly at: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
  readonly normal: Vec3;
}

/** A place in the plane, mm to the right of and above its `at`. */
export type Flat = readonly [number, number];

/**
 * The outlines in which a solid, placed by `pose`, is cut by the plane: exact over its triangles. Closed solids give closed
 * outlines (the last point joins the first); where a scan has holes an outline may stay open and is left out.
 */
export function sliceSolid({ positions, indices }: Solid, pose: Pose, plane: SectionPlane): Flat[][] {
  const back = invertPose(pose);
  const at = applyPose(back, plane.at);
  const [normal, right, up] = [plane.normal, plane.right, plane.up].map((axis) => turnByPose(back, axis)) as [
    Vec3,
    Vec3,
    Vec3,
  ];
  const offset = dot(normal, at);
  const height = (vertex: number): number => {
    const i = vertex * 3;
    const above = normal[0] * positions[i]! + normal[1] * positions[i + 1]! + normal[2] * positions[i + 2]! - offset;
    // a vertex in the plane counts as above it, so that every outline runs through edges only
    return above === 0 ? Number.MIN_VALUE : above;
  };
  const next = new Map<number, number>();
  const places = new Map<number, Flat>();
  const most = positions.length / 3;
  const cross = (low: number, high: number): number => {
    const key = Math.min(low, high) * most + Math.max(low, high);
    if (!places.has(key)) {
      const [a, b] = [height(low), height(high)];
      const share = a / (a - b);
      const point = [0, 1, 2].map((axis) => {
        const from = positions[low * 3 + axis]!;
        return from + (positions[high * 3 + axis]! - from) * share;
      }) as unknown as Vec3;
      const from = subtract(point, at);
      places.set(key, [dot(from, right), dot(from, up)]);
    }
    return key;
  };
  for (let t = 0; t < indices.length; t += 3) {
    const corners = [indices[t]!, indices[t + 1]!, indices[t + 2]!] as const;
    const isAbove = corners.map((corner) => height(corner) > 0);
    if (isAbove[0] === isAbove[1] && isAbove[1] === isAbove[2]) continue;
    // the one corner that is alone on its side
    const alone = isAbove[0] === isAbove[1] ? 2 : isAbove[1] === isAbove[2] ? 0 : 1;
    const [a, b, c] = [corners[alone]!, corners[(alone + 1) % 3]!, corners[(alone + 2) % 3]!];
    const [ab, ac] = [cross(a, b), cross(a, c)];
    // outlines keep the solid on the same hand all the way round
    if (isAbove[alone]) next.set(ab, ac);
    else next.set(ac, ab);
  }
  return outlines(next, places);
}

function outlines(next: Map<number, number>, places: ReadonlyMap<number, Flat>): Flat[][] {
  const found: Flat[][] = [];
  while (next.size > 0) {
    const start = next.keys().next().value!;
    const outline: Flat[] = [];
    let key: number | undefined = start;
    do {
      outline.push(places.get(key)!);
      const following: number | undefined = next.get(key);
      next.delete(key);
      key = following;
    } while (key !== undefined && key !== start);
    if (key === start && outline.length > 2) found.push(outline);
  }
  return found;
}
