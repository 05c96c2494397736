import type { App } from "./actions.ts";
import type { SavedSession, SavedWork, Storage } from "./storage.ts";
import type { AppStore } from "./store.ts";

/** Long enough to gather the steps of one gesture, short enough that a crash costs nothing to speak of. */
const WAIT_ms = 300;

/** Brings back what was saved, then saves every change. Resolves when the saved work is shown; returns how to stop. */
export async function keepSaved(store: AppStore, storage: Storage, now = Date.now): Promise<() => void> {
  await restore(store, storage);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let owed = { work: false, session: false, files: false };

  const save = async (): Promise<void> => {
    clearTimeout(timer);
    timer = undefined;
    const { work, session, files } = owed;
    if (!work && !session && !files) return;
    owed = { work: false, session: false, files: false };
    const saved_ms = now();
    try {
      await Promise.all([
        files ? storage.saveFiles(store.getState().files) : null,
        work ? storage.saveWork(workOf(store, saved_ms)) : null,
        session ? storage.saveSession(sessionOf(store.getState())) : null,
      ]);
      if (work) store.setState({ saved_ms, saveTrouble: null });
    } catch (error) {
      owed = { work: owed.work || work, session: owed.session || session, files: owed.files || files };
      store.setState({ saveTrouble: troubleOf(error) });
    }
  };

  const unsubscribe = store.subscribe((state, before) => {
    const changed = {
      work: state.document !== before.document || state.fileName !== before.fileName,
      session: SESSION_KEYS.some((key) => state[key] !== before[key]),
      files: state.files !== before.files,
    };
    if (!changed.work && !changed.session && !changed.files) return;
    owed = {
      work: owed.work || changed.work,
      session: owed.session || changed.session,
      files: owed.files || changed.files,
    };
    // a preference is one small write, and a reload often comes right after it
    if (changed.session && !owed.work && !owed.files) void save();
    else timer ??= setTimeout(save, WAIT_ms);
  });
  const leaving = (): void => void save();
  globalThis.addEventListener?.("pagehide", leaving);
  globalThis.document?.addEventListener("visibilitychange", leaving);
  return () => {
    unsubscribe();
    globalThis.removeEventListener?.("pagehide", leaving);
    globalThis.document?.removeEventListener("visibilitychange", leaving);
    void save();
  };
}

const SESSION_KEYS = [
  "unit",
  "theme",
  "show",
  "wheels",
  "cautionsRead",
] as const satisfies readonly (keyof SavedSession)[];

async function restore(store: AppStore, storage: Storage): Promise<void> {
  try {
    const { work, session, files } = await storage.read();
    const history = store.temporal;
    history.getState().pause();
    store.setState({ ...session, files, ...(work ? { ...work.now, saved_ms: work.saved_ms ?? null } : {}) });
    if (work) history.setState({ pastStates: [...work.past], futureStates: [...work.future] });
    history.getState().resume();
    store.setState({ ready: true });
  } catch (error) {
    store.setState({ ready: true, saveTrouble: troubleOf(error) });
  }
}

function workOf(store: AppStore, saved_ms: number): SavedWork {
  const { document, fileName, stepName } = store.getState();
  const { pastStates, futureStates } = store.temporal.getState();
  return {
    version: 1,
    saved_ms,
    now: { document, fileName, stepName },
    past: pastStates as SavedWork["past"],
    future: futureStates as SavedWork["future"],
  };
}

function sessionOf({ unit, theme, show, wheels, cautionsRead }: App): SavedSession {
  return { unit, theme, show, wheels, cautionsRead };
}

function troubleOf(error: unknown): string {
  const full = error instanceof Error && error.name === "QuotaExceededError";
  if (full) return "Not saved: this browser's storage is full. Save a file to keep your work.";
  const why = error instanceof Error && error.message ? ` (${error.message})` : "";
  return `Not saved: this browser does not let the page store anything${why}. Save a file to keep your work.`;
}
