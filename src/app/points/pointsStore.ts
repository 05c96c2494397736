import { create } from "zustand";
import type { Meaning } from "./pointInfo.ts";

interface PointsLook {
  /** Id of the datum that coordinates are read from; null: ground, centre plane, axle line. */
  readonly datumId: string | null;
  /** What a move means, as the builder last chose; null: what is usual for the point. */
  readonly meaning: Meaning | null;
  readonly list: "points" | "parts";
  /** Whether the table of all points stands open below the view. */
  readonly tableOpen: boolean;
}

/** How the builder looks at points; neither saved nor undone. */
export const usePointsLook = create<PointsLook>()(() => ({
  datumId: null,
  meaning: null,
  list: "points",
  tableOpen: false,
}));
