/** One of several jobs that are timed in turn. */
export interface Contender {
  readonly name: string;
  /** Does the job once. A number it answers (promised or not) is its own milliseconds, of another process; else it is timed from outside. */
  run(): unknown;
}

export interface Spread {
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

/**
 * Processor time of this process so far, its helper threads' (garbage collection, compilation) as well: on a machine that others
 * use too it tells what a job costs, where the clock tells how long it was kept waiting.
 */
export function processor_ms(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** Milliseconds of each contender by name: A B C A B C …, so that a busy machine slows them alike; one round before, uncounted. */
export async function runRounds(contenders: readonly Contender[], rounds: number): Promise<Map<string, Spread>> {
  const spent = new Map(contenders.map(({ name }) => [name, [] as number[]]));
  for (let round = 0; round <= rounds; round++) {
    for (const contender of contenders) {
      const start = processor_ms();
      const own = await contender.run();
      const ms = typeof own === "number" ? own : processor_ms() - start;
      if (round > 0) spent.get(contender.name)!.push(ms);
    }
  }
  return new Map([...spent].map(([name, all]) => [name, spreadOf(all)]));
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  return { median: sorted[sorted.length >> 1]!, least: sorted[0]!, most: sorted[sorted.length - 1]! };
}

export function scaled({ median, least, most }: Spread, factor: number): Spread {
  return { median: median * factor, least: least * factor, most: most * factor };
}

export function spreadText({ median, least, most }: Spread): string {
  return `${figure(median)} (${figure(least)}–${figure(most)})`;
}

/** Three figures that count. */
export function figure(value: number): string {
  if (value >= 100) return value.toFixed(0);
  return value >= 10 ? value.toFixed(1) : value.toFixed(2);
}

/** Columns as wide as their widest cell, the first to the left, the others to the right. */
export function tableLines(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, k) => Math.max(...rows.map((row) => row[k]!.length)));
  return rows.map((row) =>
    row
      .map((cell, k) => (k === 0 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!)))
      .join("  ")
      .trimEnd(),
  );
}
