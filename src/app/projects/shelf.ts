import type { SceneDocument } from "../../scene/document.ts";
import type { SceneFiles } from "../../work/protocol.ts";
import type { Database } from "./database.ts";
import { NewerElsewhere, ThrownAway } from "./faults.ts";
import type { MeshRecord, ProjectRecord, Step } from "./records.ts";
import { isSoundProject, isSoundScene } from "./sound.ts";
import { type StepSize, sizeOf, stepRecords, stepsOf, weightsOf } from "./stepRecords.ts";

/** A save counts as done once it is on the disk: a power cut after that costs nothing of it. */
export const ON_DISK = { durability: "strict" } as const;

/** A project as it was read: its record, the steps that can be gone through, which is shown, the bytes of its meshes. */
export interface OpenedProject {
  readonly record: ProjectRecord;
  readonly steps: readonly Step[];
  readonly at: number;
  /** Sizes of the kept records, one a step. */
  readonly sizes: readonly StepSize[];
  readonly files: SceneFiles;
  /** Steps that are kept but cannot be read; they are left out. */
  readonly lost: number;
}

/** What a save tells: all steps, of which those before `from` are kept already. */
export interface ProjectSave {
  readonly record: ProjectRecord;
  readonly steps: readonly Step[];
  readonly from: number;
  readonly at: number;
  /** Sizes of the kept records, one a step. */
  readonly sizes: readonly StepSize[];
  readonly files: SceneFiles;
  /** Mesh files as they were at the last save, the same bytes for the same file. */
  readonly keptFiles: SceneFiles;
  readonly now_ms: number;
}

export interface Saved {
  readonly record: ProjectRecord;
  /** Of all steps. */
  readonly sizes: readonly StepSize[];
}

export function newRecord(sample: string | null, now_ms: number): ProjectRecord {
  return {
    id: crypto.randomUUID(),
    title: "",
    made_ms: now_ms,
    changed_ms: now_ms,
    revision: 0,
    steps: 0,
    at: 0,
    points: 0,
    parts: 0,
    bytes: 0,
    sample,
    meshes: [],
    deleted_ms: null,
  };
}

/** @returns null when there is no such project, or nothing of it can be read. */
export async function readProject(database: Database, id: string): Promise<OpenedProject | null> {
  const tx = database.transaction(["projects", "steps", "meshes"]);
  const record = await tx.objectStore("projects").get(id);
  if (!isSoundProject(record)) return null;
  const records = await tx.objectStore("steps").getAll(IDBKeyRange.bound([id, 0], [id, record.steps]));
  const files = new Map<string, Uint8Array>();
  for (const { path, bytesId } of record.meshes) {
    const bytes = await tx.objectStore("meshes").get(bytesId);
    if (bytes instanceof Uint8Array) files.set(path, bytes);
  }
  const runs = stepsOf(records);
  const run = runs.find(({ from, steps }) => from <= record.at && record.at < from + steps.length) ?? runs.at(-1);
  if (!run) return null;
  const wanted = Math.min(Math.max(0, record.at - run.from), run.steps.length - 1);
  const at = run.steps.findLastIndex(({ document }, i) => i <= wanted && isSoundScene(document));
  if (at < 0) return null;
  // a step that could not be shown is not gone on from
  const steps = at === wanted ? run.steps : run.steps.slice(0, at + 1);
  const inRun = records.filter(({ index }) => index >= run.from && index < run.from + steps.length);
  return { record, steps, at, sizes: inRun.map(sizeOf), files, lost: record.steps - steps.length };
}

/** A save made ready: what will be kept once it is done, and the one transaction that does it. */
export interface ReadySave {
  readonly saved: Saved;
  /** All of it is kept, or nothing. @throws NewerElsewhere, ThrownAway, or the browser's own error. */
  write(database: Database): Promise<void>;
}

/**
 * Makes ready the new steps, which step is shown, and the new revision. Saves of one project may be sent one behind the other: each asks
 * whether the one before it is kept, and the database does them in turn.
 */
export function readySave(save: ProjectSave): ReadySave {
  const { record, steps, from, at, now_ms } = save;
  const { id } = record;
  const records = stepRecords(id, steps, from, weightsOf(save.sizes.slice(0, from)));
  const meshes = meshesOf(save);
  const next: ProjectRecord = {
    ...record,
    ...factsOf(steps[at]!.document),
    changed_ms: now_ms,
    revision: record.revision + 1,
    steps: steps.length,
    at,
    bytes:
      total(save.sizes.slice(0, from).map(({ size }) => size)) +
      total(records.map(({ size }) => size)) +
      total(meshes.map(({ bytes }) => bytes)),
    meshes,
  };
  const write = async (database: Database): Promise<void> => {
    const tx = database.transaction(["projects", "steps", "meshes"], "readwrite", ON_DISK);
    try {
      // asked together with the writes, so that no busy moment of the page lies between: what is kept is still the old record
      const checked = tx
        .objectStore("projects")
        .get(id)
        .then((kept) => {
          if (kept && kept.revision !== record.revision) throw new NewerElsewhere();
          if (!kept && record.revision > 0) throw new ThrownAway();
          // the page need not come to hear of every write before the database may end it
          tx.commit();
        });
      checked.catch(() => {});
      const held = new Set(record.meshes.map(({ bytesId }) => bytesId));
      const writes: Promise<unknown>[] = [tx.objectStore("projects").put(next)];
      if (record.steps > from) {
        writes.push(tx.objectStore("steps").delete(IDBKeyRange.bound([id, from], [id, record.steps])));
      }
      for (const step of records) writes.push(tx.objectStore("steps").put(step));
      for (const { path, bytesId } of meshes) {
        if (!held.has(bytesId)) writes.push(tx.objectStore("meshes").put(save.files.get(path)!, bytesId));
      }
      await Promise.all([checked, ...writes, tx.done]);
    } catch (error) {
      abandon(tx);
      throw error;
    }
  };
  return { saved: { record: next, sizes: [...save.sizes.slice(0, from), ...records.map(sizeOf)] }, write };
}

/** Saves at once what is made ready so. */
export async function saveProject(database: Database, save: ProjectSave): Promise<Saved> {
  const { saved, write } = readySave(save);
  await write(database);
  return saved;
}

/** Lets go of a transaction, so that nothing of it is kept; one that the browser has ended itself is left as it is. */
export function abandon(tx: { abort(): void; readonly done: Promise<void> }): void {
  tx.done.catch(() => {});
  try {
    tx.abort();
  } catch {
    // it had ended already
  }
}

/** Where the bytes of each mesh are or will be: those that were kept stay where they are. */
function meshesOf({ record, files, keptFiles }: ProjectSave): MeshRecord[] {
  if (files === keptFiles) return [...record.meshes];
  const known = new Map(record.meshes.map((mesh) => [mesh.path, mesh]));
  return [...files].map(([path, bytes]) => {
    const kept = keptFiles.get(path) === bytes ? known.get(path) : undefined;
    return kept ?? { path, bytesId: crypto.randomUUID(), bytes: bytes.byteLength };
  });
}

function total(sizes: readonly number[]): number {
  return sizes.reduce((sum, size) => sum + size, 0);
}

function factsOf(document: SceneDocument): Pick<ProjectRecord, "title" | "points" | "parts"> {
  const { title, points, bodies, members } = document;
  return { title, points: Object.keys(points).length, parts: (bodies?.length ?? 0) + members.length };
}
