import { distance, mix } from "../../maths/vec3.ts";
import type { ShapeBuilder } from "../context.ts";
import { CAR_FRAME, frameBetween } from "../frame.ts";
import { roundedBlock } from "../roundedBlock.ts";

/** Everything within the radius of the line from `from` to `to`; of no length it is a sphere. */
export const capsule: ShapeBuilder<"capsule"> = (shape, context) => {
  const length_mm = distance(shape.from, shape.to);
  const axes = length_mm > 0 ? frameBetween(shape.from, shape.to) : CAR_FRAME;
  const frame = { ...axes, origin: mix(shape.from, shape.to, 0.5) };
  return roundedBlock(frame, [0, 0, length_mm / 2], shape.diameter_mm / 2, context.tessellation_mm);
};
