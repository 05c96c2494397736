import { InputError } from "../../scene/error.ts";
import { keyPath, type ShapeBuilder } from "../context.ts";

/** A mesh beside the scene, already imported. */
export const mesh: ShapeBuilder<"mesh"> = (shape, context) => {
  const solid = context.meshFiles.get(shape.file);
  if (!solid) {
    const place = { file: shape.file, path: keyPath(context, "file") };
    throw new InputError("mesh", place, "the mesh file is not there", "an STL, OBJ, PLY or GLB file beside the scene");
  }
  return solid;
};
