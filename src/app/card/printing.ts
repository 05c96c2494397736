import { create } from "zustand";
import type { Card } from "../../buildlog/entry.ts";
import { PAPER_mm, type Paper } from "../../fabrication/paper/sizes.ts";
import type { Unit } from "../store/state.ts";

export { PAPER_mm, type Paper };

export interface PrintJob {
  readonly cards: readonly Card[];
  readonly unit: Unit;
}

interface Printing {
  readonly paper: Paper;
  readonly job: PrintJob | null;
  /** The cards that stand open: laid out beforehand, for the browser's own print command, which waits for nothing. */
  readonly open: PrintJob | null;
  choosePaper(paper: Paper): void;
  print(job: PrintJob): void;
  done(): void;
  setOpen(open: PrintJob | null): void;
}

export const usePrinting = create<Printing>()((set) => ({
  paper: usualPaper(globalThis.navigator?.language ?? "en-GB"),
  job: null,
  open: null,
  choosePaper: (paper) => set({ paper }),
  print: (job) => set({ job }),
  done: () => set({ job: null }),
  setOpen: (open) => set({ open }),
}));

/** Letter where the trade's paper is Letter (common practice, no source), A4 in the rest of the world. */
export function usualPaper(language: string): Paper {
  const region = language.split("-")[1]?.toUpperCase() ?? (language.toLowerCase() === "en" ? "US" : "");
  return ["US", "CA", "MX", "PH", "CL", "CO"].includes(region) ? "letter" : "a4";
}
