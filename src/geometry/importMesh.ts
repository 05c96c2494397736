import { InputError } from "../scene/error.ts";
import type { LengthUnit } from "../scene/meshFiles.ts";
import { shortQuote } from "../scene/path.ts";
import { checkTriangleCount, MeshTooLarge, MOST_BYTES, meshFault } from "./import/meshFault.ts";
import type { ReadShare } from "./import/readShare.ts";
import { shellsOf } from "./shells.ts";
import type { Solid } from "./solid.ts";
import { weld } from "./weld.ts";

const MILLIMETRES: Readonly<Record<LengthUnit, number>> = { mm: 1, cm: 10, m: 1000, in: 25.4 };

/**
 * Reads a mesh file (STL, OBJ, PLY, GLB; by the name's ending) whose numbers are in `unit`: vertices welded, triangles
 * without area dropped, sorted into shells, closed shells facing outward. STL, OBJ and PLY are taken as drawn in the
 * car's axes; GLB has its own, which are turned into the car's. Throws InputError `mesh` naming the file.
 */
export async function importMesh(bytes: Uint8Array, fileName: string, unit: LengthUnit): Promise<Solid> {
  return shellsOf(weldRead(await readTriangles(bytes, fileName, unit), fileName));
}

/** Three corners a triangle, 9 coordinates in mm, as the file has them. What `onShare` throws ends it. Throws InputError `mesh` naming the file. */
export async function readTriangles(
  bytes: Uint8Array,
  fileName: string,
  unit: LengthUnit,
  onShare?: ReadShare,
): Promise<Float32Array> {
  if (bytes.length > MOST_BYTES) {
    const wanted = `at most ${MOST_BYTES}: thin the mesh out first`;
    throw new MeshTooLarge(fileName, `the file has ${bytes.length} bytes`, wanted);
  }
  const corners = await readCorners(bytes, fileName, onShare);
  checkTriangleCount(corners.length / 9, fileName);
  const positions = new Float32Array(corners.length);
  for (let i = 0; i < corners.length; i++) {
    positions[i] = corners[i]! * MILLIMETRES[unit];
    if (!Number.isFinite(positions[i]!)) {
      throw meshFault(
        fileName,
        `triangle ${Math.floor(i / 9) + 1} has a coordinate that is not a number`,
        "finite numbers",
      );
    }
  }
  return positions;
}

/** Corners in one place become one vertex; triangles without area and second copies go. Throws InputError where none is left. */
export function weldRead(corners: Float32Array, fileName: string): Pick<Solid, "positions" | "indices"> {
  const mesh = weld(corners);
  if (mesh.indices.length === 0) throw meshFault(fileName, "it holds no triangles with an area", "a mesh of triangles");
  return mesh;
}

/** The readers are fetched only when a file of their kind is met. */
async function readCorners(
  bytes: Uint8Array,
  fileName: string,
  onShare: ReadShare | undefined,
): Promise<Float32Array | Float64Array> {
  const ending = /\.([^.]*)$/.exec(fileName)?.[1]?.toLowerCase();
  const told = new Telling(onShare);
  const tell = (share: number) => told.tell(share);
  try {
    switch (ending) {
      case "stl":
        return (await import("./import/readStl.ts")).readStl(bytes, fileName, tell);
      case "obj":
        return (await import("./import/readObj.ts")).readObj(bytes, fileName, tell);
      case "ply":
        return (await import("./import/readPly.ts")).readPly(bytes, fileName, tell);
      case "glb":
        return await (await import("./import/readGlb.ts")).readGlb(bytes, fileName, tell);
    }
  } catch (error) {
    if (error instanceof InputError || told.hasThrown(error)) throw error;
    throw meshFault(
      fileName,
      "it is damaged, or made in a way that is not known here",
      "a whole STL, OBJ, PLY or GLB file",
    );
  }
  throw meshFault(
    fileName,
    `${shortQuote(`.${ending ?? ""}`)} is no mesh format known here`,
    "an STL, OBJ, PLY or GLB file",
  );
}

/** Knows what the one who is told throws, to end the reading, from what a bad file makes a reader throw. */
class Telling {
  readonly #onShare: ReadShare | undefined;
  #thrown: { readonly error: unknown } | null = null;

  constructor(onShare: ReadShare | undefined) {
    this.#onShare = onShare;
  }

  tell(share: number): void {
    try {
      this.#onShare?.(share);
    } catch (error) {
      this.#thrown = { error };
      throw error;
    }
  }

  hasThrown(error: unknown): boolean {
    return this.#thrown !== null && this.#thrown.error === error;
  }
}
