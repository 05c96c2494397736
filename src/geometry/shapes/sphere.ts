import type { ShapeBuilder } from "../context.ts";
import { CAR_FRAME } from "../frame.ts";
import { roundedBlock } from "../roundedBlock.ts";

/** About its own origin. */
export const sphere: ShapeBuilder<"sphere"> = (shape, context) =>
  roundedBlock(CAR_FRAME, [0, 0, 0], shape.diameter_mm / 2, context.tessellation_mm);
