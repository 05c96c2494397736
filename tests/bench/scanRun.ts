// `node --import tsx scanRun.ts SCENE [--oracle]`: one check of a scene in a process of its own; a JSON line of figures.
import { appendFileSync } from "node:fs";
import type { PreparedCheck } from "../../src/check/check.ts";
import type { PlannedPair } from "../../src/check/plan.ts";
import type { CheckResult, PairVerdict } from "../../src/check/result.ts";
import { poseOfMotion } from "../../src/clearance/motion.ts";
import { motionsOf } from "../../src/clearance/sweep.ts";
import type { Motion } from "../../src/clearance/types.ts";
import { loadScene } from "../../src/cli/loadScene.ts";
import { applyPose, composePoses, invertPose, POSE_SIZE } from "../../src/maths/pose.ts";
import { Machine } from "../../src/work/machine.ts";
import { processor_ms } from "./rounds.ts";
import { BODY_SCAN, ENGINE_SCAN, INTRUDER } from "./scanCase.ts";
import type { OracleFigures, ScanFigures, StageFigures } from "./scanFigures.ts";
import { MeshOracle } from "./scanOracle.ts";

/** Polls closer than this are one for the figures: asking for the processor's time takes its time too. */
const SAMPLE_ms = 4;
const ORACLE_PAIRS = 8;
let counted = 0;

const stages: StageFigures[] = [];

async function stage<T>(name: string, work: () => T | Promise<T>): Promise<T> {
  const [wall, processor] = [performance.now(), processor_ms()];
  const result = await work();
  stages.push({
    name,
    wall_ms: performance.now() - wall,
    processor_ms: processor_ms() - processor,
    peak_MB: peak_MB(),
  });
  return result;
}

function peak_MB(): number {
  return process.resourceUsage().maxRSS / 1024;
}

/** The longest stretches between two calls of `mark`, in processor time. */
class Gaps {
  private last = performance.now();
  private lastProcessor = processor_ms();
  longest_ms = 0;
  where = "";

  mark(where: string, always: boolean): void {
    const now = performance.now();
    if (!always && now - this.last < SAMPLE_ms) return;
    this.last = now;
    const processor = processor_ms();
    if (processor - this.lastProcessor > this.longest_ms) {
      this.longest_ms = processor - this.lastProcessor;
      this.where = where;
    }
    this.lastProcessor = processor;
  }
}

const { name, document, meshFiles } = await stage("import", () => loadScene(process.argv[2]!));
const machine = new Machine();
const prepared = await stage("prepare", () => machine.prepare(document, meshFiles));
const nameOf = ({ sweep: { a, b } }: PlannedPair): string => `${a} / ${b}`;
const [progress, polls] = [new Gaps(), new Gaps()];
const start = processor_ms();
let firstFinding_ms = 0;
let told = 0;
let current = "";
const result = await stage("sweep", () =>
  machine.check(prepared, name, {
    onProgress(_, done) {
      told++;
      const [index, { clearance_mm }] = done.at(-1)!;
      const pair = prepared.pairs[index]!;
      current = nameOf(pair);
      progress.mark(current, false);
      if (firstFinding_ms === 0 && clearance_mm < pair.sweep.required_mm) firstFinding_ms = processor_ms() - start;
    },
    isStopped() {
      polls.mark(`after ${current}`, false);
      return false;
    },
    breathe: () => new Promise((resolve) => setImmediate(resolve)),
  }),
);
const scans = result.pairs.filter(({ a, b }) => [a, b].some((id) => id === ENGINE_SCAN || id === BODY_SCAN));
const intrusion = scans.find(({ a, b }) => a === INTRUDER || b === INTRUDER)!;
const patches: number[] = [];
for (const [title, pair] of [
  ["patch of a part in a scan", intrusion],
  ["patch of a link at a scan", scans.find(({ a, b }) => b === "lower" || (a === BODY_SCAN && b === "lower"))!],
] as const) {
  for (const travel_mm of [pair.at.travel_mm, "worst"] as const) {
    const patch = await stage(`${title}, ${travel_mm === "worst" ? "worst over travel" : "one state"}`, () =>
      machine.patch(prepared, { keys: pair.keys, at: { ...pair.at, travel_mm } }),
    );
    patches.push(patch.a.area_mm2 + patch.b.area_mm2);
  }
}
const trianglesOf = (id: string) => prepared.bodies.find((body) => body.id === id)!.solid.indices.length / 3;
const figures: ScanFigures = {
  stages,
  peak_MB: peak_MB(),
  firstFinding_ms,
  longestWithoutProgress_ms: progress.longest_ms,
  longestWithoutProgress: progress.where,
  longestWithoutPoll_ms: polls.longest_ms,
  longestWithoutPoll: polls.where,
  bodies: prepared.bodies.length,
  moving: prepared.bodies.filter(({ mount }) => mount !== "chassis" && mount !== "powertrain").length,
  pairs: prepared.pairs.length,
  told,
  triangles: [trianglesOf(ENGINE_SCAN), trianglesOf(BODY_SCAN)],
  summary: result.summary,
  intrusion: { clearance_mm: intrusion.clearance_mm, measure: intrusion.measure },
  patches_mm2: patches,
  oracle: process.argv.includes("--oracle") ? oracle(prepared, result) : [],
};
appendFileSync(1, `${JSON.stringify(figures)}\n`);

/** What three-mesh-bvh finds at the told states of pairs of a scan that no joint excuses, and at the ends of their travel. */
function oracle({ pairs }: PreparedCheck, { pairs: verdicts }: CheckResult): OracleFigures[] {
  const oracles = new Map<string, MeshOracle>();
  return verdicts.flatMap((verdict: PairVerdict): OracleFigures[] => {
    const planned = pairs.find(({ sweep }) => sweep.a === verdict.keys[0] && sweep.b === verdict.keys[1])!;
    const { first, second, sweep } = planned;
    const isScan = [first, second].map(({ id }) => id === ENGINE_SCAN || id === BODY_SCAN);
    if (isScan[0] === isScan[1] || verdict.measure !== "surface" || sweep.excuses.length > 0) return [];
    if (counted++ >= ORACLE_PAIRS) return [];
    const [scan, part] = isScan[0] ? [first, second] : [second, first];
    const mesh = oracles.get(scan.id) ?? new MeshOracle(scan.solid);
    oracles.set(scan.id, mesh);
    const { at } = verdict;
    const variant = sweep.variants.find(({ pose }) => pose === at.pose)!;
    const motions = motionsOf(variant, at.share);
    const [ofScan, ofPart] = isScan[0] ? [motions.a, motions.b] : [motions.b, motions.a];
    const intoScan = (travel_mm: number) => {
      const poseOf = (motion: Motion) => poseOfMotion(motion, travel_mm, new Float64Array(POSE_SIZE));
      return composePoses(invertPose(poseOf(ofScan)), poseOf(ofPart));
    };
    const scanInCar = poseOfMotion(ofScan, at.travel_mm, new Float64Array(POSE_SIZE));
    const onScan = applyPose(invertPose(scanInCar), isScan[0] ? verdict.pointA : verdict.pointB);
    const onPart = applyPose(invertPose(scanInCar), isScan[0] ? verdict.pointB : verdict.pointA);
    return [
      {
        pair: nameOf(planned),
        told_mm: verdict.clearance_mm,
        found_mm: mesh.leastTo(part.solid, intoScan(at.travel_mm), verdict.clearance_mm),
        pointOffScan_mm: mesh.distanceTo(onScan),
        pointToScan_mm: mesh.distanceTo(onPart),
        atEnds_mm: [variant.from_mm, variant.to_mm].map((travel_mm) =>
          mesh.leastTo(part.solid, intoScan(travel_mm), verdict.clearance_mm),
        ),
      },
    ];
  });
}
