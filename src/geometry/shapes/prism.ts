import { cross, type Vec3 } from "../../maths/vec3.ts";
import { type ShapeBuilder, shapeError } from "../context.ts";
import { convexPolygons } from "../convexPolygons.ts";
import { type Frame, pointIn } from "../frame.ts";
import { cloudOf, MeshBuilder } from "../meshBuilder.ts";
import { outlineArea, type Point2, tidyOutline, triangulateOutline } from "../outline.ts";

/** A plate: the outline less its holes, grown by the thickness along u×v. Exact. */
export const prism: ShapeBuilder<"prism"> = (shape, context) => {
  const outline = tidyOutline(shape.outline, true);
  const holes = shape.holes.map((hole) => tidyOutline(hole, false));
  for (const [i, ring] of [outline, ...holes].entries()) {
    if (ring.length < 3 || outlineArea(ring) === 0) {
      throw shapeError(
        context,
        i === 0 ? "outline" : `holes[${i - 1}]`,
        "it encloses no area",
        "three corners or more",
      );
    }
  }
  const triangles = triangulateOutline(outline, holes);
  if (!triangles) {
    throw shapeError(
      context,
      holes.length > 0 ? "holes" : "outline",
      holes.length > 0
        ? "the outline or a hole crosses itself, or a hole leaves the plate"
        : "the outline crosses itself",
      "outlines that cross neither themselves nor each other",
    );
  }

  const frame: Frame = { origin: shape.origin, x: shape.u, y: shape.v, z: cross(shape.u, shape.v) };
  const points: Point2[] = [outline, ...holes].flat();
  const at = (z: number) => points.map(([u, v]): Vec3 => pointIn(frame, u, v, z));
  const [lower, upper] = [at(0), at(shape.thickness_mm)];
  const mesh = new MeshBuilder();
  const bottom = mesh.ring(lower);
  const top = mesh.ring(upper);
  for (const [a, b, c] of triangles) {
    mesh.triangle(top[a]!, top[b]!, top[c]!);
    mesh.triangle(bottom[a]!, bottom[c]!, bottom[b]!);
  }
  let first = 0;
  for (const { length } of [outline, ...holes]) {
    mesh.band(bottom.slice(first, first + length), top.slice(first, first + length));
    first += length;
  }
  const pick = (from: readonly Vec3[], polygon: readonly number[]) => polygon.map((i) => from[i]!);
  return mesh.solid(
    convexPolygons(triangles, points).map((polygon) => cloudOf(pick(lower, polygon), pick(upper, polygon))),
  );
};
