import type { ShapeBuilder } from "../context.ts";
import { frustum } from "../frustum.ts";

/** A frustum with flat ends; either diameter may be zero. */
export const cone: ShapeBuilder<"cone"> = (shape, context) =>
  frustum(shape.from, shape.to, shape.fromDiameter_mm / 2, shape.toDiameter_mm / 2, context);
