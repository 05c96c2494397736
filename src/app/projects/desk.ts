import type { SceneDocument } from "../../scene/document.ts";
import type { SceneFiles } from "../../work/protocol.ts";
import { SESSION_KEYS, sessionOf } from "../store/session.ts";
import type { AppStore } from "../store/store.ts";
import { t } from "../text/text.ts";
import type { Database } from "./database.ts";
import { createDeskState } from "./deskState.ts";
import { troubleOf } from "./faults.ts";
import { createKeeper, showSteps } from "./keeper.ts";
import type { Mark, MarkPlace } from "./mark.ts";
import { takeOldWork } from "./oldWork.ts";
import type { ProjectRecord } from "./records.ts";
import { newRecord, readProject } from "./shelf.ts";
import {
  addStep,
  countDamaged,
  duplicateProject,
  LAST_OPEN_KEY,
  listProjects,
  markDeleted,
  readSettings,
  removeProjects,
  saveSetting,
  sweepDeleted,
} from "./shelfActions.ts";
import type { Hold, Tabs } from "./tabs.ts";

export interface DeskParts {
  readonly store: AppStore;
  readonly door: () => Promise<Database>;
  readonly tabs: Tabs;
  readonly mark: MarkPlace;
  now?(): number;
  /** Brings in what an earlier version of the app kept. */
  takeOld?(database: Database, now_ms: number): Promise<void>;
  /** Called once, after the first edit of this visit is kept. */
  onFirstEdit?(): void;
}

export type Desk = ReturnType<typeof createDesk>;

/**
 * The projects of this browser and the one that is open on this page: opens, makes, copies, renames and deletes them,
 * and arranges with other tabs which of them may change the project.
 */
export function createDesk(parts: DeskParts) {
  const { store, door, tabs, mark, now = Date.now, takeOld = takeOldWork } = parts;
  const state = createDeskState();
  let hold: Hold | null = null;
  let works = false;
  let edited = false;

  const showList = (list: readonly ProjectRecord[]): void => {
    state.setState({ list });
    // what has gone is told until the builder has read it
    if (state.getState().gone === null) mark.write(markOf(list));
  };
  const refreshList = async (): Promise<void> => showList(await listProjects(await door()));
  const listChanged = async (): Promise<void> => {
    await refreshList();
    tabs.tell({ about: "list" });
  };

  const keeper = createKeeper(store, door, {
    now,
    onSaved(record) {
      showList([record, ...state.getState().list.filter(({ id }) => id !== record.id)]);
      tabs.tell({ about: "saved", id: record.id });
      if (!edited && record.steps > 1) {
        edited = true;
        parts.onFirstEdit?.();
      }
    },
    onNewer: () => store.setState({ standing: "cut-off" }),
    onThrownAway() {
      const gone = mark.read() ?? { projects: 1, title: titleNow(), changed_ms: now() };
      state.setState({ gone, savedAnew: true });
      void told(saveSettings, undefined);
    },
  });
  const titleNow = (): string => store.getState().document?.title ?? "";

  const saveSettings = async (): Promise<void> => {
    const database = await door();
    await saveSetting(database, "session", sessionOf(store.getState()));
    await saveSetting(database, LAST_OPEN_KEY, state.getState().openId);
  };

  const leave = (): void => {
    keeper.letGo();
    hold?.release();
    hold = null;
  };

  /** From now on this tab may change the project, until another takes it over. */
  const own = (id: string, mine: Hold): void => {
    hold = mine;
    void mine.lost.then(async () => {
      if (hold !== mine) return;
      hold = null;
      // the other tab has read the project by now: saving to it would only set the two against each other
      const isSaved = !keeper.isOwing();
      keeper.letGo();
      store.setState({ standing: isSaved ? "watched" : "cut-off" });
      if (isSaved) await told(() => follow(id), undefined);
    });
  };

  /** Shows what another tab has saved. */
  const follow = async (id: string): Promise<void> => {
    const opened = await readProject(await door(), id);
    const isStill = state.getState().openId === id && store.getState().standing === "watched";
    if (!opened || !isStill) return;
    showSteps(store, opened, "keep");
    store.setState({ saved_ms: opened.record.changed_ms });
  };

  const open = async (id: string): Promise<boolean> => {
    const database = await door();
    const known = await database.get("projects", id);
    if (!known || known.deleted_ms !== null) return false;
    if (state.getState().openId === id && store.getState().standing === "mine") return true;
    if (!(await mayLeave())) return false;
    leave();
    const mine = await tabs.claim(id);
    // what another tab saved up to now is in the database: it is read once the project is this tab's
    const opened = await readProject(database, id);
    if (!opened) {
      mine?.release();
      state.setState({ note: t("projects.unreadable", { title: known.title }), openId: null });
      return false;
    }
    state.setState({ openId: id, note: lostNote(opened.lost) });
    store.setState({ standing: mine ? "mine" : "watched", refusedEdits: 0 });
    keeper.show(opened);
    if (mine) own(id, mine);
    else keeper.letGo();
    await saveSetting(database, LAST_OPEN_KEY, id);
    return true;
  };

  /** What is on the page only must not be left. */
  const mayLeave = async (): Promise<boolean> => {
    if (state.getState().openId === null || store.getState().standing === "watched") return true;
    if (store.getState().standing === "mine" && (await keeper.flush())) return true;
    state.setState({ note: t("projects.mayNotLeave") });
    return false;
  };

  /** Makes what is on the page a project of its own. */
  const settle = async (sample: string | null): Promise<void> => {
    const record = newRecord(sample, now());
    const mine = await tabs.claim(record.id);
    state.setState({ openId: record.id });
    store.setState({ standing: "mine", refusedEdits: 0 });
    if (mine) own(record.id, mine);
    if (await keeper.keepAs(record)) {
      await saveSetting(await door(), LAST_OPEN_KEY, record.id);
      await listChanged();
    }
  };

  const isOpenElsewhere = async (id: string): Promise<boolean> => {
    if (id === state.getState().openId) return store.getState().standing !== "mine";
    const free = await tabs.claim(id);
    free?.release();
    if (!free) state.setState({ note: t("projects.openElsewhere") });
    return !free;
  };

  /** Tells what the browser refuses; the rest of the page goes on. */
  const told = async <T>(work: () => Promise<T>, otherwise: T): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      store.setState({ saveTrouble: troubleOf(error) });
      return otherwise;
    }
  };

  const take = (ask: (id: string) => Promise<Hold | null>): Promise<void> =>
    told(async () => {
      const id = state.getState().openId;
      if (id === null || store.getState().standing !== "watched") return;
      const mine = await ask(id);
      const opened = mine && (await readProject(await door(), id));
      const isStill = state.getState().openId === id && store.getState().standing === "watched";
      if (!opened || !isStill) return mine?.release();
      store.setState({ standing: "mine", refusedEdits: 0 });
      keeper.show(opened, "keep");
      own(id, mine);
    }, undefined);

  const stopListening = tabs.listen((message) => {
    const { openId } = state.getState();
    if (message.about === "list") void told(refreshList, undefined);
    if (message.about === "saved" && message.id === openId) void told(() => follow(message.id), undefined);
    if (message.about === "asked" && message.id === openId && hold) void handOver(message.id);
  });
  const handOver = async (id: string): Promise<void> => {
    // what cannot be saved stays this tab's: the other takes the project all the same, and this one says so
    if (!(await keeper.flush())) return;
    leave();
    store.setState({ standing: "watched" });
    await told(() => follow(id), undefined);
  };

  const stopSession = store.subscribe((session, before) => {
    if (works && SESSION_KEYS.some((key) => session[key] !== before[key])) {
      void told(async () => saveSetting(await door(), "session", sessionOf(store.getState())), undefined);
    }
  });

  return {
    state,
    /**
     * Reads what is kept and opens a project: the one that is asked for, else the one open last, else the one changed
     * last. False: there is none, or the browser keeps nothing.
     */
    async start(wanted: string | null = null): Promise<boolean> {
      return told(async () => {
        const database = await door();
        let oldNote: string | null = null;
        try {
          await takeOld(database, now());
        } catch {
          oldNote = t("projects.oldWork");
        }
        const settings = await readSettings(database);
        store.setState(settings.session);
        works = true;
        await sweepDeleted(database, now());
        const list = await listProjects(database);
        state.setState({ list, gone: list.length === 0 ? mark.read() : null });
        const alive = list.filter(({ deleted_ms }) => deleted_ms === null).map(({ id }) => id);
        let isOpen = false;
        for (const id of [wanted, settings.lastOpen, ...alive]) {
          isOpen ||= id !== null && alive.includes(id) && (await open(id));
        }
        const damaged = await countDamaged(database);
        if (damaged > 0) state.setState({ note: t("projects.damaged", { count: damaged }) });
        if (oldNote) state.setState({ note: oldNote });
        return isOpen;
      }, false);
    },
    open: (id: string) => told(() => open(id), false),
    /** A new project that begins with this scene; the one that is open stays on the list as it is. */
    async openNew(
      document: SceneDocument,
      fileName: string,
      files: SceneFiles = new Map(),
      sample: string | null = null,
    ) {
      if (!works) return store.getState().openDocument(document, fileName, files);
      await told(async () => {
        if (!(await mayLeave())) return;
        leave();
        store.setState({ standing: "mine" });
        showSteps(store, { steps: [{ document, fileName, stepName: "" }], at: 0, files });
        await settle(sample);
      }, undefined);
    },
    /** A sample as it comes: the project begun from it that has no step yet, else a new one. */
    async openSample(document: SceneDocument, fileName: string): Promise<void> {
      await keeper.flush();
      const fresh = state.getState().list.find((one) => one.sample === fileName && isUntouched(one));
      if (!fresh || !(await this.open(fresh.id))) await this.openNew(document, fileName, new Map(), fileName);
    },
    /** Makes this tab the one that may change the open project. */
    takeOver: () => take((id) => tabs.takeOver(id)),
    /** Where the other tab was closed meanwhile, the project becomes this tab's without asking. */
    takeIfFree: () => take((id) => tabs.claim(id)),
    /** Lets changes go that were not saved, for what another tab has made of the project. */
    showOther: () =>
      told(async () => {
        const id = state.getState().openId;
        store.setState({ standing: "watched" });
        if (id !== null) await open(id);
      }, undefined),
    /** What is on this page becomes a project of its own, with all its steps. */
    keepAsCopy: () =>
      told(async () => {
        leave();
        store.setState({ standing: "mine" });
        const { document } = store.getState();
        if (document) {
          const title = copyTitle(document.title, state.getState().list);
          store.getState().edit(t("projects.step.copy", { title }), { ...document, title });
        }
        await settle(null);
      }, undefined),
    /** Renaming is a step like any other, in the open project and in one that is not. */
    rename: (id: string, title: string) =>
      told(async () => {
        const known = state.getState().list.find((one) => one.id === id);
        if (!known || title === known.title || (await isOpenElsewhere(id))) return;
        const { document } = store.getState();
        if (id === state.getState().openId && document) {
          store.getState().edit(t("projects.step.rename", { title }), { ...document, title });
          await keeper.flush();
        } else {
          await addStep(await door(), id, t("projects.step.rename", { title }), title, now());
        }
        await listChanged();
      }, undefined),
    duplicate: (id: string) =>
      told(async () => {
        if (id === state.getState().openId) await keeper.flush();
        const database = await door();
        const opened = await readProject(database, id);
        if (!opened) return;
        const title = copyTitle(opened.record.title, state.getState().list);
        await duplicateProject(database, opened, title, now());
        await listChanged();
      }, undefined),
    /** Off the list, to be put back within days. The open project makes way for the one changed last. */
    remove: (id: string) =>
      told(async () => {
        if (await isOpenElsewhere(id)) return false;
        const isOpen = id === state.getState().openId;
        if (isOpen) {
          if (!(await mayLeave())) return false;
          leave();
          state.setState({ openId: null });
          store.getState().showDocument({ document: null, fileName: "", stepName: "" }, new Map(), "fresh");
          store.temporal.getState().clear();
        }
        await markDeleted(await door(), id, now());
        await listChanged();
        const next = state.getState().list.find(({ deleted_ms }) => deleted_ms === null);
        if (isOpen && next) await open(next.id);
        return true;
      }, false),
    putBack: (id: string) =>
      told(async () => {
        await markDeleted(await door(), id, null);
        await listChanged();
      }, undefined),
    /** Nothing brings it back. */
    removeForGood: (id: string) =>
      told(async () => {
        await removeProjects(await door(), (one) => one.id === id && one.deleted_ms !== null);
        await listChanged();
      }, undefined),
    /** The builder has read that work has gone. */
    acceptGone(): void {
      state.setState({ gone: null, savedAnew: false });
      mark.write(markOf(state.getState().list));
    },
    closeNote: () => state.setState({ note: null }),
    flush: () => keeper.flush(),
    /** Nothing is on this page only; else it is said what to do. */
    isSafe: () => told(mayLeave, false),
    stop(): void {
      stopListening();
      stopSession();
      keeper.stop();
      hold?.release();
      hold = null;
    },
  };
}

/** A sample as it came would not be missed. */
function markOf(list: readonly ProjectRecord[]): Mark | null {
  const worked = list.filter((one) => one.deleted_ms === null && !isUntouched(one));
  const last = worked[0];
  return last ? { projects: worked.length, title: last.title, changed_ms: last.changed_ms } : null;
}

export function isUntouched({ sample, steps, deleted_ms, meshes }: ProjectRecord): boolean {
  return sample !== null && steps === 1 && meshes.length === 0 && deleted_ms === null;
}

/** "Rear corner" → "Rear corner, copy"; again → "Rear corner, copy 2". */
function copyTitle(title: string, list: readonly ProjectRecord[]): string {
  const ending = t("projects.copy", { title: "" });
  const at = title.lastIndexOf(ending);
  const isCopy = at >= 0 && /^(?: \d+)?$/.test(title.slice(at + ending.length));
  const stem = (isCopy ? title.slice(0, at) : title).slice(0, 180);
  const taken = new Set(list.map((one) => one.title));
  for (let n = 1; ; n++) {
    const name = n === 1 ? t("projects.copy", { title: stem }) : t("projects.copyAgain", { title: stem, number: n });
    if (!taken.has(name)) return name;
  }
}

function lostNote(lost: number): string | null {
  return lost === 0 ? null : t("projects.lost", { count: lost });
}
