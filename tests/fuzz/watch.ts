import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import type { Door } from "./door.ts";

/** A case that was not opened as it should be. */
export interface Found {
  /** `found`: neither a true reading nor a refusal that names place and mend; else what became of the program. */
  readonly kind: "found" | "memory" | "hang" | "crash";
  readonly door: string;
  readonly seed: number;
  readonly index: number;
  readonly what: string;
}

export interface Told {
  /** Cases that were opened, by door, and how they ended. */
  readonly doors: Map<string, { read: number; refused: number }>;
  readonly found: Found[];
}

interface Job {
  readonly door: string;
  readonly from: number;
  readonly to: number;
}

interface Orders {
  readonly seed: number;
  readonly jobs: readonly Job[];
  readonly isSaved: boolean;
  /** File that says which case is in work. */
  readonly progress: string;
}

const child = fileURLToPath(new URL("child.mjs", import.meta.url));

/**
 * Opens that many cases of each door, from number `start` on, in processes of their own: a new one whenever one goes down or has
 * grown too large.
 */
export function openCases(seed: number, counts: ReadonlyMap<string, number>, start = 0): Promise<Told> {
  return openAll(seed, counts, start, false);
}

/** The same with the cases that are saved. */
export function openSaved(counts: ReadonlyMap<string, number>): Promise<Told> {
  return openAll(0, counts, 0, true);
}

async function openAll(
  seed: number,
  counts: ReadonlyMap<string, number>,
  start: number,
  isSaved: boolean,
): Promise<Told> {
  const folder = mkdtempSync(join(tmpdir(), "elbowroom-fuzz-"));
  const progress = join(folder, "progress");
  const told: Told = { doors: new Map(), found: [] };
  let jobs: Job[] = [...counts].map(([door, count]) => ({ door, from: start, to: start + count }));
  try {
    while (jobs.length > 0) jobs = await runChild({ seed, jobs, isSaved, progress }, told);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return told;
}

/** What is left to do when the process has ended. */
async function runChild(orders: Orders, told: Told): Promise<Job[]> {
  const { seed, jobs, progress } = orders;
  const running = spawn(process.execPath, [child, JSON.stringify(orders)], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  let isWhole = false;
  let hasGrown: { door: string; index: number } | null = null;
  for await (const line of createInterface({ input: running.stdout })) {
    const said = JSON.parse(line);
    if (said.kind === "end") isWhole = true;
    else if (said.kind === "tally") {
      const so = told.doors.get(said.door) ?? { read: 0, refused: 0 };
      told.doors.set(said.door, { read: so.read + said.read, refused: so.refused + said.refused });
    } else {
      if (hasGrown) continue;
      told.found.push(said);
      if (process.env.FUZZ_TELL) console.log(JSON.stringify(said).slice(0, 600));
      // its peak stays with the process: only a new one can tell of the next case
      if (said.kind === "memory") {
        hasGrown = said;
        running.kill("SIGKILL");
      }
    }
  }
  if (isWhole) return [];
  const at: { door: string; index: number } = hasGrown ?? JSON.parse(readFileSync(progress, "utf8"));
  if (!hasGrown) told.found.push({ kind: "crash", ...at, seed, what: "the process went down" });
  const here = jobs.findIndex(({ door }) => door === at.door);
  return jobs.slice(here).flatMap((job, i) => {
    const left = i === 0 ? { ...job, from: Math.max(job.from, at.index + 1) } : job;
    return left.from < left.to ? [left] : [];
  });
}

/** That many cases in all, shared out among the doors. */
export function countsOf(cases: number, doors: readonly Door[]): Map<string, number> {
  const all = doors.reduce((sum, { share }) => sum + share, 0);
  return new Map(doors.map(({ name, share }) => [name, Math.max(1, Math.round((cases * share) / all))]));
}
