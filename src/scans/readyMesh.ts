import { MeshTooLarge } from "../geometry/import/meshFault.ts";
import { readTriangles, weldRead } from "../geometry/importMesh.ts";
import { refusedSolid } from "../geometry/refused.ts";
import type { Solid } from "../geometry/solid.ts";
import type { Poll } from "../maths/poll.ts";
import type { MeshReading } from "../scene/meshFiles.ts";
import { repaired } from "./repair.ts";
import { thinAgain } from "./thin.ts";

/**
 * A mesh file as it is checked: read, mended and thinned out as the scene says. Equal bytes and equal readings give equal
 * meshes. `poll` may throw to end it. Throws InputError `mesh` naming the file.
 */
export async function readyMesh(bytes: Uint8Array, file: string, reading: MeshReading, poll?: Poll): Promise<Solid> {
  const mesh = weldRead(await readTriangles(bytes, file, reading.unit), file);
  poll?.();
  const { solid } = repaired(mesh, reading.repair);
  poll?.();
  return reading.thinned ? thinAgain(solid, reading.thinned, file, poll) : solid;
}

/** The same; in place of a mesh that is too large one that says so (Solid.refused). */
export async function readyOrRefused(bytes: Uint8Array, file: string, reading: MeshReading): Promise<Solid> {
  try {
    return await readyMesh(bytes, file, reading);
  } catch (error) {
    if (error instanceof MeshTooLarge) return refusedSolid(error);
    throw error;
  }
}
