import { create } from "zustand";
import { MM_PER_INCH } from "../../../scene/length.ts";
import type { Unit } from "../../store/state.ts";
import type { Direction } from "../usePointMove.ts";
import { ALL_FREE, type Free } from "./constrain.ts";
import type { SnapKind } from "./snap.ts";

interface DragLook {
  readonly free: Free;
  readonly kinds: ReadonlySet<SnapKind>;
  /** Which of GRIDS; 0 is none. */
  readonly grid: number;
  /** What is being dragged now, and what holds it. */
  readonly live: { readonly free: Free; readonly by: string | null } | null;
}

/** How points are dragged; neither saved nor undone. */
export const useDrag = create<DragLook>()(() => ({
  free: ALL_FREE,
  // parts take the point out of the plane it is dragged in: the builder asks for that
  kinds: new Set<SnapKind>(["points", "mirror"]),
  grid: 1,
  live: null,
}));

/** Grid steps, none first; those of the nudge buttons. */
export const GRIDS_mm: Readonly<Record<Unit, readonly number[]>> = {
  mm: [0, 1, 5, 10],
  in: [0, MM_PER_INCH / 16, MM_PER_INCH / 4, MM_PER_INCH / 2],
};

/** Lets a direction move or holds it; when none would be left, all are free again. */
export function toggleFree(direction: Direction): void {
  const free = new Set(useDrag.getState().free);
  if (!free.delete(direction)) free.add(direction);
  useDrag.setState({ free: free.size === 0 ? ALL_FREE : free });
}

export function toggleKind(kind: SnapKind): void {
  const kinds = new Set(useDrag.getState().kinds);
  if (!kinds.delete(kind)) kinds.add(kind);
  useDrag.setState({ kinds });
}
