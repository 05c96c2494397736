export type Spot = readonly [x: number, y: number];

/** SVG path of straight runs through the spots, to a tenth of a pixel. */
export function linePath(spots: readonly Spot[]): string {
  return spots.map(([x, y], i) => `${i ? "L" : "M"}${x.toFixed(1)} ${y.toFixed(1)}`).join("");
}

/** A value across at a height, for curves that stand upright. */
export interface Reading {
  readonly travel_mm: number;
  readonly value: number;
}

/**
 * The runs of an upright curve whose value lies below `limit`, cut exactly where the straight run between two readings
 * crosses it.
 */
export function runsBelow(readings: readonly Reading[], limit: number): Reading[][] {
  const runs: Reading[][] = [];
  let run: Reading[] = [];
  for (let i = 0; i < readings.length; i++) {
    const here = readings[i]!;
    const before = readings[i - 1];
    if (before && before.value < limit !== here.value < limit) {
      const share = (limit - before.value) / (here.value - before.value);
      const cut = { travel_mm: before.travel_mm + share * (here.travel_mm - before.travel_mm), value: limit };
      run.push(cut);
      if (here.value >= limit) {
        runs.push(run);
        run = [];
      }
    }
    if (here.value < limit) run.push(here);
  }
  if (run.length > 0) runs.push(run);
  return runs;
}

/** The value at a travel between readings (straight between them); null outside their range. */
export function valueAt(readings: readonly Reading[], travel_mm: number): number | null {
  const first = readings[0];
  const last = readings.at(-1);
  if (!first || !last || travel_mm < first.travel_mm - 1e-9 || travel_mm > last.travel_mm + 1e-9) return null;
  for (let i = 1; i < readings.length; i++) {
    const [a, b] = [readings[i - 1]!, readings[i]!];
    if (travel_mm > b.travel_mm) continue;
    const span = b.travel_mm - a.travel_mm;
    return span === 0 ? b.value : a.value + ((travel_mm - a.travel_mm) / span) * (b.value - a.value);
  }
  return last.value;
}
