import { tableLines } from "./rounds.ts";

/** How often the peer's time a job took, over the rounds of one run: its middle, and the quarter of the rounds below and above. */
export interface Ratio {
  readonly median: number;
  readonly low: number;
  readonly high: number;
}

export interface Measured {
  readonly job: string;
  /** The library that did the same job in the same rounds. */
  readonly peer: string;
  /** Ours over the peer's: less is faster. */
  readonly ratio: Ratio;
  readonly rounds: number;
}

/** What a run is saved as. Nothing in it hangs on how fast the machine is. */
export interface SavedRun {
  readonly format: "elbowroom.bench";
  readonly version: 1;
  readonly jobs: readonly Measured[];
}

export type Change = "slower" | "faster" | "as before" | "new" | "gone";

export interface Compared {
  readonly job: string;
  readonly peer: string;
  readonly before: Ratio | null;
  readonly now: Ratio | null;
  /** Now over before, of the medians; null where one of them is missing. */
  readonly times: number | null;
  readonly change: Change;
}

/** A change of less is not told, however sure it is. */
export const TOLD = 0.1;

/** Median and quartiles, between the two nearest where they fall between (Hyndman and Fan, 1996, definition 7: from memory). */
export function ratioOf(values: readonly number[]): Ratio {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number => {
    const place = share * (sorted.length - 1);
    const below = Math.floor(place);
    const [a, b] = [sorted[below]!, sorted[Math.min(below + 1, sorted.length - 1)]!];
    return a + (b - a) * (place - below);
  };
  return { median: at(0.5), low: at(0.25), high: at(0.75) };
}

/**
 * Slower: the median ratio grew by more than a tenth, and the quarter of the rounds that was fastest now lies above the quarter
 * that was slowest before: the middle halves of the rounds do not overlap. Faster likewise. A job that is not measured any more counts
 * as a fault (`isWorse`), so that a slow one cannot be left out.
 */
export function compareRuns(before: SavedRun, now: SavedRun): Compared[] {
  const old = new Map(before.jobs.map((one) => [keyOf(one), one]));
  const fresh = new Map(now.jobs.map((one) => [keyOf(one), one]));
  const kept = now.jobs.map((one): Compared => {
    const was = old.get(keyOf(one));
    const times = was ? one.ratio.median / was.ratio.median : null;
    return {
      job: one.job,
      peer: one.peer,
      before: was?.ratio ?? null,
      now: one.ratio,
      times,
      change: was && times !== null ? changeOf(was.ratio, one.ratio, times) : "new",
    };
  });
  const gone = before.jobs
    .filter((one) => !fresh.has(keyOf(one)))
    .map(({ job, peer, ratio }): Compared => ({ job, peer, before: ratio, now: null, times: null, change: "gone" }));
  return [...kept, ...gone];
}

/** Of a job that was measured twice the faster measure counts: what else is on the machine, and code not yet compiled, only ever slow it. */
export function fasterOf(first: SavedRun, second: SavedRun): SavedRun {
  const again = new Map(second.jobs.map((one) => [keyOf(one), one]));
  const jobs = first.jobs.map((one) => {
    const other = again.get(keyOf(one));
    return other && other.ratio.median < one.ratio.median ? other : one;
  });
  return { ...first, jobs };
}

export function isWorse(compared: readonly Compared[]): boolean {
  return compared.some(({ change }) => change === "slower" || change === "gone");
}

/** What a reviewer reads: what got slower first. */
export function comparedLines(compared: readonly Compared[]): string[] {
  const rank: Record<Change, number> = { slower: 0, gone: 1, faster: 2, new: 3, "as before": 4 };
  const sorted = [...compared].sort((a, b) => rank[a.change] - rank[b.change]);
  const rows = sorted.map(({ job, peer, before, now, times, change }) => [
    job,
    peer,
    before ? ratioText(before) : "",
    now ? ratioText(now) : "",
    times === null ? "" : `${times >= 1 ? "+" : "−"}${Math.abs((times - 1) * 100).toFixed(0)} %`,
    change,
  ]);
  return tableLines([["job", "peer", "before", "now", "change", ""], ...rows]);
}

/** "0.123 (0.119–0.131)": of the peer's time. */
export function ratioText({ median, low, high }: Ratio): string {
  return `${three(median)} (${three(low)}–${three(high)})`;
}

/** Throws an Error that says what is wrong with a saved run. */
export function readRun(text: string, file: string): SavedRun {
  let read: Partial<SavedRun> | null;
  try {
    read = JSON.parse(text);
  } catch {
    throw new Error(`${file} is not JSON; wanted: what --save wrote`);
  }
  const isRatio = (ratio?: Partial<Ratio>) =>
    [ratio?.low, ratio?.median, ratio?.high].every((value) => Number.isFinite(value) && value! > 0);
  const isRun =
    read?.format === "elbowroom.bench" &&
    read.version === 1 &&
    Array.isArray(read.jobs) &&
    read.jobs.every(({ job, peer, ratio }) => typeof job === "string" && typeof peer === "string" && isRatio(ratio));
  if (!isRun) throw new Error(`${file} is no saved run of the benchmarks; wanted: what --save wrote`);
  return read as SavedRun;
}

function changeOf(was: Ratio, is: Ratio, times: number): Change {
  if (times > 1 + TOLD && is.low > was.high) return "slower";
  return times < 1 / (1 + TOLD) && is.high < was.low ? "faster" : "as before";
}

function keyOf({ job, peer }: Measured): string {
  return `${job}\n${peer}`;
}

function three(value: number): string {
  return value.toPrecision(3);
}
