import { InputError } from "../../scene/error.ts";
import type { Pen } from "../paper/pen.ts";

/** How much larger a sheet is drawn than it shall come out, across and down the page: 1 is as it is. */
export interface Correction {
  readonly across: number;
  readonly down: number;
}

export const NO_CORRECTION: Correction = { across: 1, down: 1 };

export const BAR_mm = 100;
/** 4 in of 25.4 mm (international yard and pound agreement, 1959). */
export const INCH_BAR_mm = 101.6;

/** Past this a sheet was shrunk on purpose, or the wrong bar was read. */
const MOST_OFF = 0.1;

/**
 * What a sheet must be multiplied by after its 100 mm bar came out as measured: 97 asks for 103.1 %. Throws InputError `wrong-value` for what
 * no printer does to a page.
 */
export function correctionFor(measured_mm: number, path = "bar"): number {
  if (!(Math.abs(measured_mm / BAR_mm - 1) <= MOST_OFF))
    throw new InputError(
      "wrong-value",
      { path },
      `the 100 mm bar is said to measure ${measured_mm} mm`,
      `${BAR_mm * (1 - MOST_OFF)} to ${BAR_mm * (1 + MOST_OFF)} mm, read off the bar marked 100 mm`,
    );
  return BAR_mm / measured_mm;
}

/** Room that the bars take below and beside what is drawn, mm, at the largest correction. */
export const BARS_mm = { below: 13, beside: 15 } as const;

const TICK_mm = 2;

/** The bars across, one above the other, from the pen's corner. */
export function drawBarsAcross(pen: Pen, { across }: Correction): void {
  bar(
    across,
    BAR_mm,
    10,
    (from, to) => pen.line([from, 4], [to, 4], THIN),
    (at) => pen.line([at, 4 - TICK_mm], [at, 4], THIN),
  );
  pen.text("100 mm", [BAR_mm * across + 2, 4.6], SMALL);
  bar(
    across,
    INCH_BAR_mm,
    25.4,
    (from, to) => pen.line([from, 10], [to, 10], THIN),
    (at) => pen.line([at, 10 - TICK_mm], [at, 10], THIN),
  );
  pen.text("4 in", [INCH_BAR_mm * across + 2, 10.6], SMALL);
}

/** The bars down, side by side, from the pen's corner. */
export function drawBarsDown(pen: Pen, { down }: Correction): void {
  bar(
    down,
    BAR_mm,
    10,
    (from, to) => pen.line([4, from], [4, to], THIN),
    (at) => pen.line([4 - TICK_mm, at], [4, at], THIN),
  );
  pen.text("100 mm", [4.6, BAR_mm * down + 2], { ...SMALL, turn_deg: -90 });
  bar(
    down,
    INCH_BAR_mm,
    25.4,
    (from, to) => pen.line([10, from], [10, to], THIN),
    (at) => pen.line([10 - TICK_mm, at], [10, at], THIN),
  );
  pen.text("4 in", [10.6, INCH_BAR_mm * down + 2], { ...SMALL, turn_deg: -90 });
}

const THIN = { width_mm: 0.18 };
const SMALL = { size_mm: 2.6 };

function bar(
  scale: number,
  length_mm: number,
  step_mm: number,
  line: (from: number, to: number) => void,
  tick: (at: number) => void,
): void {
  line(0, length_mm * scale);
  const steps = Math.round(length_mm / step_mm);
  for (let i = 0; i <= steps; i++) tick(i * step_mm * scale);
}
