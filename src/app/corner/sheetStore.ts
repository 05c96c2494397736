import { create } from "zustand";

/** Which sheet lies below the view of a narrow window; neither saved nor undone. */
export const useCornerSheet = create<{ readonly sheet: "verdicts" | "curves" }>()(() => ({ sheet: "verdicts" }));
