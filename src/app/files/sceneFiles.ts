import { create } from "zustand";
import { InputError } from "../../scene/error.ts";
import { writeScene } from "../../scene/write.ts";
import { bringInText } from "../log/bringIn.ts";
import { app } from "../store/useApp.ts";
import { chooseFiles } from "./chooseFiles.ts";
import { receiveFiles } from "./receiveFiles.ts";
import { fileNameOf, SCENE_FILE, saveFile } from "./saveFile.ts";

export interface FileTrouble {
  /** "Not opened" or "Not saved". */
  readonly head: string;
  readonly file: string;
  readonly path: string;
  readonly wrong: string;
  readonly wanted: string;
}

/** What came of opening and saving files, for the line that tells it. */
export const useFileTrouble = create<{ readonly trouble: FileTrouble | null; readonly missing: readonly string[] }>()(
  () => ({ trouble: null, missing: [] }),
);

export function forgetTrouble(): void {
  useFileTrouble.setState({ trouble: null, missing: [] });
}

/** Lets the builder choose a scene, its meshes, or a saved log. */
export async function openSceneFile(): Promise<void> {
  await openFiles(await chooseFiles());
}

/** Opens what was chosen or dropped. What cannot be opened is told; the scene that is open stays as it is. */
export async function openFiles(files: readonly File[]): Promise<void> {
  if (files.length === 0) return;
  forgetTrouble();
  const state = app.getState();
  try {
    const received = await receiveFiles(files, state.document, new Set(state.files.keys()));
    if (received.kind === "scene") {
      state.openDocument(received.document, received.fileName, received.meshes);
      useFileTrouble.setState({ missing: received.missing });
    } else if (received.kind === "meshes") {
      app.setState({ files: new Map([...app.getState().files, ...received.meshes]) });
    } else {
      await bringInText(received.text, received.fileName);
      state.setPlace("log");
    }
  } catch (error) {
    tell("Not opened", error);
  }
}

/** Saves the kept scene (a move that is only tried is not in it). */
export async function saveSceneFile(): Promise<void> {
  const { document, fileName } = app.getState();
  if (!document) return;
  forgetTrouble();
  try {
    const content = new Blob([writeScene(document)], { type: SCENE_FILE.mime });
    await saveFile(content, fileName || fileNameOf(document.title, SCENE_FILE.ending), SCENE_FILE);
  } catch (error) {
    tell("Not saved", error);
  }
}

/** What is no JSON was hardly meant as a scene; whoever writes scenes by hand is told the place. */
function noScene({ file, wrong }: InputError): Omit<FileTrouble, "head"> {
  const place = /line \d+(?:, column \d+)?/.exec(wrong)?.[0];
  return {
    file,
    path: "",
    wrong: `is not an Elbowroom scene file (${place ? `not readable as JSON at ${place}` : wrong})`,
    wanted: "a scene (.json), or a saved build log",
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
