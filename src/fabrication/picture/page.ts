import { dot, type Vec3 } from "../../maths/vec3.ts";
import type { ViewAxes } from "./view.ts";

/** A rectangle of the sheet, mm from its upper left corner. */
export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** How far the drawn parts reach in the picture's axes, mm of the car. */
export interface Reach {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

export function reachOf(places: readonly Vec3[], { right, up }: ViewAxes): Reach | null {
  const reach = { left: Infinity, right: -Infinity, low: Infinity, high: -Infinity };
  for (const p of places) {
    const [x, y] = [dot(right, p), dot(up, p)];
    reach.left = Math.min(reach.left, x);
    reach.right = Math.max(reach.right, x);
    reach.low = Math.min(reach.low, y);
    reach.high = Math.max(reach.high, y);
  }
  return Number.isFinite(reach.left) ? reach : null;
}

/**
 * Ratios that a rule can be used with: those of ISO 5455 (1, 2, 5, 10, 20, 50, 100) and what workshops draw in between, common
 * practice.
 */
const RATIOS = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500] as const;

/** The largest such scale at which something of this size fits; null where none does. */
export function ratioFor(width_mm: number, height_mm: number, room: Rectangle): number | null {
  return RATIOS.find((ratio) => width_mm / ratio <= room.width && height_mm / ratio <= room.height) ?? null;
}

/** A round length for the bar: no longer than `most_mm` of the car, the largest of 1, 2 and 5 times a power of ten. */
export function barLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return power * ([5, 2].find((times) => times * power <= most) ?? 1);
}
