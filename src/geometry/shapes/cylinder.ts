import type { ShapeBuilder } from "../context.ts";
import { frustum } from "../frustum.ts";

/** Flat ends at `from` and `to`. */
export const cylinder: ShapeBuilder<"cylinder"> = (shape, context) =>
  frustum(shape.from, shape.to, shape.diameter_mm / 2, shape.diameter_mm / 2, context);
