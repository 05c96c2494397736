import { createStore as createShelf, get, set, type UseStore } from "idb-keyval";
import type { SceneFiles } from "../../work/protocol.ts";
import type { DocumentState, SessionState } from "./state.ts";

/** What a reload must bring back. */
export interface SavedWork {
  readonly version: 1;
  readonly saved_ms: number;
  readonly now: DocumentState;
  readonly past: readonly DocumentState[];
  readonly future: readonly DocumentState[];
}

export type SavedSession = Pick<SessionState, "unit" | "theme" | "show" | "wheels"> & {
  readonly cautionsRead: boolean;
};

export interface Saved {
  readonly work: SavedWork | null;
  readonly session: Partial<SavedSession>;
  readonly files: SceneFiles;
}

/** Where the browser keeps the work. Each call rejects with the browser's own error. */
export interface Storage {
  read(): Promise<Saved>;
  saveWork(work: SavedWork): Promise<void>;
  saveSession(session: SavedSession): Promise<void>;
  saveFiles(files: SceneFiles): Promise<void>;
}

/** In this browser's database, on this machine only. */
export function browserStorage(shelf: UseStore = createShelf("elbowroom", "work")): Storage {
  return {
    async read() {
      const [work, session, files] = await Promise.all([
        get<unknown>("document", shelf),
        get<Partial<SavedSession>>("session", shelf),
        get<SceneFiles>("files", shelf),
      ]);
      if (work !== undefined && !isSavedWork(work)) {
        // What this version cannot read is put aside, never written over.
        await set(`put aside ${new Date().toISOString()}`, work, shelf);
        return { work: null, session: session ?? {}, files: files ?? new Map() };
      }
      return { work: work ?? null, session: session ?? {}, files: files ?? new Map() };
    },
    saveWork: (work) => set("document", work, shelf),
    saveSession: (session) => set("session", session, shelf),
    saveFiles: (files) => set("files", files, shelf),
  };
}

function isSavedWork(value: unknown): value is SavedWork {
  if (typeof value !== "object" || value === null) return false;
  const work = value as Partial<SavedWork>;
  return work.version === 1 && Array.isArray(work.past) && Array.isArray(work.future) && Boolean(work.now?.document);
}
