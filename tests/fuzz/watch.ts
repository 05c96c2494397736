import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import type { Door } from "./door.ts";
import { savedCases } from "./saved.ts";

/** A case that was not opened as it should be. */
export interface Found {
  /** `found`: neither a true reading nor a refusal that names place and mend; else what became of the program. */
  readonly kind: "found" | "memory" | "hang" | "crash";
  readonly door: string;
  readonly isSaved: boolean;
  readonly seed: number;
  readonly index: number;
  readonly what: string;
}

export interface Told {
  /** Cases that were opened, by door, and how they ended. */
  readonly doors: Map<string, { read: number; refused: number }>;
  readonly found: Found[];
  /** How often a process was begun anew since what many cases leave had added up to more than one case may take. */
  anew: number;
}

/** Cases of a door: drawn ones by their numbers, or of the saved ones. */
export interface Job {
  readonly door: string;
  readonly isSaved: boolean;
  readonly from: number;
  readonly to: number;
}

type Place = Pick<Found, "door" | "isSaved" | "index">;

/** More than a process takes to begin. */
const LEAST_OF_A_PROCESS = 4000;
const child = fileURLToPath(new URL("child.mjs", import.meta.url));

/** That many cases in all, shared out among the doors, from number `start` of each on. */
export function drawnJobs(cases: number, doors: readonly Door[], start = 0): Job[] {
  const all = doors.reduce((sum, { share }) => sum + share, 0);
  return doors.map(({ name, share }) => {
    const count = Math.max(1, Math.round((cases * share) / all));
    return { door: name, isSaved: false, from: start, to: start + count };
  });
}

export function savedJobs(doors: readonly Door[]): Job[] {
  const jobs = doors.map((door) => ({ door: door.name, isSaved: true, from: 0, to: savedCases(door).length }));
  return jobs.filter(({ to }) => to > 0);
}

/**
 * Opens the cases in processes of their own, several side by side where they are many: a new one whenever one goes down or has
 * grown too large.
 */
export async function openCases(seed: number, jobs: readonly Job[]): Promise<Told> {
  const told: Told = { doors: new Map(), found: [], anew: 0 };
  const count = jobs.reduce((sum, { from, to }) => sum + to - from, 0);
  const lanes = Math.max(1, Math.min(availableParallelism(), Math.floor(count / LEAST_OF_A_PROCESS)));
  const folder = mkdtempSync(join(tmpdir(), "elbowroom-fuzz-"));
  try {
    await Promise.all(
      Array.from({ length: lanes }, async (_, lane) => {
        const progress = join(folder, `progress-${lane}`);
        mkdirSync(`${progress}.files`);
        let left = jobs.flatMap((job) => share(job, lane, lanes));
        while (left.length > 0) left = await runChild(seed, left, progress, told);
      }),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return told;
}

/** One of several even shares of a job's cases. */
function share(job: Job, lane: number, lanes: number): Job[] {
  const at = (part: number) => job.from + Math.floor(((job.to - job.from) * part) / lanes);
  const [from, to] = [at(lane), at(lane + 1)];
  return from < to ? [{ ...job, from, to }] : [];
}

/** What is left to do when the process has ended. */
async function runChild(seed: number, jobs: readonly Job[], progress: string, told: Told): Promise<Job[]> {
  const running = spawn(process.execPath, [child, JSON.stringify({ seed, jobs, progress })], {
    stdio: ["ignore", "pipe", "inherit"],
    // what cases write goes with the folder, whatever becomes of the process
    env: { ...process.env, FUZZ_FILES: `${progress}.files` },
  });
  let isWhole = false;
  let grown: Found | null = null;
  for await (const line of createInterface({ input: running.stdout })) {
    const said = JSON.parse(line);
    if (said.kind === "end") isWhole = true;
    else if (said.kind === "tally") {
      const so = told.doors.get(said.door) ?? { read: 0, refused: 0 };
      told.doors.set(said.door, { read: so.read + said.read, refused: so.refused + said.refused });
    } else if (said.kind !== "memory") tell(said, told);
    else if (!grown) {
      // its peak stays with the process: only a new one can tell of the next case
      grown = said as Found;
      running.kill("SIGKILL");
    }
  }
  if (isWhole && !grown) return [];
  const at: Place = grown ?? JSON.parse(readFileSync(progress, "utf8"));
  const left = jobs.slice(jobs.findIndex(({ door, isSaved }) => door === at.door && isSaved === at.isSaved));
  const isFirst = left.length === jobs.length && left[0]!.from === at.index;
  if (grown && !isFirst) {
    // opened as the first of a process it tells what it takes by itself
    told.anew++;
    return [{ ...left[0]!, from: at.index }, ...left.slice(1)];
  }
  tell(grown ?? { kind: "crash", ...at, seed, what: "the process went down" }, told);
  return [{ ...left[0]!, from: at.index + 1 }, ...left.slice(1)].filter(({ from, to }) => from < to);
}

function tell(found: Found, told: Told): void {
  told.found.push(found);
  if (process.env.FUZZ_TELL) console.log(JSON.stringify(found).slice(0, 600));
}
