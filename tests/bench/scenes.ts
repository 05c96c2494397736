import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { BufferAttribute, BufferGeometry, Matrix4 } from "three";
import { MeshBVH } from "three-mesh-bvh";
import type { PreparedCheck } from "../../src/check/check.ts";
import type { PlannedPair } from "../../src/check/plan.ts";
import { buildTree, createDistanceQuery, createWitness } from "../../src/clearance/kernel.ts";
import { RelativeMotion } from "../../src/clearance/motion.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { POSE_SIZE } from "../../src/maths/pose.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { withPoint } from "../../src/scene/points.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { Machine, type Watch } from "../../src/work/machine.ts";

const FOLDER = fileURLToPath(new URL("../../scenes/", import.meta.url));
const ROUNDS = 3;
const STEP_MM = 10;
/** The peer is some hundred times slower: it gets every n-th pair, and so do we beside it. */
const PEER_PAIRS = 24;
const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };

/** The whole check of every scene cold, warm and after a 1 mm move; then the plain distance at every step beside the peer's. */
export async function benchScenes(say: (line: string) => void): Promise<void> {
  say("scene | triangles | pairs | cold ms | warm ms | 1 mm move ms | every step: ours ms | three-mesh-bvh ms | ratio");
  for (const file of readdirSync(FOLDER).filter((name) => name.endsWith(".json"))) {
    const document = readScene(readFileSync(FOLDER + file, "utf8"), file);
    const rounds: { cold: number; warm: number; move: number; ours: number; peer: number }[] = [];
    let prepared: PreparedCheck | null = null;
    for (let round = 0; round < ROUNDS; round++) {
      const machine = new Machine();
      const cold = await timed(() => sweep(machine, document));
      const warm = await timed(() => sweepAgain(machine, document));
      const move = await timed(() => sweep(machine, moved(document)));
      prepared = machine.prepare(document, new Map());
      rounds.push({ cold, warm, move, ...distances(prepared) });
    }
    const triangles = prepared!.bodies.reduce((sum, { solid }) => sum + solid.indices.length / 3, 0);
    const median = (pick: (round: (typeof rounds)[number]) => number) =>
      rounds.map(pick).sort((a, b) => a - b)[Math.floor(ROUNDS / 2)]!;
    const [ours, peer] = [median((round) => round.ours), median((round) => round.peer)];
    const figures = [
      median((round) => round.cold),
      median((round) => round.warm),
      median((round) => round.move),
      ours,
      peer,
    ];
    say(
      [file, triangles, prepared!.pairs.length, ...figures.map((ms) => ms.toFixed(0)), (peer / ours).toFixed(0)].join(
        " | ",
      ),
    );
  }
}

async function sweep(machine: Machine, document: SceneDocument): Promise<void> {
  await machine.check(machine.prepare(document, new Map()), document.title, PATIENT);
}

/** The same scene with every sweep forgotten but trees and solids kept: a renamed copy would be served from the shelf. */
async function sweepAgain(machine: Machine, document: SceneDocument): Promise<void> {
  machine.forgetSweeps();
  await sweep(machine, document);
}

/** One link end 1 mm farther out. */
function moved(document: SceneDocument): SceneDocument {
  const scene = resolveScene(document);
  const name = ["upper.in", "upper.front.in", "toe.in", ...scene.points.keys()].find((point) =>
    scene.points.has(point),
  )!;
  const [x, y, z] = scene.points.get(name)!.at;
  return withPoint(document, name, [x, y + 1, z]);
}

interface Places {
  readonly a: Solid;
  readonly b: Solid;
  readonly poses: Float64Array[];
}

function distances(prepared: PreparedCheck): { ours: number; peer: number } {
  const every = Math.max(1, Math.floor(prepared.pairs.length / PEER_PAIRS));
  const places = prepared.pairs.filter((_, i) => i % every === 0).map(placesOf);
  const trees = new Map<Solid, ReturnType<typeof buildTree>>();
  const bvhs = new Map<Solid, MeshBVH>();
  for (const { a, b } of places) {
    for (const solid of [a, b]) {
      if (trees.has(solid)) continue;
      trees.set(solid, buildTree(solid));
      bvhs.set(solid, new MeshBVH(geometryOf(solid), { targetLeafSize: 8 }));
    }
  }
  let start = performance.now();
  for (const { a, b, poses } of places) {
    const query = createDistanceQuery(trees.get(a)!, trees.get(b)!);
    const witness = createWitness();
    for (const pose of poses) query.distance(pose, witness);
  }
  const ours = performance.now() - start;
  start = performance.now();
  const matrix = new Matrix4();
  for (const { a, b, poses } of places) {
    const bvh = bvhs.get(a)!;
    const other = bvhs.get(b)!.geometry;
    other.boundsTree = bvhs.get(b)!;
    for (const p of poses) {
      matrix.set(p[0]!, p[1]!, p[2]!, p[3]!, p[4]!, p[5]!, p[6]!, p[7]!, p[8]!, p[9]!, p[10]!, p[11]!, 0, 0, 0, 1);
      bvh.closestPointToGeometry(other, matrix);
    }
  }
  return { ours, peer: performance.now() - start };
}

function placesOf({ first, second, sweep }: PlannedPair): Places {
  const poses = sweep.variants.flatMap((variant) => {
    const motion = new RelativeMotion(variant.a, variant.b, variant.from_mm, variant.to_mm);
    const count = motion.still ? 1 : Math.ceil((variant.to_mm - variant.from_mm) / STEP_MM) + 1;
    return Array.from({ length: count }, (_, i) => {
      const share = count === 1 ? 0 : i / (count - 1);
      return motion.poseAt(variant.from_mm + (variant.to_mm - variant.from_mm) * share, new Float64Array(POSE_SIZE));
    });
  });
  return { a: first.solid, b: second.solid, poses };
}

function geometryOf({ positions, indices }: Solid): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions.slice(), 3));
  geometry.setIndex(new BufferAttribute(indices.slice(), 1));
  return geometry;
}

async function timed(work: () => Promise<void>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
