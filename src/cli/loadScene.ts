import { basename, dirname, join } from "node:path";
import { MOST_BYTES } from "../geometry/import/meshFault.ts";
import { allRead } from "../geometry/refused.ts";
import type { Solid } from "../geometry/solid.ts";
import { readyOrRefused } from "../scans/readyMesh.ts";
import type { SceneDocument } from "../scene/document.ts";
import { meshFilesOf } from "../scene/meshFiles.ts";
import { readScene, SCENE_SIZE_LIMIT_BYTES } from "../scene/read.ts";
import { resolveScene } from "../scene/resolve.ts";
import { readInput, textOf } from "./readInput.ts";

export interface LoadedScene {
  readonly name: string;
  readonly document: SceneDocument;
  readonly meshFiles: ReadonlyMap<string, Solid>;
}

/** Reads a scene and the mesh files that it names, which lie in its folder. Throws InputError naming the file. */
export async function loadScene(path: string): Promise<LoadedScene> {
  const loaded = await loadWhatCanBe(path);
  allRead(loaded.meshFiles);
  return loaded;
}

/** The same, but a mesh that is too large is told as such in its place (Solid.refused). */
export async function loadWhatCanBe(path: string): Promise<LoadedScene> {
  const text = textOf(
    await readInput(path, SCENE_SIZE_LIMIT_BYTES, {
      code: "unreadable",
      file: path,
      wanted: "a scene file, such as scenes/NAME.json",
    }),
  );
  const document = readScene(text, path);
  // before any file is opened that the scene names: this refuses paths that leave its folder
  resolveScene(document, path);
  const meshFiles = new Map<string, Solid>();
  for (const mesh of meshFilesOf(document)) {
    const { file, path: place } = mesh;
    const bytes = await readInput(join(dirname(path), file), MOST_BYTES, {
      code: "mesh",
      file: path,
      path: place,
      wanted: "a mesh file beside the scene",
    });
    meshFiles.set(file, await readyOrRefused(bytes, file, mesh));
  }
  return { name: basename(path), document, meshFiles };
}
