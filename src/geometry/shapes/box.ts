import { scale } from "../../maths/vec3.ts";
import { type ShapeBuilder, shapeError } from "../context.ts";
import { CAR_FRAME, pointIn } from "../frame.ts";
import { MeshBuilder } from "../meshBuilder.ts";
import { roundedBlock } from "../roundedBlock.ts";
import type { Solid } from "../solid.ts";

/** `size_mm` over all, about its centre. Sharp boxes are exact. */
export const box: ShapeBuilder<"box"> = (shape, context) => {
  const half = scale(shape.size_mm, 0.5);
  const edge_mm = shape.edge_mm ?? 0;
  if (edge_mm === 0) return sharpBox(half);
  const thinnest_mm = Math.min(...shape.size_mm);
  if (2 * edge_mm > thinnest_mm) {
    throw shapeError(
      context,
      "edge_mm",
      `an edge radius of ${edge_mm} mm does not fit on a box that is ${thinnest_mm} mm thin`,
      `at most ${thinnest_mm / 2} mm`,
    );
  }
  return roundedBlock(
    CAR_FRAME,
    [half[0] - edge_mm, half[1] - edge_mm, half[2] - edge_mm],
    edge_mm,
    context.tessellation_mm,
  );
};

function sharpBox([hx, hy, hz]: readonly [number, number, number]): Solid {
  const mesh = new MeshBuilder();
  const ring = (z: number) =>
    mesh.ring([
      pointIn(CAR_FRAME, hx, hy, z),
      pointIn(CAR_FRAME, -hx, hy, z),
      pointIn(CAR_FRAME, -hx, -hy, z),
      pointIn(CAR_FRAME, hx, -hy, z),
    ]);
  const [bottom, top] = [ring(-hz), ring(hz)];
  mesh.band(bottom, top);
  mesh.cap([...bottom].reverse());
  mesh.cap(top);
  return mesh.convexSolid();
}
