import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { assembleModel } from "../../../src/check/assemble.ts";
import { Kept } from "../../../src/check/shelf.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { sceneSchema } from "../../../src/scene/document.ts";
import { meshFilesOf } from "../../../src/scene/meshFiles.ts";
import { partsOf } from "../../../src/scene/parts/parts.ts";
import { listPoints } from "../../../src/scene/points.ts";
import { readScene } from "../../../src/scene/read.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { writeScene } from "../../../src/scene/write.ts";
import { type Door, type Handed, holds } from "../door.ts";
import { spoilt, utf8 } from "../grammar/bytes.ts";
import { TETRAHEDRON } from "../grammar/meshes.ts";
import { ofSchema } from "../grammar/ofSchema.ts";
import { spoiltTree } from "../grammar/tree.ts";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const SAVED = readFileSync(`${root}tests/fixtures/scene-version-1.json`, "utf8");
const SAMPLES = readdirSync(`${root}scenes`)
  .sort()
  .map((name) => readFileSync(`${root}scenes/${name}`, "utf8"));

const words = [
  '"points":{',
  '"__proto__":{},',
  '"constructor":1,',
  "[",
  "]",
  "{",
  "}",
  ",",
  "1e999",
  "-0",
  "NaN",
  '"',
  "\\u0000",
  "\\",
  "null,",
  '"upper.in"',
  "[[[[[[[[",
];
const json = (value: unknown) => utf8(JSON.stringify(value) ?? "");

const texts = fc.oneof(
  { weight: 3, arbitrary: spoilt([utf8(SAVED)], words) },
  { weight: 5, arbitrary: spoiltTree([JSON.parse(SAVED)]).map(json) },
  { weight: 2, arbitrary: spoiltTree(SAMPLES.map((text) => JSON.parse(text))).map(json) },
  { weight: 4, arbitrary: ofSchema(sceneSchema).map(json) },
);

/** What takes longer than is wanted here: the page can stop it at any time. */
class Enough extends Error {}

/** As in the app, what did not change from one scene to the next is not drawn anew: most shapes of a case are those of its sample. */
const shapes = new Kept<Solid>();

function cpu_ms(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

async function openScene({ file, content }: Handed): Promise<void> {
  const text = new TextDecoder().decode(content as Uint8Array);
  const document = readScene(text, file);
  holds(JSON.stringify(readScene(writeScene(document), file)) === JSON.stringify(document), "the same when read again");
  const scene = resolveScene(document, file);
  holds(Object.values(listPoints(document)).length === Object.keys(document.points).length, "every point listed");
  partsOf(document);
  const until = cpu_ms() + 500;
  try {
    const meshes = new Map(meshFilesOf(document).map((mesh) => [mesh.file, TETRAHEDRON]));
    const bodies = assembleModel(scene, meshes, shapes, () => {
      if (cpu_ms() > until) throw new Enough();
    });
    shapes.turn();
    for (const { key, solid } of bodies) holds(solid.positions.every(Number.isFinite), `${key} of finite coordinates`);
  } catch (error) {
    if (!(error instanceof Enough)) throw error;
  }
}

export const SCENE_DOORS: readonly Door[] = [
  {
    name: "scene",
    share: 260,
    ending: "json",
    cases: texts.map((content) => ({ file: "scene.json", content })),
    open: openScene,
  },
];
