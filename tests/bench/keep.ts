import { readFileSync, writeFileSync } from "node:fs";
import { type Pair, pairsToKeep } from "./beside.ts";
import {
  comparedLines,
  compareRuns,
  fasterOf,
  isWorse,
  type Measured,
  ratioOf,
  ratioText,
  readRun,
  type SavedRun,
} from "./ratios.ts";
import { processor_ms, tableLines } from "./rounds.ts";

type Say = (line: string) => void;

/** Each job is done so often that it takes this long: the processor's clock ticks coarsely. */
const LONG_ENOUGH_ms = 80;
const ROUNDS = 11;

/**
 * Measures every pair, and saves the run, of every job the faster of two measures; or holds it against a saved one, and measures
 * again what seems slower before it says so. Whether nothing got slower.
 */
export async function keepSpeed(how: "save" | "compare", file: string, say: Say): Promise<boolean> {
  const before = how === "compare" ? readRun(readFileSync(file, "utf8"), file) : null;
  const pairs = await pairsToKeep();
  const first = await measure(pairs);
  if (before) {
    const suspects = compareRuns(before, first).filter(({ change }) => change === "slower");
    const isSuspect = (pair: Pair) => suspects.some(({ job, peer }) => job === pair.job && peer === pair.peer);
    const compared = compareRuns(before, fasterOf(first, await measure(pairs.filter(isSuspect))));
    comparedLines(compared).forEach(say);
    say(
      "Share of the peer's processor time, median of the rounds and their middle half. Slower: a tenth more, the middle halves apart, and so when measured again.",
    );
    return !isWorse(compared);
  }
  const now = fasterOf(first, await measure(pairs));
  writeFileSync(file, `${JSON.stringify(now, roundNumber, 2)}\n`);
  const rows = now.jobs.map(({ job, peer, ratio }) => [job, peer, ratioText(ratio)]);
  tableLines([["job", "peer", "of its time"], ...rows]).forEach(say);
  return true;
}

async function measure(pairs: readonly Pair[]): Promise<SavedRun> {
  const measured: Measured[] = [];
  for (const { job, peer, ours, theirs } of pairs) {
    const [our, their] = [await timesFor(ours), await timesFor(theirs)];
    const ratios: number[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      // who comes first changes, so that neither always finds the other's rubbish
      const first = round % 2 === 0;
      const one = await spent_ms(first ? ours : theirs, first ? our : their);
      const other = await spent_ms(first ? theirs : ours, first ? their : our);
      const [us, them] = first ? [one, other] : [other, one];
      ratios.push(us / our / (them / their));
    }
    measured.push({ job, peer, ratio: ratioOf(ratios), rounds: ROUNDS });
  }
  return { format: "elbowroom.bench", version: 1, jobs: measured };
}

/** How often it has to be done to take long enough; done for longer before that, so that it is compiled. */
async function timesFor(work: () => unknown): Promise<number> {
  for (let warm_ms = 0; warm_ms < 3 * LONG_ENOUGH_ms; ) warm_ms += await spent_ms(work, 1);
  let times = 1;
  while (true) {
    const ms = await spent_ms(work, times);
    if (ms >= LONG_ENOUGH_ms) return times;
    times = ms < 1 ? times * 8 : Math.ceil((times * LONG_ENOUGH_ms * 1.2) / ms);
  }
}

async function spent_ms(work: () => unknown, times: number): Promise<number> {
  const start = processor_ms();
  for (let i = 0; i < times; i++) await work();
  return processor_ms() - start;
}

function roundNumber(_: string, value: unknown): unknown {
  return typeof value === "number" ? Number(value.toPrecision(4)) : value;
}
