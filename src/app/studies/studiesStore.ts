import { create } from "zustand";
import { toggleTool, useTools } from "../tools/toolsStore.ts";

/** What is worked out over many places or moves at once, in the order of the chooser. */
export const STUDIES = ["room", "moves", "jig", "asBuilt", "service", "together"] as const;
export type Study = (typeof STUDIES)[number];

interface StudiesLook {
  /** The one that is shown while the studies stand open. */
  readonly study: Study;
}

/** Neither saved nor undone. */
export const useStudies = create<StudiesLook>()(() => ({ study: "room" }));

export function openStudy(study: Study): void {
  useStudies.setState({ study });
  if (useTools.getState().open !== "studies") toggleTool("studies");
}

/** Whether that study is looked at. */
export function isStudyOpen(study: Study): boolean {
  return useTools.getState().open === "studies" && useStudies.getState().study === study;
}
