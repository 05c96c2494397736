import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { SceneDocument } from "../../src/scene/document.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { Scene } from "../../src/scene/scene.ts";

export interface SceneFile {
  readonly name: string;
  readonly text: string;
  readonly document: SceneDocument;
  readonly scene: Scene;
}

const folder = fileURLToPath(new URL("../../scenes/", import.meta.url));

/** Every scene that comes with the program, by name. */
export const SCENE_FILES: readonly SceneFile[] = readdirSync(folder)
  .filter((name) => name.endsWith(".json"))
  .sort()
  .map((name) => {
    const text = readFileSync(folder + name, "utf8");
    const document = readScene(text, name);
    return { name, text, document, scene: resolveScene(document, name) };
  });

/** The scene whose file name begins so. */
export function sceneFile(start: string): SceneFile {
  const file = SCENE_FILES.find(({ name }) => name.startsWith(start));
  if (!file) throw new Error(`no scene file begins with ${start}`);
  return file;
}
