import { createStore, get, keys, type UseStore } from "idb-keyval";
import type { SceneDocument } from "../../scene/document.ts";
import type { SceneFiles } from "../../work/protocol.ts";
import type { SavedSession } from "../store/session.ts";
import type { DocumentState } from "../store/state.ts";
import type { Database } from "./database.ts";
import type { Step } from "./records.ts";
import { newRecord, saveProject } from "./shelf.ts";
import { LAST_OPEN_KEY, saveSetting } from "./shelfActions.ts";

/** Before there were projects, one work was kept with all its steps in one record. */
interface OldWork {
  readonly version: 1;
  readonly saved_ms: number;
  readonly now: DocumentState;
  readonly past: readonly DocumentState[];
  readonly future: readonly DocumentState[];
}

const TAKEN_KEY = "old work taken";
/** Begins the key of a work that was put aside for another. */
const ASIDE_KEY = "put aside ";

/**
 * Makes a project of what an earlier version kept, once. The old record stays where it is: it costs little, and nothing
 * can be lost by reading it.
 * @param shelf where the earlier version kept it
 */
export async function takeOldWork(
  database: Database,
  now_ms: number,
  shelf: UseStore = createStore("elbowroom", "work"),
): Promise<void> {
  if (await database.get("settings", TAKEN_KEY)) return;
  const found = await keys<string>(shelf);
  for (const key of found) {
    const isMain = key === "document";
    if (!isMain && !key.startsWith(ASIDE_KEY)) continue;
    const id = await takeWork(database, await get(key, shelf), shelf, now_ms);
    if (isMain && id) await saveSetting(database, LAST_OPEN_KEY, id);
  }
  const session = await get<Partial<SavedSession>>("session", shelf);
  if (session) await saveSetting(database, "session", session);
  await database.put("settings", true, TAKEN_KEY);
}

/** @returns the project's id; null: it is no work. */
async function takeWork(database: Database, work: unknown, shelf: UseStore, now_ms: number): Promise<string | null> {
  if (!isOldWork(work)) return null;
  const states = [...work.past, work.now, ...[...work.future].reverse()];
  const steps = states.filter((state): state is Step => state.document !== null);
  const at = steps.indexOf(work.now as Step);
  if (at < 0) return null;
  const files = (await get<SceneFiles>("files", shelf)) ?? new Map();
  const named = JSON.stringify(steps.map(({ document }) => document.bodies));
  const { record } = await saveProject(database, {
    record: { ...newRecord(null, work.saved_ms ?? now_ms), made_ms: now_ms },
    steps,
    from: 0,
    at,
    sizes: [],
    files: new Map([...files].filter(([path]) => named.includes(JSON.stringify(path)))),
    keptFiles: new Map(),
    now_ms: work.saved_ms ?? now_ms,
  });
  return record.id;
}

function isOldWork(value: unknown): value is OldWork {
  if (typeof value !== "object" || value === null) return false;
  const work = value as Partial<OldWork>;
  return Array.isArray(work.past) && Array.isArray(work.future) && isScene(work.now?.document);
}

function isScene(value: unknown): value is SceneDocument {
  return typeof value === "object" && value !== null && "points" in value && "members" in value;
}
