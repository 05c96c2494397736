/** A straight scale from a range of values to a range of pixels. */
export interface Scale {
  (value: number): number;
  readonly from: number;
  readonly to: number;
}

export function linearScale(from: number, to: number, fromPixel: number, toPixel: number): Scale {
  const perUnit = to === from ? 0 : (toPixel - fromPixel) / (to - from);
  return Object.assign((value: number) => fromPixel + (value - from) * perUnit, { from, to });
}

/** Round values (1, 2 or 5 times a power of ten) within the range, at most `most` of them. */
export function roundTicks(from: number, to: number, most: number): number[] {
  const span = to - from;
  if (!(span > 0) || most < 1) return [];
  const rough = span / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((size) => size >= rough * (1 - 1e-9))!;
  const ticks: number[] = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; k++) ticks.push(k * step);
  return ticks;
}

/** Distances between figures on a travel axis that read like a rule's, mm or inches. */
const TRAVEL_STEPS = { mm: [5, 10, 20, 40, 100, 200], in: [0.25, 0.5, 1, 2, 4, 8] } as const;

/** Figures of a travel axis, in the shown unit, at most `most` of them; ride height is always one. */
export function travelTicks(from: number, to: number, most: number, unit: "mm" | "in"): number[] {
  const step = TRAVEL_STEPS[unit].find((size) => (to - from) / size <= most) ?? TRAVEL_STEPS[unit].at(-1)!;
  const ticks: number[] = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; k++) ticks.push(k * step);
  return ticks;
}

/** Digits after the point that tell neighbouring ticks apart. */
export function tickDigits(ticks: readonly number[]): number {
  const step = ticks.length > 1 ? ticks[1]! - ticks[0]! : 1;
  return Math.max(0, -Math.floor(Math.log10(Math.abs(step)) + 1e-9));
}
