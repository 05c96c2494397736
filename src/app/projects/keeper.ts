import type { SceneFiles } from "../../work/protocol.ts";
import type { DocumentState } from "../store/state.ts";
import type { AppStore } from "../store/store.ts";
import type { Database } from "./database.ts";
import { isDiskFull, NewerElsewhere, ThrownAway, troubleOf } from "./faults.ts";
import { beginFreshLog } from "./freshLog.ts";
import type { ProjectRecord, Step } from "./records.ts";
import { type OpenedProject, readySave } from "./shelf.ts";
import type { StepSize } from "./stepRecords.ts";

/** What the database holds of a project, or will. */
interface Kept {
  readonly record: ProjectRecord;
  readonly steps: readonly Step[];
  readonly sizes: readonly StepSize[];
  readonly files: SceneFiles;
}

/** The open project on its way into the database. */
interface Line {
  /** What the database is known to hold. */
  sure: Kept;
  /** What it will hold once all saves that are under way are done. */
  sent: Kept;
  readonly underWay: Set<Promise<void>>;
  /** Why the first of them was refused; those behind it are then refused too, and may hear of it sooner. */
  refusal: { readonly error: unknown; readonly revision: number } | null;
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
/** So many saves may be under way; what a disk is too slow for waits and goes together. */
const MOST_UNDER_WAY = 8;

export type Keeper = ReturnType<typeof createKeeper>;

/**
 * Saves each edit of the open project as soon as it is made, though the save of the one before may still be under way: the database does
 * them in turn, so that a page that is killed has lost at most what the disk was still at.
 */
export function createKeeper(store: AppStore, door: () => Promise<Database>, hooks: KeeperHooks) {
  let line: Line | null = null;
  let isAsked = false;
  let again: ReturnType<typeof setTimeout> | undefined;
  let wasDiskFull = false;

  const send = (mine: Line): void => {
    clearTimeout(again);
    const before = mine.sent;
    const { steps, at, files } = workOf(store);
    const now_ms = hooks.now();
    const { saved, write } = readySave({
      ...before,
      steps,
      from: alike(before.steps, steps),
      at,
      files,
      keptFiles: before.files,
      now_ms,
    });
    const after: Kept = { ...saved, steps, files };
    mine.sent = after;
    const save = async (): Promise<void> => {
      try {
        await write(await door());
        mine.sure = after;
        if (line === mine) {
          store.setState({ saved_ms: now_ms, saveTrouble: null });
          hooks.onSaved(after.record);
        }
        if (wasDiskFull) {
          wasDiskFull = false;
          // where there is no room for that yet, it is tried again after the next save
          beginFreshLog().catch(() => {
            wasDiskFull = true;
          });
        }
      } catch (error) {
        const { revision } = after.record;
        if (!mine.refusal || revision < mine.refusal.revision) mine.refusal = { error, revision };
      }
    };
    const done = save().then(() => {
      mine.underWay.delete(done);
      if (!mine.refusal) sendOwed();
      else if (mine.underWay.size === 0) refused(mine, mine.refusal.error);
    });
    mine.underWay.add(done);
  };

  const refused = (mine: Line, error: unknown): void => {
    mine.refusal = null;
    mine.sent = mine.sure;
    if (line !== mine) return;
    if (error instanceof NewerElsewhere) {
      line = null;
      hooks.onNewer();
    } else if (error instanceof ThrownAway) {
      line = lineFrom(unsaved(mine.sure.record));
      hooks.onThrownAway();
      sendOwed();
    } else {
      wasDiskFull ||= isDiskFull(error);
      store.setState({ saveTrouble: troubleOf(error) });
      again = setTimeout(sendOwed, AGAIN_ms);
    }
  };

  const sendOwed = (): void => {
    if (line && !line.refusal && line.underWay.size < MOST_UNDER_WAY && owes(line.sent)) send(line);
  };

  const request = (): void => {
    if (!line || isAsked) return;
    isAsked = true;
    // an edit is one change of the state and, right after it, one of the history
    queueMicrotask(() => {
      isAsked = false;
      sendOwed();
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
      line = null;
      clearTimeout(again);
      showSteps(store, opened, look);
      store.setState({ saved_ms: record.changed_ms, saveTrouble: null });
      // steps that could not be read are not there any more: what is here is written anew at the next edit
      line = lineFrom(lost > 0 ? { record, steps: [], sizes: [], files } : { record, steps, sizes, files });
    },
    /** Saves what is on the page as this new project, and what changes from now on. */
    keepAs(record: ProjectRecord): Promise<boolean> {
      line = lineFrom(unsaved(record));
      return this.flush();
    },
    /** Saves nothing more. */
    letGo(): void {
      line = null;
      clearTimeout(again);
    },
    /** Saves what is owed. False: something is on this page only. */
    async flush(): Promise<boolean> {
      while (line && (line.underWay.size > 0 || owes(line.sure))) {
        sendOwed();
        await Promise.all(line.underWay);
        if (store.getState().saveTrouble) return false;
      }
      return line !== null;
    },
    isOwing: (): boolean => line !== null && (line.underWay.size > 0 || owes(line.sure)),
    stop(): void {
      line = null;
      clearTimeout(again);
      unsubscribe();
    },
  };
}

function lineFrom(kept: Kept): Line {
  return { sure: kept, sent: kept, underWay: new Set(), refusal: null };
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
