import { InputError } from "../scene/error.ts";
import type { MeshTooLarge } from "./import/meshFault.ts";
import type { Refusal, Solid } from "./solid.ts";

/** Stands for a mesh that is not read because it is too large: nothing, and why. */
export function refusedSolid({ file, wrong, wanted }: MeshTooLarge): Solid {
  return {
    positions: new Float32Array(0),
    indices: new Uint32Array(0),
    shells: [],
    convexPieces: null,
    refused: { file, wrong, wanted },
  };
}

/** The same meshes, for work that would be wrong where one is not there. Throws InputError `mesh` naming the file. */
export function allRead(meshFiles: ReadonlyMap<string, Solid>): ReadonlyMap<string, Solid> {
  for (const { refused } of meshFiles.values()) if (refused) throw faultOf(refused);
  return meshFiles;
}

/** What is said where the work cannot go on without the mesh. */
export function faultOf({ file, wrong, wanted }: Refusal): InputError {
  return new InputError("mesh", { file }, wrong, wanted);
}
