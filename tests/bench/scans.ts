import { figure, tableLines } from "./rounds.ts";
import { runScanCase } from "./scanFigures.ts";

/** Two open scans of a million triangles each beside 300 parts, of which some 40 move, in rest and two powertrain poses. */
export async function benchScans(say: (line: string) => void): Promise<void> {
  const figures = await runScanCase(1_000_000, false);
  const rows = [["stage", "processor ms", "wall ms", "peak MB"]];
  for (const { name, processor_ms, wall_ms, peak_MB } of figures.stages) {
    rows.push([name, figure(processor_ms), figure(wall_ms), figure(peak_MB)]);
  }
  for (const line of tableLines(rows)) say(line);
  const { bodies, moving, pairs, triangles } = figures;
  say(`${bodies} bodies, ${moving} moving; scans of ${triangles.join(" and ")} triangles; ${pairs} pairs.`);
  say(
    `First finding after ${figure(figures.firstFinding_ms)} ms of the sweep; longest without progress ${figure(figures.longestWithoutProgress_ms)} ms ` +
      `(${figures.longestWithoutProgress}), without asking for a stop ${figure(figures.longestWithoutPoll_ms)} ms (${figures.longestWithoutPoll}); processor time.`,
  );
}
