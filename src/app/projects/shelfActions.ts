import { t } from "../text/text.ts";
import type { Database } from "./database.ts";
import type { ProjectRecord, Settings } from "./records.ts";
import { abandon, newRecord, ON_DISK, type OpenedProject, readProject, saveProject } from "./shelf.ts";
import { isSoundProject, isTime, soundSession } from "./sound.ts";

/** How long a deleted project can be put back. */
export const KEPT_DELETED_days = 14;
/** The setting that names the project opened last. */
export const LAST_OPEN_KEY = "last open";
/** The setting that says when deleted projects were looked through last. */
const LOOKED_KEY = "deleted looked at";
const DAY_ms = 86_400_000;

/** All projects, deleted ones too, the one changed last first; without those whose record is damaged, which stay as they are. */
export async function listProjects(database: Database): Promise<ProjectRecord[]> {
  return (await database.getAll("projects")).filter(isSoundProject).sort((a, b) => b.changed_ms - a.changed_ms);
}

/** How many projects are there whose record is damaged. */
export async function countDamaged(database: Database): Promise<number> {
  return (await database.getAll("projects")).filter((record) => !isSoundProject(record)).length;
}

/** One step more for a project that is not open anywhere. */
export async function addStep(
  database: Database,
  id: string,
  stepName: string,
  title: string,
  now_ms: number,
): Promise<void> {
  const opened = await readProject(database, id);
  if (!opened) return;
  const steps = [...opened.steps.slice(0, opened.at + 1)];
  const last = steps.at(-1)!;
  await saveProject(database, {
    record: opened.record,
    steps: [...steps, { ...last, stepName, document: { ...last.document, title } }],
    from: opened.lost > 0 ? 0 : steps.length,
    at: steps.length,
    sizes: opened.lost > 0 ? [] : opened.sizes,
    files: opened.files,
    keptFiles: opened.files,
    now_ms,
  });
}

/** The project once more with all its steps, and one that gives it the title. Mesh files are shared, not copied. */
export async function duplicateProject(
  database: Database,
  { record, steps, at, files }: OpenedProject,
  title: string,
  now_ms: number,
): Promise<ProjectRecord> {
  const last = steps[at]!;
  const copy = { ...last, stepName: t("projects.step.copy", { title }), document: { ...last.document, title } };
  const saved = await saveProject(database, {
    record: { ...newRecord(null, now_ms), meshes: record.meshes },
    steps: [...steps.slice(0, at + 1), copy],
    from: 0,
    at: at + 1,
    sizes: [],
    files,
    keptFiles: files,
    now_ms,
  });
  return saved.record;
}

/** Takes a project off the list, or puts it back; nothing of it goes yet. */
export async function markDeleted(database: Database, id: string, deleted_ms: number | null): Promise<void> {
  const tx = database.transaction("projects", "readwrite", ON_DISK);
  const record = await tx.store.get(id);
  if (record) {
    // a clock that goes behind must not make it look as if it had been deleted long ago
    const since_ms = deleted_ms === null ? null : Math.max(deleted_ms, record.changed_ms);
    await tx.store.put({ ...record, deleted_ms: since_ms, revision: record.revision + 1 });
  }
  await tx.done;
}

/** Removes projects for good, with mesh files that no other project names. */
export async function removeProjects(database: Database, isGone: (record: ProjectRecord) => boolean): Promise<void> {
  const tx = database.transaction(["projects", "steps", "meshes", "settings"], "readwrite", ON_DISK);
  try {
    const found = await tx.objectStore("projects").getAll();
    const all = found.filter(isSoundProject);
    const gone = all.filter(isGone);
    const named = new Set(all.filter((one) => !isGone(one)).flatMap(({ meshes }) => meshes.map((one) => one.bytesId)));
    // which mesh files a damaged record names is not known
    const meshKeys = all.length === found.length ? await tx.objectStore("meshes").getAllKeys() : [];
    await Promise.all([
      ...gone.map(({ id }) => tx.objectStore("projects").delete(id)),
      ...gone.map(({ id, steps }) => tx.objectStore("steps").delete(IDBKeyRange.bound([id, 0], [id, steps]))),
      ...gone.map(({ id }) => tx.objectStore("settings").delete(`file/${id}`)),
      ...meshKeys.filter((key) => !named.has(key)).map((key) => tx.objectStore("meshes").delete(key)),
      tx.done,
    ]);
  } catch (error) {
    abandon(tx);
    throw error;
  }
}

/**
 * Removes what was deleted too long ago to be put back. Clocks go wrong, and what goes for good does not come back: a project goes
 * only when it was due at an earlier visit already, at least a day ago.
 */
export async function sweepDeleted(database: Database, now_ms: number): Promise<void> {
  const looked: unknown = await database.get("settings", LOOKED_KEY);
  const looked_ms = isTime(looked) && looked <= now_ms ? looked : null;
  if (looked_ms !== null && now_ms - looked_ms < DAY_ms) return;
  if (looked_ms !== null) {
    const due_ms = looked_ms - KEPT_DELETED_days * DAY_ms;
    await removeProjects(database, ({ deleted_ms }) => deleted_ms !== null && deleted_ms < due_ms);
  }
  await database.put("settings", now_ms, LOOKED_KEY);
}

export async function readSettings(database: Database): Promise<Settings> {
  const tx = database.transaction("settings");
  const [session, lastOpen] = await Promise.all([tx.store.get("session"), tx.store.get(LAST_OPEN_KEY), tx.done]);
  return {
    session: soundSession(session),
    lastOpen: typeof lastOpen === "string" ? lastOpen : null,
  };
}

export async function saveSetting(
  database: Database,
  key: "session" | typeof LAST_OPEN_KEY,
  value: unknown,
): Promise<void> {
  await database.put("settings", value, key);
}
