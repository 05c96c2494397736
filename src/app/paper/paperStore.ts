import { create } from "zustand";
import type { Standing } from "../../fabrication/paper/words.ts";

/** What can be taken out of a scene or printed of it, in the order of the list; each has its form in `FORMS` beside. */
export const PAPER_KINDS = ["hardPoints", "jigSheet", "cutList", "templates", "picture", "exchange"] as const;
export type PaperKind = (typeof PAPER_KINDS)[number];

interface PaperLook {
  readonly open: boolean;
  /** The one that is shown. */
  readonly kind: PaperKind;
  /** As the builder names it ("C"); printed beside the scene's fingerprint. */
  readonly revision: string;
  readonly standing: Standing;
}

/** Neither saved nor undone. */
export const usePaper = create<PaperLook>()(() => ({
  open: false,
  kind: "hardPoints",
  revision: "",
  standing: "drawn",
}));

export function showPaper(kind: PaperKind = usePaper.getState().kind): void {
  usePaper.setState({ open: true, kind });
}

export function closePaper(): void {
  usePaper.setState({ open: false });
}
