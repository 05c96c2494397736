import { create } from "zustand";
import { app } from "../store/useApp.ts";

interface GhostsLook {
  readonly bump: boolean;
  readonly droop: boolean;
  /** Engine pose whose ghost is shown; null: none. */
  readonly pose: string | null;
}

const NONE: GhostsLook = { bump: false, droop: false, pose: null };

/** Which other states are shown beside the present one; neither saved nor undone. */
export const useGhosts = create<GhostsLook>()(() => NONE);

app.subscribe((state, before) => {
  if (state.fileName !== before.fileName) useGhosts.setState(NONE);
});
