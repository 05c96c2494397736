import { create } from "zustand";
import { desk, door } from "../projects/theDesk.ts";

/** A file on disk that the browser lets the page write to again. */
export interface FilePlace {
  readonly handle: FileSystemFileHandle;
  /** When the file was changed last, as far as this page knows. */
  readonly seen_ms: number;
}

/** The scene file of the open project, by name, where the browser can write to it again. */
export const useFilePlace = create<{ readonly name: string | null }>()(() => ({ name: null }));

let place: { readonly project: string; readonly at: FilePlace } | null = null;

const keyOf = (project: string): string => `file/${project}`;

/** Where the open project's scene file is; null: nowhere yet. */
export async function filePlace(): Promise<FilePlace | null> {
  const project = desk.state.getState().openId;
  if (project === null) return null;
  if (place?.project === project) return place.at;
  const kept: unknown = await (await door()).get("settings", keyOf(project));
  place = isPlace(kept) ? { project, at: kept } : null;
  return place?.at ?? null;
}

/** From now on the open project's scene file is there. */
export async function rememberFile(at: FilePlace): Promise<void> {
  const project = desk.state.getState().openId;
  if (project === null) return;
  place = { project, at };
  useFilePlace.setState({ name: at.handle.name });
  await (await door()).put("settings", at, keyOf(project));
}

/** Tells the file's name as projects come and go. */
export function followFilePlace(): void {
  const show = async (): Promise<void> => {
    try {
      useFilePlace.setState({ name: (await filePlace())?.handle.name ?? null });
    } catch {
      // without a database there is no file to come back to
      useFilePlace.setState({ name: null });
    }
  };
  void show();
  desk.state.subscribe((state, before) => {
    if (state.openId !== before.openId) void show();
  });
}

function isPlace(value: unknown): value is FilePlace {
  return typeof value === "object" && value !== null && "handle" in value && "seen_ms" in value;
}
