import { create } from "zustand";

interface PartsLook {
  readonly search: string;
  readonly shelfOpen: boolean;
  readonly asks: "rename" | "copy" | "delete" | null;
  /** Whether the powertrain's place is open instead of a part. */
  readonly powertrainOpen: boolean;
}

/** How the builder looks at parts; neither saved nor undone. */
export const usePartsLook = create<PartsLook>()(() => ({
  search: "",
  shelfOpen: false,
  asks: null,
  powertrainOpen: false,
}));

export function openShelf(): void {
  usePartsLook.setState({ shelfOpen: true });
}

export function ask(asks: PartsLook["asks"]): void {
  usePartsLook.setState({ asks });
}
