import type { SceneDocument, ShapeDocument } from "./document.ts";
import { InputError } from "./error.ts";
import { shortQuote } from "./path.ts";

export interface MeshFile {
  /** Relative to the scene's folder. */
  readonly file: string;
  readonly unit: "mm" | "cm" | "m" | "in";
  /** JSON path of the shape that names it first. */
  readonly path: string;
}

/**
 * The mesh files that a scene names, each once, in the order of the file. Throws InputError `mesh` where one file is
 * read in two units: one of them must be wrong. `file` is the scene's name, for its message.
 */
export function meshFilesOf(document: SceneDocument, file = ""): MeshFile[] {
  const found = new Map<string, MeshFile>();
  document.members.forEach(({ body }, i) => {
    if (body) collect(body, `members[${i}].body`);
  });
  document.bodies.forEach(({ shape }, i) => {
    collect(shape, `bodies[${i}].shape`);
  });
  return [...found.values()];

  function collect(shape: ShapeDocument, path: string): void {
    if (shape.kind === "group") {
      shape.parts.forEach((part, i) => {
        collect(part, `${path}.parts[${i}]`);
      });
    } else if (shape.kind === "mesh") {
      const first = found.get(shape.file);
      if (first !== undefined && first.unit !== shape.unit) {
        const wrong = `${shortQuote(shape.file)} is read in ${shape.unit} here, in ${first.unit} at ${first.path}`;
        throw new InputError("mesh", { file, path: `${path}.unit` }, wrong, "one unit for one file");
      }
      if (first === undefined) found.set(shape.file, { file: shape.file, unit: shape.unit, path });
    }
  }
}
