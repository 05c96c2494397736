import { LARGEST_LOG_BYTES } from "../../buildlog/anyLog.ts";
import { isLogText } from "../../buildlog/logfile.ts";
import { MOST_BYTES } from "../../geometry/import/meshFault.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { meshFilesOf } from "../../scene/meshFiles.ts";
import { readScene, SCENE_SIZE_LIMIT_BYTES } from "../../scene/read.ts";
import { resolveScene } from "../../scene/resolve.ts";
import { t } from "../text/text.ts";
import { matchMeshes, sortFiles } from "./sortFiles.ts";

export type Received =
  | {
      readonly kind: "scene";
      readonly document: SceneDocument;
      readonly fileName: string;
      readonly meshes: ReadonlyMap<string, Uint8Array>;
      /** Mesh files that the scene names and nobody handed in. */
      readonly missing: readonly string[];
    }
  | { readonly kind: "meshes"; readonly meshes: ReadonlyMap<string, Uint8Array> }
  /** One mesh that the open scene, which waits for none, does not name. */
  | { readonly kind: "scan"; readonly file: File }
  | { readonly kind: "log"; readonly file: File };

/**
 * Reads what was dropped or chosen: one scene with the meshes beside it, meshes for the scene that is open (`open`), or a
 * saved build log. Sizes are looked at before anything is read. `here` are mesh files that are known already.
 * Throws InputError; nothing is changed then.
 */
export async function receiveFiles(
  files: readonly File[],
  open: SceneDocument | null,
  here: ReadonlySet<string>,
): Promise<Received> {
  const { json, meshes, others } = sortFiles(files);
  const [first, second] = json;
  if (second) {
    throw new InputError(
      "wrong-format",
      { file: second.name },
      t("files.wrong.secondScene"),
      t("files.wanted.oneScene"),
    );
  }
  for (const mesh of meshes) refuseLarge(mesh, MOST_BYTES, "400 MB", t("files.wanted.smallerScan"));
  if (first) return receiveJson(first, meshes, here);
  if (meshes.length > 0 && open) return receiveMeshes(meshes, open, here);
  const [other] = others;
  // a saved log that is no JSON: its zip, or its page
  if (other && files.length === 1 && /\.(zip|html)$/i.test(other.name)) return { kind: "log", file: other };
  const [odd] = [...meshes, ...others];
  throw new InputError(
    "wrong-format",
    { file: odd?.name ?? "" },
    t(`files.wrong.${meshes.length > 0 ? "meshAlone" : "otherKind"}`),
    t("files.wanted.scene"),
  );
}

async function receiveJson(file: File, meshes: readonly File[], here: ReadonlySet<string>): Promise<Received> {
  refuseLarge(file, LARGEST_LOG_BYTES, "500 MB", t("files.wanted.sceneOrLog"));
  if (file.size > SCENE_SIZE_LIMIT_BYTES && !isLogText(await textOf(file.slice(0, 200), file.name))) {
    refuseLarge(file, SCENE_SIZE_LIMIT_BYTES, "20 MB", t("files.wanted.smallScene"));
  }
  const text = await textOf(file, file.name);
  if (isLogText(text)) return { kind: "log", file };
  const document = readScene(text, file.name);
  resolveScene(document, file.name);
  const wanted = meshFilesOf(document, file.name).map((mesh) => mesh.file);
  const { found, missing } = matchMeshes(wanted, meshes);
  return {
    kind: "scene",
    document,
    fileName: file.name,
    meshes: await bytesOf(found),
    missing: missing.filter((path) => !here.has(path)),
  };
}

async function receiveMeshes(
  meshes: readonly File[],
  open: SceneDocument,
  here: ReadonlySet<string>,
): Promise<Received> {
  const wanted = meshFilesOf(open).map((mesh) => mesh.file);
  const { found } = matchMeshes(wanted, meshes);
  const isWaiting = wanted.some((path) => !here.has(path));
  if (meshes.length === 1 && found.size === 0 && !isWaiting) return { kind: "scan", file: meshes[0]! };
  const stray = meshes.find((mesh) => ![...found.values()].includes(mesh));
  if (stray) {
    const mend =
      wanted.length > 0 ? t("files.wanted.namedMesh", { files: wanted.join(", ") }) : t("files.wanted.noMesh");
    throw new InputError("mesh", { file: stray.name }, t("files.wrong.notNamed"), mend);
  }
  return { kind: "meshes", meshes: await bytesOf(found) };
}

function refuseLarge(file: File, most: number, size: string, wanted: string): void {
  if (file.size > most)
    throw new InputError("too-large", { file: file.name }, t("files.wrong.tooLarge", { size }), wanted);
}

async function textOf(part: Blob, name: string): Promise<string> {
  try {
    return await part.text();
  } catch {
    throw unreadable(name);
  }
}

async function bytesOf(files: ReadonlyMap<string, File>): Promise<Map<string, Uint8Array>> {
  const bytes = new Map<string, Uint8Array>();
  for (const [path, file] of files) {
    try {
      bytes.set(path, new Uint8Array(await file.arrayBuffer()));
    } catch {
      throw unreadable(file.name);
    }
  }
  return bytes;
}

/** A folder, or a file that was moved or changed since it was chosen. */
function unreadable(name: string): InputError {
  return new InputError("unreadable", { file: name }, t("files.wrong.unreadable"), t("files.wanted.stillThere"));
}
