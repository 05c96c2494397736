import { Worker } from "node:worker_threads";
import type { CarriedBody } from "../../src/clearance/placeSearch.ts";
import { composePoses, identityPose, invertPose, POSE_SIZE, type Pose, poseOfTrack } from "../../src/maths/pose.ts";
import { buildFcl, type FclMode, type FclPeer, startFcl } from "./fcl/peer.ts";
import { type Fit, PLACE_COUNT, type PlacesCorner } from "./placesCorner.ts";
import { CAP_mm, type Question, Searcher, type Share, type ShareAnswer } from "./placesWorker.ts";
import { figure, processor_ms, spreadOf, spreadText, tableLines } from "./rounds.ts";
import { type PairSteps, REQUIRED_mm } from "./syntheticCorner.ts";

type Say = (line: string) => void;

const THREADS = 2;
const ROUNDS = 3;
/** Places of a round before, which does not count. */
const WARM_UP = { from: 4000, to: 4600 };
/** One thread alone gets a part of the places. */
const ALONE = { from: 4000, to: 6000 };
/** Depths, which take longest of all, are measured in so many places from the first in which something overlaps. */
const DEEP_PLACES = 60;
/** FCL gets runs of neighbouring places: where they begin, and how long they are. */
const SAMPLE = { from: [900, 4900, 8900], length: 20 };

const JOBS: readonly { readonly question: Question; readonly name: string; readonly fcl: FclMode }[] = [
  { question: "worst", name: "worst clearance of the corner", fcl: "places" },
  { question: "pairs", name: `every pair up to ${CAP_mm} mm`, fcl: "places-pairs" },
];
const HOW: Readonly<Record<"bolted" | "cut", string>> = {
  bolted: "the link bolted up, the wheel goes where the parts put it",
  cut: "the link cut to suit (two pieces that slide in each other), the wheel stays",
};

/**
 * Where the upper link's inboard pivot may live: 10,000 places and 21 states of the fine synthetic corner, on two threads that
 * have their own trees, and on one; the clearances beside FCL's on a sample of the places.
 */
export async function benchPlaces(say: Say): Promise<void> {
  const missing = buildFcl();
  if (missing !== null) say(`FCL is left out: ${missing}. Debian has it as libfcl-dev.`);
  for (const fit of ["bolted", "cut"] as const) await benchFit(fit, missing === null, say);
  await benchRedrawn(say);
}

/** What it takes when the link is not two pieces that slide in each other. */
async function benchRedrawn(say: Say): Promise<void> {
  const thread = await startThread("redrawn");
  const share: Share = { question: "worst", ...ALONE };
  await ask([thread], { ...share, ...WARM_UP });
  const { processor_ms: spent_ms, answers } = await measure(() => ask([thread], share));
  const count = ALONE.to - ALONE.from;
  say("");
  say(
    `The link cut to suit and drawn anew for every place, its tree refitted: worst clearance of the corner in ${figure(spent_ms / count)} ms a place, drawing and poses included; ${figure(answers[0]!.asked / count)} measured.`,
  );
  await thread.worker.terminate();
}

async function benchFit(fit: "bolted" | "cut", withFcl: boolean, say: Say): Promise<void> {
  const own = new Searcher(fit);
  const { corner } = own;
  const threads = await Promise.all(Array.from({ length: THREADS }, () => startThread(fit)));
  const sample = withFcl ? sampleOf(corner) : null;
  const fcl = sample ? startFcl({ name: `places-${fit}`, bodies: bodiesOf(corner) }, sample.steps) : null;
  const spent = new Map<string, Measured[]>();
  const note = (name: string, measured: Measured) => spent.set(name, [...(spent.get(name) ?? []), measured]);
  for (let round = 0; round <= ROUNDS; round++) {
    for (const question of ["poses", ...JOBS.map((job) => job.question)] as const) {
      const whole = round === 0 ? WARM_UP : { from: 0, to: PLACE_COUNT };
      const all = await measure(() => ask(threads, { question, ...whole }));
      if (round === 0) continue;
      note(question, all);
      note(`${question} alone`, await measure(() => ask(threads.slice(0, 1), { question, ...ALONE })));
    }
    for (const { fcl: mode } of JOBS) {
      if (!fcl || !sample) continue;
      const { ms } = await fcl.ask(mode, mode === "places" ? Infinity : CAP_mm, corner.pairs.length);
      if (round > 0) note(mode, { wall_ms: ms, processor_ms: ms, answers: [] });
    }
  }
  const median = (name: string, of: "wall_ms" | "processor_ms") => spreadOf(spent.get(name)!.map((each) => each[of]));

  const share = PLACE_COUNT / (ALONE.to - ALONE.from);
  const rows = [["job", "two threads s", "processor s", "of it poses s", "one thread s *", "FCL s *", "without poses"]];
  const seconds = (ms: number) => figure(ms / 1000);
  const poses_ms = median("poses", "processor_ms").median;
  for (const { question, name, fcl: mode } of JOBS) {
    const processor = median(question, "processor_ms").median;
    const its_ms = fcl && sample ? (median(mode, "processor_ms").median * PLACE_COUNT) / sample.places.length : null;
    rows.push([
      name,
      spreadText(scaledToSeconds(median(question, "wall_ms"))),
      seconds(processor),
      seconds(poses_ms),
      seconds(median(`${question} alone`, "wall_ms").median * share),
      its_ms === null ? "" : seconds(its_ms),
      its_ms === null ? "" : `${figure(its_ms / (processor - poses_ms))} times faster`,
    ]);
  }
  say("");
  const states = corner.pairs.length * corner.stateCount;
  say(`${HOW[fit]}: ${PLACE_COUNT} places x ${corner.stateCount} states, ${corner.pairs.length} pairs`);
  for (const line of tableLines(rows)) say(line);
  say(
    `Medians of ${ROUNDS} rounds (least–most), by the clock and in processor time. * A part of the places, scaled by count.`,
  );
  for (const { question, name } of JOBS) {
    const asked = spent.get(question)![0]!.answers.reduce((sum, answer) => sum + answer.asked, 0) / PLACE_COUNT;
    say(
      `${name}: of ${states} pairs and states a place ${figure(asked)} were measured, the others proved not to matter.`,
    );
  }
  const told = spent.get("worst")![0]!.answers.flatMap((answer) => [...answer.told]);
  const clashes = told.filter((clearance) => clearance <= 0).length;
  if (clashes > 0) {
    const from = told.findIndex((clearance) => clearance <= 0);
    const deep = { from, to: Math.min(PLACE_COUNT, from + DEEP_PLACES) };
    const withDepth = await measure(() => ask(threads.slice(0, 1), { question: "depth", ...deep }));
    const without = await measure(() => ask(threads.slice(0, 1), { question: "worst", ...deep }));
    const clashesHere = without.answers[0]!.told.filter((clearance) => clearance <= 0).length;
    const more_ms = (withDepth.processor_ms - without.processor_ms) / clashesHere;
    say(
      `Something overlaps in ${clashes} places, told as such; how deep it is would take ${figure(more_ms)} ms a place more.`,
    );
  }
  if (fcl && sample)
    say(`Largest difference to FCL's distances, mm: ${(await differenceTo(fcl, own, sample)).toExponential(1)}.`);
  fcl?.stop();
  await Promise.all(threads.map((thread) => thread.worker.terminate()));
}

interface Thread {
  readonly worker: Worker;
  ask(message: Fit | Share): Promise<ShareAnswer>;
}

async function startThread(fit: Fit): Promise<Thread> {
  const worker = new Worker(new URL("./placesThread.mjs", import.meta.url));
  const thread: Thread = {
    worker,
    ask: (message) =>
      new Promise((resolve, reject) => {
        worker.once("error", reject);
        worker.once("message", (answer: ShareAnswer) => {
          worker.off("error", reject);
          resolve(answer);
        });
        worker.postMessage(message);
      }),
  };
  await thread.ask(fit);
  return thread;
}

/** The places in as many runs as there are threads, at once. */
function ask(threads: readonly Thread[], { question, from, to }: Share): Promise<ShareAnswer[]> {
  const cut = (k: number) => from + Math.round(((to - from) * k) / threads.length);
  return Promise.all(threads.map((thread, k) => thread.ask({ question, from: cut(k), to: cut(k + 1) })));
}

interface Measured {
  readonly wall_ms: number;
  readonly processor_ms: number;
  readonly answers: readonly ShareAnswer[];
}

async function measure(work: () => Promise<ShareAnswer[]>): Promise<Measured> {
  const start = performance.now();
  const before = processor_ms();
  const answers = await work();
  return { wall_ms: performance.now() - start, processor_ms: processor_ms() - before, answers };
}

function scaledToSeconds(spread: ReturnType<typeof spreadOf>): ReturnType<typeof spreadOf> {
  return { median: spread.median / 1000, least: spread.least / 1000, most: spread.most / 1000 };
}

interface Sample {
  readonly places: readonly number[];
  /** Pair by pair, place by place: relative poses at the states. */
  readonly steps: readonly PairSteps[];
}

function sampleOf(corner: PlacesCorner): Sample {
  const places = SAMPLE.from.flatMap((from) => Array.from({ length: SAMPLE.length }, (_, i) => from + i));
  const bodyOf = new Map(corner.bodies.map((carried) => [carried.body.key, carried]));
  const steps = places.flatMap((index) => {
    const { poses, first, end } = corner.posesAt(index);
    const poseOf = ({ frame }: CarriedBody, state: number): Pose =>
      frame === null ? identityPose() : poseOfTrack(poses, state * corner.frameCount + frame);
    return corner.pairs.map(({ a, b }): PairSteps => {
      const [ofA, ofB] = [bodyOf.get(a)!, bodyOf.get(b)!];
      const relative = Array.from({ length: end - first }, (_, k) =>
        composePoses(invertPose(poseOf(ofA, first + k)), poseOf(ofB, first + k), new Float64Array(POSE_SIZE)),
      );
      return { a, b, poses: relative };
    });
  });
  return { places, steps };
}

function bodiesOf({ bodies }: PlacesCorner) {
  return new Map(bodies.map(({ body }) => [body.key, body]));
}

/** Of the worst clearance of every place of the sample, and of every pair's smallest. */
async function differenceTo(fcl: FclPeer, { corner, search }: Searcher, { places }: Sample): Promise<number> {
  const ofPlaces = (await fcl.ask("places", Infinity, corner.pairs.length)).least_mm;
  const ofPairs = (await fcl.ask("places-pairs", CAP_mm, corner.pairs.length)).least_mm;
  const [byWorst, byPair] = [search(), search()];
  const smallest = new Float64Array(corner.pairs.length);
  let largest = 0;
  places.forEach((index, k) => {
    const place = corner.posesAt(index);
    const worst = byWorst.worst(place, { above_mm: -REQUIRED_mm }).margin_mm + REQUIRED_mm;
    largest = Math.max(largest, Math.abs(Math.max(0, worst) - Math.max(0, ofPlaces[k]!)));
    byPair.everyPair(place, smallest, { below_mm: CAP_mm, above_mm: 0 });
    smallest.forEach((value, pair) => {
      const its = ofPairs[k * corner.pairs.length + pair]!;
      largest = Math.max(largest, Math.abs(Math.max(0, value) - Math.max(0, its)));
    });
  });
  return largest;
}
