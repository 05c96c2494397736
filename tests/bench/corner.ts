import { chooseKernel, kernelInUse, type QueryCounts } from "../../src/clearance/kernel.ts";
import { buildFcl, type FclMode, startFcl } from "./fcl/peer.ts";
import { countsOf, OurJobs, type StepsJob } from "./ours.ts";
import { bvhPeer, manifoldPeer, type Peer, type Query, rapierPeer, sampleOf } from "./peers.ts";
import {
  type Contender,
  figure,
  processor_ms,
  runRounds,
  type Spread,
  scaled,
  spreadOf,
  spreadText,
  tableLines,
} from "./rounds.ts";
import { type Detail, stepsOf, syntheticCorner } from "./syntheticCorner.ts";

const ROUNDS = 5;
const CAP_mm = 25;
/** A round; fifteen in all. */
const EDITS = 3;
/** Slow peers get a step of so many pairs, and so do we beside them. */
const SAMPLE = 22;
const SEED = 61;

/** Jobs that FCL can do as well. */
const SHARED: readonly { name: string; mode: FclMode; ours: StepsJob }[] = [
  { name: "every step exact, cold", mode: "cold", ours: { warm: false, onlySmallest: false, cap_mm: Infinity } },
  { name: "every step exact, warm", mode: "warm", ours: { warm: true, onlySmallest: false, cap_mm: Infinity } },
  {
    name: `every step below ${CAP_mm} mm, warm`,
    mode: "warm",
    ours: { warm: true, onlySmallest: false, cap_mm: CAP_mm },
  },
  { name: "smallest of the steps, exact", mode: "seeded", ours: { warm: true, onlySmallest: true, cap_mm: Infinity } },
  {
    name: `smallest of the steps below ${CAP_mm} mm`,
    mode: "seeded",
    ours: { warm: true, onlySmallest: true, cap_mm: CAP_mm },
  },
];
const SMALLEST = SHARED[3]!;
const TREES = "all trees";
const BUILT = "trees of the four links, built";
const REFITTED = "trees of the four links, refitted";
const PROVED = "smallest of the whole travel, proved";
const PROVED_CAP = `whole travel below ${CAP_mm} mm, proved`;
const EDITS_DONE = [
  { name: "1 mm edit of a link: its tree and pairs, proved", of: "link", cap_mm: Infinity },
  { name: `the same below ${CAP_mm} mm`, of: "link", cap_mm: CAP_mm },
  { name: "1 mm edit of a hard point: poses, tree, all pairs", of: "point", cap_mm: Infinity },
  { name: `the same below ${CAP_mm} mm, all pairs`, of: "point", cap_mm: CAP_mm },
] as const;

/** The synthetic corner, coarse and fine: every job beside the peers that can do it, in interleaved rounds. */
export async function benchCorner(say: (line: string) => void): Promise<void> {
  const missing = buildFcl();
  if (missing !== null) say(`FCL is left out: ${missing}. Debian has it as libfcl-dev.`);
  for (const detail of ["coarse", "fine"] as const) await benchDetail(detail, missing === null, say);
}

async function benchDetail(detail: Detail, withFcl: boolean, say: (line: string) => void): Promise<void> {
  const corner = syntheticCorner(detail);
  const steps = stepsOf(corner);
  const queries = steps.reduce((sum, { poses }) => sum + poses.length, 0);
  const ours = new OurJobs(corner, steps, "auto", EDITS * (ROUNDS + 1));
  const plain = new OurJobs(corner, steps, "typescript", 0);
  chooseKernel("auto");
  const kernel = kernelInUse();
  const fcl = withFcl ? startFcl(corner, steps) : null;
  const peers = [bvhPeer(corner), await manifoldPeer(corner, CAP_mm), await rapierPeer(corner, CAP_mm)];
  const sample = sampleOf(steps, SAMPLE, SEED);
  const edits_ms = EDITS_DONE.map((): number[] => []);

  const contenders: Contender[] = [{ name: TREES, run: () => ours.buildTrees() }];
  if (fcl) contenders.push({ name: ofFcl(TREES), run: async () => (await fcl.ask("trees", Infinity)).ms });
  contenders.push({ name: BUILT, run: () => ours.buildLinks() });
  contenders.push({ name: REFITTED, run: () => ours.refitLinks() });
  for (const { name, mode, ours: job } of SHARED) {
    contenders.push({ name, run: () => ours.runSteps(job) });
    contenders.push({ name: inTypeScript(name), run: () => plain.runSteps(job) });
    if (fcl) contenders.push({ name: ofFcl(name), run: async () => (await fcl.ask(mode, job.cap_mm)).ms });
  }
  contenders.push({ name: PROVED, run: () => ours.sweepAll() });
  contenders.push({ name: inTypeScript(PROVED), run: () => plain.sweepAll() });
  contenders.push({ name: PROVED_CAP, run: () => ours.sweepAll(CAP_mm) });
  contenders.push({ name: inTypeScript(PROVED_CAP), run: () => plain.sweepAll(CAP_mm) });
  EDITS_DONE.forEach(({ name, of, cap_mm }, k) => {
    const edit = (i: number) => (of === "link" ? ours.editLink(i, cap_mm) : ours.editPoint(i, cap_mm));
    contenders.push({ name, run: () => timeEdits(edit, edits_ms[k]!) });
  });
  for (const peer of peers) {
    contenders.push({ name: beside(peer), run: () => askAll(sample, (query) => ours.ask(query, peer.cap_mm)) });
    contenders.push({ name: peer.name, run: () => askAll(sample, (query) => peer.ask(query)) });
  }
  const spent = await runRounds(contenders, ROUNDS);

  const counts = new Map(SHARED.map(({ name, ours: job }) => [name, countsOf(() => ours.runSteps(job))]));
  counts.set(
    PROVED,
    countsOf(() => ours.sweepAll()),
  );
  const rows = [["job", "ours ms", "pairs of nodes", "of triangles", "in TypeScript", "peer", "peer ms", "ours is"]];
  const row = (job: string, mine: Spread, peer = "", its?: Spread): void => {
    const ratio = its ? ratioText(its.median / mine.median) : "";
    const asPlain = spent.get(inTypeScript(job));
    rows.push([
      job,
      spreadText(mine),
      ...countTexts(counts.get(job)),
      asPlain ? figure(asPlain.median) : "",
      its ? peer : "",
      its ? spreadText(its) : "",
      ratio,
    ]);
  };
  for (const name of [TREES, BUILT, REFITTED, ...SHARED.map((job) => job.name)]) {
    row(name, spent.get(name)!, "FCL 0.7", spent.get(ofFcl(name)));
  }
  row(PROVED, spent.get(PROVED)!, "FCL, smallest of the steps", spent.get(ofFcl(SMALLEST.name)));
  row(PROVED_CAP, spent.get(PROVED_CAP)!, "FCL, smallest below the cap", spent.get(ofFcl(SHARED[4]!.name)));
  EDITS_DONE.forEach(({ name }, k) => {
    row(name, spreadOf(edits_ms[k]!.slice(EDITS)));
  });
  for (const peer of peers) {
    const factor = queries / sample.length;
    const job = peer.cap_mm === Infinity ? "every step exact, cold" : `every step below ${CAP_mm} mm, cold`;
    row(`${job} *`, scaled(spent.get(beside(peer))!, factor), peer.name, scaled(spent.get(peer.name)!, factor));
  }
  say("");
  say(
    `${detail}: ${corner.bodies.size} bodies (${corner.moving} moving), ${corner.triangles} triangles, ${steps.length} pairs, ${queries} pair queries`,
  );
  for (const line of tableLines(rows)) say(line);
  say(
    `Ours: the ${kernel} kernel. Processor time, medians of ${ROUNDS} rounds (least–most), warm. * ${sample.length} of the queries, scaled by count.`,
  );
  say(`The proved sweep measured ${ours.statesOf(() => ours.sweepAll())} states.`);
  const differences = peers
    .filter(({ sameBodies }) => sameBodies)
    .map((peer) => {
      const off = sample.map((query) => Math.min(peer.cap_mm, peer.ask(query)) - ours.ask(query, peer.cap_mm));
      return `${peer.name} ${largest(off)}`;
    });
  if (fcl) {
    const { least_mm } = await fcl.ask("seeded", Infinity);
    differences.unshift(`FCL ${largest(ours.runSteps(SMALLEST.ours).map((own, i) => own - least_mm[i]!))}`);
    fcl.stop();
  }
  say(`Largest difference to our distances, mm: ${differences.join(", ")}.`);
}

const inTypeScript = (job: string): string => `${job} in TypeScript`;
const ofFcl = (job: string): string => `FCL: ${job}`;
const beside = (peer: Peer): string => `ours beside ${peer.name}`;

function askAll(sample: readonly Query[], ask: (query: Query) => number): void {
  for (const query of sample) ask(query);
}

/** The next few edits, each one's time after the others'; the first few, of the round that does not count, are there too. */
function timeEdits(edit: (index: number) => void, into: number[]): void {
  for (let i = 0; i < EDITS; i++) {
    const start = processor_ms();
    edit(into.length);
    into.push(processor_ms() - start);
  }
}

function countTexts(counts?: QueryCounts): string[] {
  return counts ? [String(counts.nodePairs), String(counts.trianglePairs)] : ["", ""];
}

function ratioText(ratio: number): string {
  return ratio >= 1 ? `${figure(ratio)} times faster` : `${figure(1 / ratio)} times slower`;
}

function largest(differences: readonly number[]): string {
  return Math.max(...differences.map(Math.abs)).toExponential(1);
}
