import { ShapeUtils, Vector2 } from "three";

/** A point of a flat outline, mm. */
export type Point2 = readonly [u: number, v: number];

/** Twice the area of the triangle a, b, c; positive when it runs counter-clockwise. */
export function twiceArea(a: Point2, b: Point2, c: Point2): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

export function outlineArea(outline: readonly Point2[]): number {
  let twice = 0;
  for (const [i, a] of outline.entries()) {
    const b = outline[(i + 1) % outline.length]!;
    twice += a[0] * b[1] - b[0] * a[1];
  }
  return twice / 2;
}

/**
 * The outline run counter-clockwise (or clockwise) without a repeated end point, doubled points and points on the
 * straight line between their neighbours (within a millionth of a millimetre).
 */
export function tidyOutline(outline: readonly Point2[], counterClockwise: boolean): Point2[] {
  const tidy = [...outline];
  let removed = true;
  while (removed) {
    removed = false;
    for (let i = tidy.length - 1; i >= 0 && tidy.length > 2; i--) {
      const [before, here, after] = [tidy.at(i - 1)!, tidy[i]!, tidy[(i + 1) % tidy.length]!];
      const chord_mm = Math.hypot(after[0] - before[0], after[1] - before[1]);
      if (Math.abs(twiceArea(before, here, after)) > 1e-6 * chord_mm) continue;
      tidy.splice(i, 1);
      removed = true;
    }
  }
  return outlineArea(tidy) > 0 === counterClockwise ? tidy : tidy.reverse();
}

/**
 * Triangles (as indices into `outline` followed by the holes' points) that fill the outline less its holes, all
 * counter-clockwise, each point of the border a corner wherever it touches a triangle. Expects tidy outlines: the
 * outer one counter-clockwise, holes clockwise. Returns null when the triangles do not fill the area, which is so when
 * an outline crosses itself or a hole.
 */
export function triangulateOutline(
  outline: readonly Point2[],
  holes: readonly (readonly Point2[])[],
): [number, number, number][] | null {
  const points = [...outline, ...holes.flat()];
  const vectors = (ring: readonly Point2[]) => ring.map(([u, v]) => new Vector2(u, v));
  const raw = ShapeUtils.triangulateShape(vectors(outline), holes.map(vectors)) as [number, number, number][];
  const filled = raw.reduce((sum, [a, b, c]) => sum + Math.abs(twiceArea(points[a]!, points[b]!, points[c]!)) / 2, 0);
  const wanted = outlineArea(outline) + holes.reduce((sum, hole) => sum + outlineArea(hole), 0);
  if (!(Math.abs(filled - wanted) <= 1e-9 * outlineArea(outline))) return null;
  const wound = raw.map(([a, b, c]): [number, number, number] =>
    twiceArea(points[a]!, points[b]!, points[c]!) > 0 ? [a, b, c] : [a, c, b],
  );
  return bordersMatch(splitAtTouchingPoints(wound, points, borderEdges(outline, holes)), outline, holes);
}

/** Directed sides of the outlines as "from,to". */
function borderEdges(outline: readonly Point2[], holes: readonly (readonly Point2[])[]): Set<string> {
  const edges = new Set<string>();
  let first = 0;
  for (const ring of [outline, ...holes]) {
    for (let i = 0; i < ring.length; i++) edges.add(`${first + i},${first + ((i + 1) % ring.length)}`);
    first += ring.length;
  }
  return edges;
}

/** Ear clipping may pass over a point that lies on the straight side of a triangle: there the triangle is cut in two. */
function splitAtTouchingPoints(
  triangles: [number, number, number][],
  points: readonly Point2[],
  border: ReadonlySet<string>,
): [number, number, number][] {
  const result = [...triangles];
  for (;;) {
    const edges = new Set(result.flatMap(([a, b, c]) => [`${a},${b}`, `${b},${c}`, `${c},${a}`]));
    const split = result.findIndex((triangle, at) => {
      for (let side = 0; side < 3; side++) {
        const [a, b, c] = [triangle[side]!, triangle[(side + 1) % 3]!, triangle[(side + 2) % 3]!];
        if (border.has(`${a},${b}`) || edges.has(`${b},${a}`)) continue;
        const between = nearestBetween(points, a, b, c);
        if (between === null) continue;
        result.splice(at, 1, [a, between, c], [between, b, c]);
        return true;
      }
      return false;
    });
    if (split < 0) return result;
  }
}

/** The point on the side a–b (within 1e-6 mm), nearest to a, or null. */
function nearestBetween(points: readonly Point2[], a: number, b: number, c: number): number | null {
  const [pa, pb] = [points[a]!, points[b]!];
  const [du, dv] = [pb[0] - pa[0], pb[1] - pa[1]];
  const run = du * du + dv * dv;
  let best: number | null = null;
  let bestAlong = 1;
  for (const [i, p] of points.entries()) {
    if (i === a || i === b || i === c) continue;
    const along = ((p[0] - pa[0]) * du + (p[1] - pa[1]) * dv) / run;
    if (along > 0 && along < bestAlong && Math.abs(twiceArea(pa, pb, p)) <= 1e-6 * Math.sqrt(run)) {
      best = i;
      bestAlong = along;
    }
  }
  return best;
}

/** The triangles, if every border side belongs to one of them and every other side to two; else null. */
function bordersMatch(
  triangles: [number, number, number][],
  outline: readonly Point2[],
  holes: readonly (readonly Point2[])[],
): [number, number, number][] | null {
  const border = borderEdges(outline, holes);
  const edges = new Set<string>();
  for (const [a, b, c] of triangles) {
    for (const edge of [`${a},${b}`, `${b},${c}`, `${c},${a}`]) {
      if (edges.has(edge)) return null;
      edges.add(edge);
    }
  }
  for (const edge of border) if (!edges.has(edge)) return null;
  for (const edge of edges) {
    const [a, b] = edge.split(",");
    if (border.has(edge) === edges.has(`${b},${a}`)) return null;
  }
  return triangles;
}
