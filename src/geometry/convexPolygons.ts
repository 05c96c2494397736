import { type Point2, twiceArea } from "./outline.ts";

/**
 * Joins triangles that share sides into convex polygons, at most four times as many as the fewest possible (S. Hertel,
 * K. Mehlhorn, "Fast triangulation of simple polygons", 1983; cited from memory). Indices counter-clockwise.
 */
export function convexPolygons(
  triangles: readonly (readonly [number, number, number])[],
  points: readonly Point2[],
): number[][] {
  const polygons = new Set<number[]>();
  const ownerOf = new Map<string, number[]>();
  const own = (polygon: number[]) => {
    polygons.add(polygon);
    for (const [i, a] of polygon.entries()) ownerOf.set(`${a},${polygon[(i + 1) % polygon.length]!}`, polygon);
  };
  for (const triangle of triangles) own([...triangle]);
  for (const triangle of triangles) {
    for (let side = 0; side < 3; side++) {
      const [a, b] = [triangle[side]!, triangle[(side + 1) % 3]!];
      const left = ownerOf.get(`${a},${b}`);
      const right = ownerOf.get(`${b},${a}`);
      if (!left || !right || left === right) continue;
      const joined = join(left, right, a, b);
      if (!isConvex(joined, points)) continue;
      polygons.delete(left);
      polygons.delete(right);
      ownerOf.delete(`${a},${b}`);
      ownerOf.delete(`${b},${a}`);
      own(joined);
    }
  }
  return [...polygons];
}

/** The union of two polygons across the side that runs a → b in the left one. */
function join(left: readonly number[], right: readonly number[], a: number, b: number): number[] {
  const fromB = rotated(left, b); // b … a
  const fromA = rotated(right, a); // a … b
  return [...fromB, ...fromA.slice(1, -1)];
}

function rotated(polygon: readonly number[], first: number): number[] {
  const at = polygon.indexOf(first);
  return [...polygon.slice(at), ...polygon.slice(0, at)];
}

function isConvex(polygon: readonly number[], points: readonly Point2[]): boolean {
  const n = polygon.length;
  if (new Set(polygon).size < n) return false;
  return polygon.every((corner, i) => {
    const [a, b, c] = [points[polygon[(i + n - 1) % n]!]!, points[corner]!, points[polygon[(i + 1) % n]!]!];
    return twiceArea(a, b, c) >= -1e-9 * Math.hypot(b[0] - a[0], b[1] - a[1]) * Math.hypot(c[0] - b[0], c[1] - b[1]);
  });
}
