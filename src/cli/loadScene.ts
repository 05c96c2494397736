import { readFile, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import type { Solid } from "../geometry/solid.ts";
import { readyMesh } from "../scans/readyMesh.ts";
import type { SceneDocument } from "../scene/document.ts";
import { InputError } from "../scene/error.ts";
import { meshFilesOf } from "../scene/meshFiles.ts";
import { readScene, SCENE_SIZE_LIMIT_BYTES } from "../scene/read.ts";
import { resolveScene } from "../scene/resolve.ts";

export interface LoadedScene {
  readonly name: string;
  readonly document: SceneDocument;
  readonly meshFiles: ReadonlyMap<string, Solid>;
}

/** Reads a scene and the mesh files that it names, which lie in its folder. Throws InputError naming the file. */
export async function loadScene(path: string): Promise<LoadedScene> {
  const text = await readText(path);
  const document = readScene(text, path);
  // before any file is opened that the scene names: this refuses paths that leave its folder
  resolveScene(document, path);
  const meshFiles = new Map<string, Solid>();
  for (const mesh of meshFilesOf(document)) {
    const { file, path: place } = mesh;
    const bytes = await readFile(join(dirname(path), file)).catch((error: NodeJS.ErrnoException) => {
      throw new InputError(
        "mesh",
        { file: path, path: place },
        `cannot read "${file}" (${error.code})`,
        "a mesh file beside the scene",
      );
    });
    meshFiles.set(file, await readyMesh(bytes, file, mesh));
  }
  return { name: basename(path), document, meshFiles };
}

async function readText(path: string): Promise<string> {
  try {
    const { size } = await stat(path);
    if (size > SCENE_SIZE_LIMIT_BYTES) {
      throw new InputError(
        "too-large",
        { file: path },
        `the file has ${size} bytes`,
        `at most ${SCENE_SIZE_LIMIT_BYTES}`,
      );
    }
    return await readFile(path, "utf8");
  } catch (error) {
    if (error instanceof InputError) throw error;
    const code = (error as NodeJS.ErrnoException).code ?? "unknown";
    const why = code === "ENOENT" ? "there is no such file" : `cannot be read (${code})`;
    throw new InputError("unreadable", { file: path }, why, "a scene file, such as scenes/NAME.json");
  }
}
