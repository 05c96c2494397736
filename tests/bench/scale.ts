import { type CollisionTree, createDistanceQuery, createWitness } from "../../src/clearance/kernel.ts";
import { RelativeMotion } from "../../src/clearance/motion.ts";
import { sweepPair } from "../../src/clearance/sweep.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import type { Motion, SweepBody, SweepPair } from "../../src/clearance/types.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { identityPose, POSE_SIZE, rotationPose } from "../../src/maths/pose.ts";
import { randomOf } from "../kinematics/random.ts";
import { barMesh, bumpyMesh, roundedPath, solidOf } from "./meshes.ts";
import { countsOf } from "./ours.ts";
import { figure, processor_ms, spreadOf, tableLines } from "./rounds.ts";

/** Cells along an edge of a scan: 12·cells² triangles, a thousand to a million. */
const CELLS = [9, 16, 29, 51, 91, 162, 289];
const ROUNDS = 3;
const TRAVEL_mm = 60;
const ROCK_deg = 6;

/**
 * What one pair costs as its bodies get finer: two scanned castings some 10 mm apart, of which one rocks through 6° in 61 steps,
 * and the still one beside a bent bar of about 2,000 triangles that swings through the same angle, some 20 mm off.
 */
export async function benchScale(say: (line: string) => void): Promise<void> {
  const rows = [
    [
      "triangles a scan",
      "tree ms",
      "tree MB",
      "scan: cold µs",
      "pairs",
      "warm µs",
      "proved ms",
      "bar: cold µs",
      "pairs",
      "warm µs",
      "proved ms",
    ],
  ];
  costs(CELLS[3]!); // warms the process up
  for (const cells of CELLS) rows.push(costs(cells));
  for (const line of tableLines(rows)) say(line);
  say(
    `Processor time, medians of ${ROUNDS} rounds; cold and warm per step of ${TRAVEL_mm + 1}, exact; pairs of nodes bounded per cold step. MB are what a tree keeps, beside the mesh itself; ` +
      `this process had ${Math.round(process.resourceUsage().maxRSS / 1024)} MB at most.`,
  );
}

const BAR = bodyOf(
  "bar",
  solidOf([
    barMesh(
      roundedPath(
        [
          [-250, 60, 180],
          [40, 40, 150],
          [260, -30, 130],
        ],
        80,
        40,
      ),
      15,
      24,
    ),
  ]),
);

/** One line of the table. */
function costs(cells: number): string[] {
  const still = bodyOf("still", solidOf([bumpyMesh([0, 0, 0], [160, 120, 110], 5, cells, randomOf(11))]));
  const rocking = bodyOf("rocking", solidOf([bumpyMesh([20, 262, 0], [150, 120, 100], 5, cells, randomOf(12))]));
  const shelf = new TreeShelf();
  const trees_ms = [still, rocking].map((body) => timed(() => shelf.prepare(body)));
  const { tree } = shelf.prepare(still);
  return [
    String(tree.triangleCount),
    figure((trees_ms[0]! + trees_ms[1]!) / 2),
    figure(bytesOf(tree) / 1e6),
    ...pairCosts(shelf, still, rocking, rocked([20, 262, 0])),
    ...pairCosts(shelf, still, BAR, rocked([-250, 60, 180])),
  ];
}

function bodyOf(key: string, solid: Solid): SweepBody {
  return { key, solid, content: key };
}

/** Turned about the car's X axis through a point, to as much either way. */
function rocked(about: readonly [number, number, number]): Motion {
  const travel_mm = Float64Array.from({ length: TRAVEL_mm + 1 }, (_, i) => i);
  const poses = new Float64Array(travel_mm.length * POSE_SIZE);
  for (const [i, travel] of travel_mm.entries()) {
    const angle_rad = ((travel / TRAVEL_mm - 0.5) * ROCK_deg * Math.PI) / 180;
    poses.set(rotationPose([1, 0, 0], angle_rad, about), i * POSE_SIZE);
  }
  return { travel_mm, poses };
}

/** µs a step cold, pairs of nodes a step cold, µs a step warm, ms of the proved sweep. */
function pairCosts(shelf: TreeShelf, a: SweepBody, b: SweepBody, ofB: Motion): string[] {
  const ofA: Motion = { travel_mm: Float64Array.of(0), poses: identityPose() };
  const pair: SweepPair = {
    a: a.key,
    b: b.key,
    required_mm: 10,
    excuses: [],
    variants: [{ pose: "rest", a: ofA, b: ofB, from_mm: 0, to_mm: TRAVEL_mm }],
  };
  const { poses, travel_mm } = new RelativeMotion(ofA, ofB, 0, TRAVEL_mm);
  const query = createDistanceQuery(shelf.prepare(a).tree, shelf.prepare(b).tree);
  const steps = (warm: boolean): void => {
    let witness = createWitness();
    for (let i = 0; i < travel_mm.length; i++) {
      if (!warm) witness = createWitness();
      query.distance(poses.subarray(i * POSE_SIZE, (i + 1) * POSE_SIZE), witness);
    }
  };
  const perStep_us = (warm: boolean) => (1000 * medianOf(() => steps(warm))) / travel_mm.length;
  const pairsPerStep = countsOf(() => steps(false)).nodePairs / travel_mm.length;
  return [perStep_us(false), pairsPerStep, perStep_us(true), medianOf(() => sweepPair(shelf, a, b, pair))].map(figure);
}

function medianOf(work: () => unknown): number {
  work();
  return spreadOf(Array.from({ length: ROUNDS }, () => timed(work))).median;
}

function timed(work: () => unknown): number {
  const start = processor_ms();
  work();
  return processor_ms() - start;
}

function bytesOf(tree: CollisionTree): number {
  return Object.values(tree).reduce((sum, part) => sum + (ArrayBuffer.isView(part) ? part.byteLength : 0), 0);
}
