import { t } from "../text/text.ts";
import { MESH_ENDINGS } from "./sortFiles.ts";

type OpenPicker = (options: {
  multiple: boolean;
  types: readonly { description: string; accept: Accept }[];
}) => Promise<readonly FileSystemFileHandle[]>;

const handles = new WeakMap<File, FileSystemFileHandle>();

/** The means to write to a chosen file again; undefined where the browser gave none. */
export function handleOf(file: File): FileSystemFileHandle | undefined {
  return handles.get(file);
}

/** Lets the builder choose a scene and its meshes; an empty list when they think better of it. */
export function chooseFiles(): Promise<readonly File[]> {
  return choose(t("files.kinds.sceneWithMeshes"), { "application/json": [".json"], "model/mesh": MESH_ENDINGS }, true);
}

/** Lets the builder choose one mesh; an empty list when they think better of it. */
export function chooseMesh(): Promise<readonly File[]> {
  return choose(t("files.kinds.mesh"), { "model/mesh": MESH_ENDINGS }, false);
}

/** Lets the builder choose a table of values; an empty list when they think better of it. */
export function chooseTable(): Promise<readonly File[]> {
  return choose(t("paper.files.csv"), { "text/csv": [".csv"] }, false);
}

type Accept = Readonly<Record<string, readonly string[]>>;

async function choose(description: string, accept: Accept, multiple: boolean): Promise<readonly File[]> {
  const picker = Reflect.get(globalThis, "showOpenFilePicker") as OpenPicker | undefined;
  if (typeof picker !== "function") return chooseByInput(accept, multiple);
  try {
    const chosen = await picker({ multiple, types: [{ description, accept }] });
    return await Promise.all(
      chosen.map(async (handle) => {
        const file = await handle.getFile();
        handles.set(file, handle);
        return file;
      }),
    );
  } catch (error) {
    if (error instanceof Error && error.name === "AbortError") return [];
    // some embedded browsers have the picker but forbid it
    if (error instanceof Error && error.name === "SecurityError") return chooseByInput(accept, multiple);
    throw error;
  }
}

function chooseByInput(accept: Accept, multiple: boolean): Promise<readonly File[]> {
  return new Promise((resolve) => {
    const input = document.createElement("input");
    input.type = "file";
    input.multiple = multiple;
    input.accept = Object.values(accept).flat().join(",");
    input.addEventListener("change", () => resolve([...(input.files ?? [])]));
    input.addEventListener("cancel", () => resolve([]));
    input.click();
  });
}
