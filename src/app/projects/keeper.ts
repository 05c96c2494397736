import type { SceneFiles } from "../../work/protocol.ts";
import type { DocumentState } from "../store/state.ts";
import type { AppStore } from "../store/store.ts";
import type { Database } from "./database.ts";
import { NewerElsewhere, ThrownAway, troubleOf } from "./faults.ts";
import type { ProjectRecord, Step } from "./records.ts";
import { type OpenedProject, saveProject } from "./shelf.ts";
import type { StepSize } from "./stepRecords.ts";

/** What the database holds of the open project. */
interface Kept {
  readonly record: ProjectRecord;
  readonly steps: readonly Step[];
  readonly sizes: readonly StepSize[];
  readonly files: SceneFiles;
}

export interface KeeperHooks {
  now(): number;
  onSaved(record: ProjectRecord): void;
  /** Another tab has saved the project meanwhile; this one saves no more of it. */
  onNewer(): void;
  /** The browser has lost the project; it is being written anew from this page. */
  onThrownAway(): void;
}

/** How long until a save that the browser refused is tried again, if no edit tries it sooner. */
const AGAIN_ms = 10_000;

export type Keeper = ReturnType<typeof createKeeper>;

/**
 * Saves each edit of the open project as soon as it is made: while one save is under way the next waits for it and takes
 * with it all that has come meanwhile.
 */
export function createKeeper(store: AppStore, door: () => Promise<Database>, hooks: KeeperHooks) {
  let kept: Kept | null = null;
  let running: Promise<void> | null = null;
  let again: ReturnType<typeof setTimeout> | undefined;

  const save = async (before: Kept): Promise<void> => {
    const { steps, at, files } = workOf(store);
    const from = alike(before.steps, steps);
    const now_ms = hooks.now();
    const { record, sizes } = await saveProject(await door(), {
      ...before,
      steps,
      from,
      at,
      files,
      keptFiles: before.files,
      now_ms,
    });
    if (kept !== before) return;
    kept = { record, steps, sizes, files };
    store.setState({ saved_ms: now_ms, saveTrouble: null });
    hooks.onSaved(record);
  };

  const run = async (): Promise<void> => {
    clearTimeout(again);
    // an edit is one change of the state and, right after it, one of the history
    await Promise.resolve();
    while (kept && owes(kept)) {
      try {
        await save(kept);
      } catch (error) {
        if (error instanceof NewerElsewhere) {
          kept = null;
          hooks.onNewer();
        } else if (error instanceof ThrownAway && kept) {
          kept = unsaved(kept.record);
          hooks.onThrownAway();
        } else {
          store.setState({ saveTrouble: troubleOf(error) });
          again = setTimeout(request, AGAIN_ms);
          return;
        }
      }
    }
  };

  const request = (): void => {
    if (!kept) return;
    running ??= run().finally(() => {
      running = null;
    });
  };

  const owes = ({ record, steps, files }: Kept): boolean => {
    const now = workOf(store);
    return (
      record.revision === 0 ||
      record.at !== now.at ||
      steps.length !== now.steps.length ||
      alike(steps, now.steps) < steps.length ||
      files !== now.files
    );
  };

  const unsubscribe = store.subscribe((state, before) => {
    if (
      state.document !== before.document ||
      state.fileName !== before.fileName ||
      state.stepName !== before.stepName ||
      state.files !== before.files
    ) {
      request();
    }
  });

  return {
    /** Shows the project with its steps, and saves what changes from now on. */
    show(opened: OpenedProject, look: "keep" | "fresh" = "fresh"): void {
      const { record, steps, sizes, files, lost } = opened;
      kept = null;
      clearTimeout(again);
      showSteps(store, opened, look);
      store.setState({ saved_ms: record.changed_ms, saveTrouble: null });
      // steps that could not be read are not there any more: what is here is written anew at the next edit
      kept = lost > 0 ? { record, steps: [], sizes: [], files } : { record, steps, sizes, files };
    },
    /** Saves what is on the page as this new project, and what changes from now on. */
    keepAs(record: ProjectRecord): Promise<boolean> {
      kept = unsaved(record);
      return this.flush();
    },
    /** Saves nothing more. */
    letGo(): void {
      kept = null;
      clearTimeout(again);
    },
    /** Saves what is owed. False: something is on this page only. */
    async flush(): Promise<boolean> {
      while (kept && owes(kept)) {
        request();
        await running;
        if (store.getState().saveTrouble) return false;
      }
      return kept !== null;
    },
    isOwing: (): boolean => kept !== null && owes(kept),
    stop(): void {
      kept = null;
      clearTimeout(again);
      unsubscribe();
    },
  };
}

function unsaved(record: ProjectRecord): Kept {
  return { record: { ...record, revision: 0, steps: 0, meshes: [] }, steps: [], sizes: [], files: new Map() };
}

/** All steps from first to last, and which of them is shown. */
function workOf(store: AppStore): { steps: Step[]; at: number; files: SceneFiles } {
  const { document, fileName, stepName, files } = store.getState();
  const { pastStates, futureStates } = store.temporal.getState();
  const all = [...pastStates, { document, fileName, stepName }, ...[...futureStates].reverse()] as DocumentState[];
  const steps = all.filter((step): step is Step => step.document !== null);
  return { steps, at: pastStates.filter((step) => step.document !== null).length, files };
}

/** Shows a project's step as if all steps had been made here; `keep` leaves the look at the car as it is. */
export function showSteps(
  store: AppStore,
  { steps, at, files }: Pick<OpenedProject, "steps" | "at" | "files">,
  look: "keep" | "fresh" = "fresh",
): void {
  const history = store.temporal;
  history.getState().pause();
  store.getState().showDocument(steps[at]!, files, look);
  history.setState({ pastStates: steps.slice(0, at), futureStates: steps.slice(at + 1).reverse() });
  history.getState().resume();
}

/** How many steps at the beginning are the same. */
function alike(a: readonly Step[], b: readonly Step[]): number {
  let count = 0;
  while (count < a.length && count < b.length && isSame(a[count]!, b[count]!)) count++;
  return count;
}

function isSame(a: Step, b: Step): boolean {
  return a.document === b.document && a.stepName === b.stepName && a.fileName === b.fileName;
}
