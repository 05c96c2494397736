import { MESH_ENDINGS } from "./sortFiles.ts";

type OpenPicker = (options: {
  multiple: boolean;
  types: readonly { description: string; accept: Readonly<Record<string, readonly string[]>> }[];
}) => Promise<readonly FileSystemFileHandle[]>;

const handles = new WeakMap<File, FileSystemFileHandle>();

/** The means to write to a chosen file again; undefined where the browser gave none. */
export function handleOf(file: File): FileSystemFileHandle | undefined {
  return handles.get(file);
}

/** Lets the builder choose a scene and its meshes; an empty list when they think better of it. */
export async function chooseFiles(): Promise<readonly File[]> {
  const picker = Reflect.get(globalThis, "showOpenFilePicker") as OpenPicker | undefined;
  if (typeof picker !== "function") return chooseByInput();
  try {
    const chosen = await picker({
      multiple: true,
      types: [
        {
          description: "Scene, with the meshes it names",
          accept: { "application/json": [".json"], "model/mesh": MESH_ENDINGS },
        },
      ],
    });
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
    if (error instanceof Error && error.name === "SecurityError") return chooseByInput();
    throw error;
  }
}

function chooseByInput(): Promise<readonly File[]> {
  return new Promise((resolve) => {
    const input = document.createElement("input");
    input.type = "file";
    input.multiple = true;
    input.accept = [".json", ...MESH_ENDINGS].join(",");
    input.addEventListener("change", () => resolve([...(input.files ?? [])]));
    input.addEventListener("cancel", () => resolve([]));
    input.click();
  });
}
