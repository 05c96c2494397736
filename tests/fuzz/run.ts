import { openSync, writeSync } from "node:fs";
import { parentPort, workerData } from "node:worker_threads";
import { caseOf } from "./caseOf.ts";
import type { Handed } from "./door.ts";
import { DOORS } from "./doors.ts";
import { faultOfRefusal } from "./refusal.ts";
import { savedCases } from "./saved.ts";

/** The most memory that the process may ever have had, kilobytes. */
const MOST_KB = 1_000_000;
const TALLY_EVERY = 100;

interface Work {
  readonly door: string;
  readonly seed: number;
  readonly from: number;
  readonly to: number;
  /** The saved cases instead of drawn ones. */
  readonly isSaved: boolean;
  /** Number of the case in work, for the thread that watches. */
  readonly now: SharedArrayBuffer;
  /** File that says the same to whoever finds the process gone. */
  readonly progress: string;
}

/** Opens the cases `from` to `to` of a door, one after the other, and tells what it finds. */
export async function run(): Promise<void> {
  const { door: name, seed, from, to, isSaved, now, progress } = workerData as Work;
  const door = DOORS.find((each) => each.name === name)!;
  const handedAt = (index: number): Handed => (isSaved ? savedCases(door)[index]!.handed() : caseOf(door, seed, index));
  const place = openSync(progress, "w");
  const at = new Int32Array(now);
  let [read, refused] = [0, 0];
  const say = (line: object) => parentPort!.postMessage(line);
  const tally = () => {
    say({ kind: "tally", door: name, read, refused });
    [read, refused] = [0, 0];
  };
  for (let index = from; index < to; index++) {
    Atomics.store(at, 0, index);
    writeSync(place, JSON.stringify({ door: name, index }).padEnd(200), 0);
    const handed = handedAt(index);
    let fault: string | null = null;
    try {
      await door.open(handed);
      read++;
    } catch (error) {
      fault = faultOfRefusal(error);
      if (fault === null) refused++;
    }
    if (fault !== null) say({ kind: "found", door: name, seed, index, what: fault });
    const { maxRSS } = process.resourceUsage();
    const hasGrown = maxRSS > MOST_KB;
    if (hasGrown || index % TALLY_EVERY === 0) tally();
    if (hasGrown) say({ kind: "memory", door: name, seed, index, what: `${Math.round(maxRSS / 1000)} MB` });
  }
  tally();
  say({ kind: "done" });
}
