import { Workbox } from "workbox-window";
import { create } from "zustand";
import { desk } from "../projects/theDesk.ts";

interface UpdateState {
  /** A new version lies ready and is taken when the builder says so, or when the app is opened next. */
  readonly ready: boolean;
  /** Another tab has taken it; this one still runs the old one. */
  readonly takenElsewhere: boolean;
  /** The app is kept whole for use without a network; null: not known yet. */
  readonly offline: boolean | null;
}

export const useUpdate = create<UpdateState>()(() => ({ ready: false, takenElsewhere: false, offline: null }));

const LOOK_ms = 3_600_000;

let worker: Workbox | null = null;
let asked = false;

/** Keeps the app for use without a network, and looks for a new version now and then. */
export async function keepOffline(): Promise<void> {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return useUpdate.setState({ offline: false });
  worker = new Workbox("./sw.js");
  worker.addEventListener("waiting", () => useUpdate.setState({ ready: true }));
  worker.addEventListener("activated", () => useUpdate.setState({ offline: true }));
  worker.addEventListener("controlling", ({ isUpdate }) => {
    if (asked) location.reload();
    else if (isUpdate) useUpdate.setState({ ready: false, takenElsewhere: true });
  });
  try {
    const registration = await worker.register();
    if (registration?.active) useUpdate.setState({ offline: true });
    setInterval(() => void registration?.update().catch(() => {}), LOOK_ms);
  } catch {
    // private windows and some settings forbid it: the list of projects says that there is no use without a network
    useUpdate.setState({ offline: false });
  }
}

/** Loads the new version; not while something is on this page only. */
export async function takeUpdate(): Promise<void> {
  if (!(await desk.isSafe())) return;
  if (useUpdate.getState().takenElsewhere) return location.reload();
  asked = true;
  worker?.messageSkipWaiting();
}
