import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  buildTree,
  type CollisionTree,
  chooseKernel,
  createDistanceQuery,
  createWitness,
} from "../../src/clearance/kernel.ts";
import { RelativeMotion } from "../../src/clearance/motion.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { POSE_SIZE } from "../../src/maths/pose.ts";
import { readScene } from "../../src/scene/read.ts";
import { Machine } from "../../src/work/machine.ts";
import { countsOf } from "./ours.ts";

const SCENES = ["1-hub-and-arm-donor-links.json", "3-double-wishbones-toe-link.json"];
const FOLDER = fileURLToPath(new URL("../../scenes/", import.meta.url));
const STEP_MM = 5;
/** Every n-th pair of bodies: all of them give the same ratio, and a round of seconds. */
const EVERY_PAIR = 5;
const ROUNDS = 5;
const KERNELS = ["typescript", "wasm"] as const;

interface Places {
  readonly a: CollisionTree;
  readonly b: CollisionTree;
  readonly poses: Float64Array[];
}

/**
 * The two kernels on the same queries: pairs of two scenes, every 5 mm of travel. Cold: no witness is handed on; warm:
 * each query starts from the last one's. Medians of interleaved rounds, after one that does not count.
 */
export function benchKernels(say: (line: string) => void): void {
  say(
    "scene | triangles | queries | cold: TypeScript ms | WebAssembly ms | ratio | pairs of nodes, of triangles | warm: the same | largest difference mm",
  );
  for (const file of SCENES) {
    const places = placesOf(file);
    const times = {
      cold: { typescript: [] as number[], wasm: [] as number[] },
      warm: { typescript: [] as number[], wasm: [] as number[] },
    };
    let found: Record<(typeof KERNELS)[number], Float64Array> | null = null;
    for (let round = 0; round <= ROUNDS; round++) {
      for (const way of ["cold", "warm"] as const) {
        const values = KERNELS.map((kernel) => {
          const { ms, distances } = measure(places, kernel, way === "warm");
          if (round > 0) times[way][kernel].push(ms);
          return distances;
        });
        found = { typescript: values[0]!, wasm: values[1]! };
      }
    }
    const queries = places.reduce((sum, { poses }) => sum + poses.length, 0);
    const triangles = [...new Set(places.flatMap(({ a, b }) => [a, b]))].reduce((sum, t) => sum + t.triangleCount, 0);
    const difference = found!.typescript.reduce(
      (most, value, i) => Math.max(most, Math.abs(value - found!.wasm[i]!)),
      0,
    );
    const columns = (["cold", "warm"] as const).flatMap((way) => {
      const [plain, compiled] = [median(times[way].typescript), median(times[way].wasm)];
      const { nodePairs, trianglePairs } = countsOf(() => measure(places, "wasm", way === "warm"));
      return [plain.toFixed(1), compiled.toFixed(1), (plain / compiled).toFixed(2), `${nodePairs}, ${trianglePairs}`];
    });
    say([file, triangles, queries, ...columns, difference.toExponential(1)].join(" | "));
  }
  chooseKernel("auto");
}

function measure(places: readonly Places[], kernel: (typeof KERNELS)[number], warm: boolean) {
  chooseKernel(kernel);
  const queries = places.map(({ a, b }) => createDistanceQuery(a, b));
  const distances = new Float64Array(places.reduce((sum, { poses }) => sum + poses.length, 0));
  let at = 0;
  const start = performance.now();
  places.forEach(({ poses }, i) => {
    const witness = createWitness();
    for (const pose of poses) {
      if (!warm) {
        witness.triangleA = -1;
        witness.direction.fill(0);
      }
      queries[i]!.distance(pose, witness);
      distances[at++] = witness.distance_mm;
    }
  });
  return { ms: performance.now() - start, distances };
}

function placesOf(file: string): Places[] {
  const prepared = new Machine().prepare(readScene(readFileSync(FOLDER + file, "utf8"), file), new Map());
  const trees = new Map<Solid, CollisionTree>();
  const treeOf = (solid: Solid) => {
    const tree = trees.get(solid) ?? buildTree(solid);
    trees.set(solid, tree);
    return tree;
  };
  const pairs = prepared.pairs.filter((_, i) => i % EVERY_PAIR === 0);
  return pairs.map(({ first, second, sweep }) => ({
    a: treeOf(first.solid),
    b: treeOf(second.solid),
    poses: sweep.variants.flatMap((variant) => {
      const motion = new RelativeMotion(variant.a, variant.b, variant.from_mm, variant.to_mm);
      const count = motion.still ? 1 : Math.ceil((variant.to_mm - variant.from_mm) / STEP_MM) + 1;
      return Array.from({ length: count }, (_, i) => {
        const share = count === 1 ? 0 : i / (count - 1);
        return motion.poseAt(variant.from_mm + (variant.to_mm - variant.from_mm) * share, new Float64Array(POSE_SIZE));
      });
    }),
  }));
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
}
