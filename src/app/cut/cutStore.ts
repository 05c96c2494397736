import { create } from "zustand";
import { app } from "../store/useApp.ts";

/** How the section plane lies: across the car, along it, level, or along the axis of a part. */
export type CutWay = "across" | "along" | "level" | "axis";

interface CutLook {
  /** null: nothing is cut. */
  readonly way: CutWay | null;
  /** Where the plane stands along its own axis, mm; from the part's axis where it follows one. */
  readonly offset_mm: number;
  /** Hard point that the plane goes through, whose place counts instead of the offset; null: none. */
  readonly point: string | null;
  /** Key of the body whose axis the plane holds; null: none is chosen yet. */
  readonly body: string | null;
  /** Whether the other half is cut away. */
  readonly isFlipped: boolean;
}

const NONE: CutLook = { way: null, offset_mm: 0, point: null, body: null, isFlipped: false };

/** Neither saved nor undone. */
export const useCut = create<CutLook>()(() => NONE);

export function chooseWay(way: CutWay | null): void {
  const { offset_mm } = useCut.getState();
  // an offset along one axis means nothing along another
  useCut.setState({ way, point: null, offset_mm: way === null ? offset_mm : START_mm[way], isFlipped: false });
}

/** Where a plane first stands: by the axle line, through a wheel's inner side, above the hubs, on the axis itself. */
const START_mm: Readonly<Record<CutWay, number>> = { across: 0, along: 0, level: 350, axis: 0 };

export function moveTo(offset_mm: number): void {
  useCut.setState({ offset_mm, point: null });
}

// what a plane went through belongs to the car that was open
app.subscribe((state, before) => {
  if (state.fileName !== before.fileName) useCut.setState(NONE);
});
