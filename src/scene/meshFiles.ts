import type { SceneDocument, ShapeDocument } from "./document.ts";
import { InputError } from "./error.ts";
import { shortQuote } from "./path.ts";
import type { MeshRepair, MeshThinning } from "./scene.ts";

export type LengthUnit = "mm" | "cm" | "m" | "in";

/** How a mesh file is read: equal readings of equal bytes give equal meshes. */
export interface MeshReading {
  readonly unit: LengthUnit;
  readonly repair: MeshRepair | null;
  readonly thinned: MeshThinning | null;
}

export interface MeshFile extends MeshReading {
  /** Relative to the scene's folder. */
  readonly file: string;
  /** JSON path of the shape that names it first. */
  readonly path: string;
}

/**
 * The mesh files that a scene names, each once, in the order of the file. Throws InputError `mesh` where one file is
 * read in two ways: one of them must be wrong. `file` is the scene's name, for its message.
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
      const { unit, repair = null, thinned = null } = shape;
      const first = found.get(shape.file);
      if (first === undefined) {
        found.set(shape.file, { file: shape.file, unit, repair, thinned, path });
        return;
      }
      if (first.unit !== unit) {
        const wrong = `${shortQuote(shape.file)} is read in ${unit} here, in ${first.unit} at ${first.path}`;
        throw new InputError("mesh", { file, path: `${path}.unit` }, wrong, "one unit for one file");
      }
      for (const key of ["repair", "thinned"] as const) {
        if (nameOf({ repair, thinned }[key]) === nameOf(first[key])) continue;
        const wrong = `${shortQuote(shape.file)} has another ${key} here than at ${first.path}`;
        throw new InputError("mesh", { file, path: `${path}.${key}` }, wrong, "one reading for one file");
      }
    }
  }
}

/** Short text that tells readings apart. */
export function readingName({ unit, repair, thinned }: MeshReading): string {
  return [unit, nameOf(repair), nameOf(thinned)].join(" ");
}

function nameOf(part: MeshRepair | MeshThinning | null): string {
  if (part === null) return "-";
  const entries = Object.entries(part).filter(([, value]) => value !== undefined);
  return entries
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, value]) => `${key}=${value}`)
    .join(",");
}
