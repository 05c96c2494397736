import { distance, type Vec3 } from "../maths/vec3.ts";
import { type ShapeContext, shapeError } from "./context.ts";
import { frameBetween, pointIn } from "./frame.ts";
import { MeshBuilder } from "./meshBuilder.ts";
import { cornerRadius, regularRing, sidesForSag } from "./roundness.ts";
import type { Solid } from "./solid.ts";

/** The right circular frustum between two flat ends; a radius of zero makes that end a point. Convex. */
export function frustum(
  from: Vec3,
  to: Vec3,
  fromRadius_mm: number,
  toRadius_mm: number,
  context: ShapeContext,
): Solid {
  const length_mm = distance(from, to);
  if (length_mm === 0) throw shapeError(context, "to", "`from` and `to` are the same point", "two different points");
  if (fromRadius_mm === 0 && toRadius_mm === 0) {
    throw shapeError(context, "fromDiameter_mm", "both diameters are zero", "at least one above zero");
  }
  const frame = frameBetween(from, to);
  const sides = sidesForSag(Math.max(fromRadius_mm, toRadius_mm), context.tessellation_mm);
  const mesh = new MeshBuilder();
  const ring = (radius_mm: number, z_mm: number): number[] =>
    radius_mm === 0
      ? new Array<number>(sides).fill(mesh.vertex(pointIn(frame, 0, 0, z_mm)))
      : mesh.ring(regularRing(frame, cornerRadius(radius_mm, sides), sides, z_mm));
  const bottom = ring(fromRadius_mm, 0);
  const top = ring(toRadius_mm, length_mm);
  mesh.band(bottom, top);
  mesh.cap([...bottom].reverse());
  mesh.cap(top);
  return mesh.convexSolid();
}
