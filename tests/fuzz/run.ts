import { openSync, writeSync } from "node:fs";
import { parentPort, workerData } from "node:worker_threads";
import { caseOf } from "./caseOf.ts";
import type { Handed } from "./door.ts";
import { DOORS } from "./doors.ts";
import { faultOfRefusal } from "./refusal.ts";
import { savedCases } from "./saved.ts";
import type { Job } from "./watch.ts";

/** The most memory that the process may ever have had, kilobytes. */
const MOST_KB = 1_000_000;
const TALLY_EVERY = 100;

interface Work {
  readonly jobs: readonly Job[];
  readonly seed: number;
  /** Numbers of the job and of the case in work, and of the cases read and refused that are not told yet: for the thread that watches. */
  readonly now: SharedArrayBuffer;
  /** File that says the same to whoever finds the process gone. */
  readonly progress: string;
}

const { jobs, seed, now, progress } = workerData as Work;
const say = (line: object) => parentPort!.postMessage(line);

/** Opens all cases of all jobs, one after the other, and tells what it finds. */
export async function run(): Promise<void> {
  const place = openSync(progress, "w");
  const at = new Int32Array(now);
  for (const [number, job] of jobs.entries()) {
    await runJob(job, at, (index) => {
      // the case last: it says that the job is there too
      Atomics.store(at, 0, number);
      Atomics.store(at, 1, index);
      writeSync(place, JSON.stringify({ door: job.door, isSaved: job.isSaved, index }).padEnd(200), 0);
    });
  }
  say({ kind: "done" });
}

async function runJob(
  { door: name, isSaved, from, to }: Job,
  at: Int32Array,
  begins: (index: number) => void,
): Promise<void> {
  const door = DOORS.find((each) => each.name === name)!;
  const saved = isSaved ? savedCases(door) : [];
  const handedAt = (index: number): Handed => (isSaved ? saved[index]!.handed() : caseOf(door, seed, index));
  const tally = () => {
    say({ kind: "tally", door: name, read: at[2], refused: at[3] });
    at.fill(0, 2);
  };
  for (let index = from; index < to; index++) {
    begins(index);
    const handed = handedAt(index);
    let fault: string | null = null;
    try {
      await door.open(handed);
      at[2]!++;
    } catch (error) {
      fault = faultOfRefusal(error);
      if (fault === null) at[3]!++;
    }
    const found = { door: name, isSaved, seed, index };
    if (fault !== null) say({ kind: "found", ...found, what: fault });
    const { maxRSS } = process.resourceUsage();
    if (index % TALLY_EVERY === 0) tally();
    if (maxRSS > MOST_KB) say({ kind: "memory", ...found, what: `${Math.round(maxRSS / 1000)} MB` });
  }
  tally();
}
