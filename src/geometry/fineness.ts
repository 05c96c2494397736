import type { Shape } from "../scene/scene.ts";
import { type ShapeContext, shapeError } from "./context.ts";
import { sidesForSag } from "./roundness.ts";
import { bendSteps, turnAt_rad } from "./shapes/tube.ts";

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
      const turns = bend_mm === null ? [] : path.slice(1, -1).map((_, i) => turnAt_rad(path, i + 1));
      const bends = turns.filter((turn_rad) => turn_rad > 0);
      const rings = bends.reduce((sum, turn_rad) => sum + bendSteps(shape, turn_rad, { tessellation_mm }), path.length);
      return 2 * rings * sidesForSag(diameter_mm / 2, 0.4 * tessellation_mm);
    }
    default:
      return 0;
  }
}
