import type { JigMount } from "../../studies/jig/jig.ts";
import { DIRECTIONS, type Direction } from "../../studies/jig/sensitivity.ts";

export interface CareBars {
  /** Where on every bar all of what is asked is used up, 0 to 1. */
  readonly full: number;
  /** Length of the bar of each direction, 0 to 1. */
  of(mount: Pick<JigMount, "within_mm">): Readonly<Record<Direction, number>>;
}

/** Air behind the line at which all is used up, and beyond the longest bar. */
const AIR = 1.15;
/** A bar this many times what is asked is cut off: the others would vanish beside it. */
const MOST = 5;

/**
 * Bars of how much of the asked toe or camber an error of `accuracy_mm` uses up, on one scale for all mounts; an error that hardly
 * matters has none.
 */
export function careBars(mounts: readonly Pick<JigMount, "within_mm">[], accuracy_mm: number): CareBars {
  const used = (within_mm: number | null) => (within_mm === null ? 0 : Math.min(MOST, accuracy_mm / within_mm));
  const all = mounts.flatMap(({ within_mm }) => DIRECTIONS.map((direction) => used(within_mm[direction])));
  const scale = AIR * Math.max(1, ...all);
  return {
    full: 1 / scale,
    of({ within_mm }) {
      const { forward, out, up } = within_mm;
      return { forward: used(forward) / scale, out: used(out) / scale, up: used(up) / scale };
    },
  };
}
