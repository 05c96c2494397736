import type { DBSchema } from "idb";
import type { SceneDocument } from "../../scene/document.ts";
import type { SavedSession } from "../store/session.ts";
import type { DocumentState } from "../store/state.ts";
import type { Change } from "./change.ts";

/** A step with its document open: what undo goes through. */
export interface Step extends DocumentState {
  readonly document: SceneDocument;
}

/** What the list of projects tells, and what a save is checked against. */
export interface ProjectRecord {
  readonly id: string;
  /** The title of the scene as it stands. */
  readonly title: string;
  readonly made_ms: number;
  readonly changed_ms: number;
  /** Raised by each save; a save that does not know the newest one is refused. */
  readonly revision: number;
  /** Steps kept, the first state included. */
  readonly steps: number;
  /** Which of them is shown. */
  readonly at: number;
  readonly points: number;
  readonly parts: number;
  /** Of the scene as it stands, its mesh files and its steps, about. */
  readonly bytes: number;
  /** File name of the sample it was begun from. */
  readonly sample: string | null;
  /** Mesh files by the path that the scene names, and where their bytes are. */
  readonly meshes: readonly MeshRecord[];
  /** When it was deleted; it can be put back for a while. */
  readonly deleted_ms: number | null;
}

export interface MeshRecord {
  readonly path: string;
  /** Two projects may share the bytes. */
  readonly bytesId: string;
  readonly bytes: number;
}

/** One step, whole or as the change from the step before it. */
export interface StepRecord {
  readonly project: string;
  readonly index: number;
  readonly stepName: string;
  readonly fileName: string;
  readonly whole?: SceneDocument;
  readonly change?: Change | null;
  /** Characters of the change, or of the whole, about; says when the next one must be whole. */
  readonly size: number;
}

export interface ProjectSchema extends DBSchema {
  projects: { key: string; value: ProjectRecord };
  steps: { key: [project: string, index: number]; value: StepRecord };
  meshes: { key: string; value: Uint8Array };
  settings: { key: string; value: unknown };
}

export interface Settings {
  readonly session: Partial<SavedSession>;
  readonly lastOpen: string | null;
}
