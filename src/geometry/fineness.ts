import { cross, dot, length, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Shape } from "../scene/scene.ts";
import { type ShapeContext, shapeError } from "./context.ts";
import { sidesForSag } from "./roundness.ts";

/** A shape of more takes seconds to draw and a check of minutes; what is drawn so fine is a slip in a size or a tessellation. */
const MOST_TRIANGLES = 250_000;

/**
 * Refuses, before it is drawn, a shape that would take more triangles than are of use: a ball of many metres to a hundredth of a
 * millimetre. Estimated from the sides that its rounds need. Throws InputError naming the shape.
 */
export function refuseTooFine(shape: Shape, context: ShapeContext): void {
  const { tessellation_mm } = context;
  const triangles = trianglesOf(shape, tessellation_mm);
  if (triangles <= MOST_TRIANGLES) return;
  const wrong = `drawn to ${tessellation_mm} mm it takes some ${triangles.toPrecision(1)} triangles`;
  throw shapeError(context, "", wrong, `at most ${MOST_TRIANGLES}: a smaller size, or a coarser tessellation_mm`);
}

function trianglesOf(shape: Shape, tessellation_mm: number): number {
  const ball = (diameter_mm: number) => sidesForSag(diameter_mm / 2, tessellation_mm) ** 2;
  switch (shape.kind) {
    case "sphere":
    case "capsule":
      return ball(shape.diameter_mm);
    case "box":
      return shape.edge_mm ? ball(2 * shape.edge_mm) : 12;
    case "hull":
      return shape.spheres.reduce((sum, { diameter_mm }) => sum + ball(diameter_mm), 2 * shape.points.length);
    case "torus": {
      const [centre_mm, section_mm] = [shape.diameter_mm / 2, shape.section_mm / 2];
      const sides = sidesForSag(section_mm, tessellation_mm / 2);
      return 2 * sides * sidesForSag(centre_mm + section_mm, tessellation_mm / 2);
    }
    case "tube": {
      const { path, bend_mm, diameter_mm } = shape;
      const steps = bend_mm === null ? 0 : sidesForSag(bend_mm + diameter_mm / 2, 0.3 * tessellation_mm);
      const rings = path.reduce((sum, _, i) => sum + 1 + Math.ceil((turnAt(path, i) / (2 * Math.PI)) * steps), 0);
      return 2 * rings * sidesForSag(diameter_mm / 2, 0.4 * tessellation_mm);
    }
    default:
      return 0;
  }
}

function turnAt(path: readonly Vec3[], i: number): number {
  const [before, here, after] = [path[i - 1], path[i], path[i + 1]];
  if (!before || !here || !after) return 0;
  const [into, out] = [subtract(here, before), subtract(after, here)];
  return Math.atan2(length(cross(into, out)), dot(into, out));
}
