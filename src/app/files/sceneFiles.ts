import { create } from "zustand";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { meshFilesOf } from "../../scene/meshFiles.ts";
import { writeScene } from "../../scene/write.ts";
import { bringIn } from "../log/bringIn.ts";
import { desk } from "../projects/theDesk.ts";
import { takeScanFile } from "../scans/scanActions.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { chooseFiles, handleOf } from "./chooseFiles.ts";
import { filePlace, rememberFile } from "./filePlace.ts";
import { receiveFiles } from "./receiveFiles.ts";
import { fileNameOf, SCENE_FILE, saveFileAs, writeTo } from "./saveFile.ts";

export interface FileTrouble {
  /** "Not opened" or "Not saved". */
  readonly head: string;
  readonly file: string;
  readonly path: string;
  readonly wrong: string;
  readonly wanted: string;
}

/** What came of opening and saving files, for the line that tells it. */
export const useFileTrouble = create<{
  readonly trouble: FileTrouble | null;
  readonly missing: readonly string[];
  /** Name of the file that the scene was just saved to. */
  readonly saved: string | null;
}>()(() => ({ trouble: null, missing: [], saved: null }));

export function forgetTrouble(): void {
  useFileTrouble.setState({ trouble: null, missing: [], saved: null });
}

/** Lets the builder choose a scene, its meshes, or a saved log. */
export async function openSceneFile(): Promise<void> {
  await openFiles(await chooseFiles());
}

/** Opens what was chosen or dropped. What cannot be opened is told; the scene that is open stays as it is. */
export async function openFiles(chosen: readonly File[]): Promise<void> {
  if (chosen.length === 0) return;
  forgetTrouble();
  const state = app.getState();
  try {
    const received = await receiveFiles(chosen, state.document, new Set(state.files.keys()));
    if (received.kind === "scene") {
      const known = new Map([...state.files, ...received.meshes]);
      const named = meshFilesOf(received.document).map(({ file }) => file);
      const files = new Map(named.flatMap((path) => (known.has(path) ? [[path, known.get(path)!]] : [])));
      await desk.openNew(received.document, received.fileName, files);
      const file = chosen.find(({ name }) => name === received.fileName);
      const handle = file && handleOf(file);
      if (handle) await rememberFile({ handle, seen_ms: file.lastModified });
      useFileTrouble.setState({ missing: received.missing });
    } else if (received.kind === "meshes") {
      state.addFiles(received.meshes);
    } else if (received.kind === "scan") {
      await takeScanFile(received.file);
    } else {
      await bringIn(received.file);
      state.setPlace("log");
    }
  } catch (error) {
    tell(t("files.notOpened"), error);
  }
}

/**
 * Saves the kept scene (a move that is only tried is not in it) to the project's own file where the browser lets the page
 * write to it again, else as a new file.
 */
export async function saveSceneFile(): Promise<void> {
  const { document } = app.getState();
  if (!document) return;
  forgetTrouble();
  try {
    const at = await filePlace();
    if (!at || !(await mayWrite(at.handle))) return await saveSceneFileAs();
    const { handle, seen_ms } = at;
    const there = await lastModified(handle);
    if (there === null) return await saveSceneFileAs();
    if (there !== seen_ms) {
      await rememberFile({ handle, seen_ms: there });
      const wanted = t("files.wanted.saveAgain");
      throw new InputError("wrong-format", { file: handle.name }, t("files.wrong.changed"), wanted);
    }
    await writeTo(handle, contentOf(document));
    await rememberFile({ handle, seen_ms: (await lastModified(handle)) ?? Date.now() });
    useFileTrouble.setState({ saved: handle.name });
  } catch (error) {
    tell(t("files.notSaved"), error);
  }
}

/** Saves the kept scene where the builder says. */
export async function saveSceneFileAs(): Promise<void> {
  const { document, fileName } = app.getState();
  if (!document) return;
  forgetTrouble();
  try {
    const name = fileName || fileNameOf(document.title, SCENE_FILE.ending);
    const saved = await saveFileAs(contentOf(document), name, SCENE_FILE);
    if (!saved) return;
    useFileTrouble.setState({ saved: saved.name });
    const { handle } = saved;
    if (handle) await rememberFile({ handle, seen_ms: (await lastModified(handle)) ?? Date.now() });
  } catch (error) {
    tell(t("files.notSaved"), error);
  }
}

function contentOf(document: SceneDocument): Blob {
  return new Blob([writeScene(document)], { type: SCENE_FILE.mime });
}

/** After a reload the browser asks the builder again whether the page may write to the file. */
async function mayWrite(handle: FileSystemFileHandle): Promise<boolean> {
  const ask = Reflect.get(handle, "requestPermission") as
    | ((wanted: { mode: "readwrite" }) => Promise<PermissionState>)
    | undefined;
  return !ask || (await ask.call(handle, { mode: "readwrite" })) === "granted";
}

/** null: the file is not there any more. */
async function lastModified(handle: FileSystemFileHandle): Promise<number | null> {
  try {
    return (await handle.getFile()).lastModified;
  } catch (error) {
    if (error instanceof Error && error.name === "NotFoundError") return null;
    throw error;
  }
}

/** What is no JSON was hardly meant as a scene; whoever writes scenes by hand is told the place. */
function noScene({ file, wrong }: InputError): Omit<FileTrouble, "head"> {
  const place = /line \d+(?:, column \d+)?/.exec(wrong)?.[0];
  return {
    file,
    path: "",
    wrong: place ? t("files.wrong.noJson", { place }) : t("files.wrong.noScene", { why: wrong }),
    wanted: t("files.wanted.jsonOrLog"),
  };
}

function tell(head: string, error: unknown): void {
  const trouble =
    error instanceof InputError
      ? error.code === "not-json"
        ? noScene(error)
        : { file: error.file, path: error.path, wrong: error.wrong, wanted: error.wanted }
      : { file: "", path: "", wrong: error instanceof Error ? error.message : String(error), wanted: "" };
  useFileTrouble.setState({ trouble: { head, ...trouble } });
}
