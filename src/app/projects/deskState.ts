import { createStore } from "zustand/vanilla";
import type { Mark } from "./mark.ts";
import type { ProjectRecord } from "./records.ts";

export interface DeskState {
  /** The open project; null: the page keeps no project (nothing open yet, or no storage). */
  readonly openId: string | null;
  /** All projects, deleted ones too, the one changed last first. */
  readonly list: readonly ProjectRecord[];
  /** What the browser kept and has thrown away. */
  readonly gone: Mark | null;
  /** The open project was gone too, and has been written again from the page. */
  readonly savedAnew: boolean;
  /** Something about a project that the builder should know, in words. */
  readonly note: string | null;
}

export function createDeskState() {
  return createStore<DeskState>()(() => ({ openId: null, list: [], gone: null, savedAnew: false, note: null }));
}

export type DeskStore = ReturnType<typeof createDeskState>;
