import { create } from "zustand";
import type { LoadsReport } from "../../loads/report.ts";
import type { Side } from "../../scene/scene.ts";
import type { Told } from "../store/reports.ts";
import { app } from "../store/useApp.ts";

export type LoadsTab = "forces" | "screening" | "given";

interface LoadsLook {
  readonly tab: LoadsTab;
  /** Id of the case whose forces are shown; null, or one that is gone: the first. */
  readonly caseId: string | null;
  readonly side: Side;
  /** Joint ("upper.inboard"), part ("upper", "damper") or "ground" whose arrows are labelled. */
  readonly picked: string | null;
  /** Key of the table's row that stands open. */
  readonly openRow: string | null;
}

const LOOK: LoadsLook = { tab: "forces", caseId: null, side: "left", picked: null, openRow: null };

/** Neither saved nor undone. */
export const useLoadsLook = create<LoadsLook>()(() => LOOK);

/** Opens a row with its arrows labelled, or closes it. */
export function pick(row: string, arrows: string): void {
  const isOpen = useLoadsLook.getState().openRow === row;
  useLoadsLook.setState(isOpen ? { picked: null, openRow: null } : { picked: arrows, openRow: row });
}

const NOTHING: Told<LoadsReport> = { report: null, stale: false, error: null };

/** What the workshop told last of all cases and travels. */
export const useLoadsTold = create<Told<LoadsReport>>()(() => NOTHING);

app.subscribe((state, before) => {
  if (state.fileName === before.fileName) return;
  useLoadsLook.setState({ ...LOOK, tab: useLoadsLook.getState().tab });
  useLoadsTold.setState(NOTHING);
});
