import type { ShapeBuilder } from "../context.ts";
import { mergeSolids } from "../rearrange.ts";
import { buildRim } from "../rimSolid.ts";
import { buildTyre } from "../tyreSolid.ts";

/** Tyre and rim of the scene's wheel, where it stands at ride height. */
export const wheel: ShapeBuilder<"wheel"> = (_shape, context) =>
  mergeSolids([buildTyre(context.wheel, context.tessellation_mm), buildRim(context.wheel, context.tessellation_mm)]);
