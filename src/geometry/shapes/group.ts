import { buildSolid } from "../buildSolid.ts";
import { keyPath, type ShapeBuilder } from "../context.ts";
import { mergeSolids } from "../rearrange.ts";

/** Its parts together; they may overlap, each keeps its own shells. */
export const group: ShapeBuilder<"group"> = (shape, context) =>
  mergeSolids(shape.parts.map((part, i) => buildSolid(part, { ...context, path: keyPath(context, `parts[${i}]`) })));
