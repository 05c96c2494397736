import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildTree, createWitness } from "../../../src/clearance/kernel.ts";
import { chooseKernel, createDistanceQuery, kernelInUse } from "../../../src/clearance/kernelChoice.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, identityPose, invertPose, type Pose, translationPose } from "../../../src/maths/pose.ts";
import { allPairs } from "../kernel/bruteForce.ts";
import { blob, box, randomFrom, randomPoint, randomPose, shards, solidOf } from "../kernel/meshes.ts";

interface Case {
  readonly a: Solid;
  readonly b: Solid;
  readonly relative: Pose;
}

const kinds: Record<string, (random: () => number) => Case> = {
  "lumps apart": (random) => ({
    a: blob(random, 5, 40, [1, 2, 0.5], 0.2, randomPoint(random, 50)),
    b: blob(random, 4, 30, [1, 1, 3], 0.2, randomPoint(random, 50)),
    relative: randomPose(random, 180, 200),
  }),
  "lumps that cross or nest": (random) => ({
    a: blob(random, 5, 90, [1, 1.2, 1], 0.1, [0, 0, 0]),
    b: blob(random, 4, 20, [1, 1, 3], 0.1, [0, 0, 0]),
    relative: randomPose(random, 180, 60),
  }),
  "stretched thin parts, long edges": (random) => ({
    a: blob(random, 4, 10, [90, 1, 0.02], 0.1, [0, 0, 0]),
    b: blob(random, 4, 10, [0.02, 70, 2], 0.1, [0, 0, 0]),
    relative: randomPose(random, 180, 300),
  }),
  "loose shards, needles and points": (random) => ({
    a: shards(random, 60, 100, 30, [0, 0, 0]),
    b: shards(random, 50, 100, 30, [0, 0, 0]),
    relative: randomPose(random, 180, 260),
  }),
  "far from the origin": (random) => {
    const away = randomPoint(random, 5000);
    return {
      a: blob(random, 4, 40, [1, 2, 0.5], 0.2, away),
      b: blob(random, 4, 30, [1, 1, 3], 0.2, away),
      relative: randomPose(random, 0, 150),
    };
  },
  "boxes face to face, edge to edge and corner to corner": (random) => {
    const steps = () => (Math.floor(random() * 5) - 2) * 10;
    return {
      a: box([20, 20, 20]),
      b: box([20, 20, 20]),
      relative: translationPose([steps(), steps(), steps()]),
    };
  },
  "many small triangles, close together": (random) => ({
    a: blob(random, 14, 60, [1, 1, 1], 0.01, [0, 0, 0]),
    b: blob(random, 12, 50, [1, 1, 1], 0.01, [111 + random(), 0, 0]),
    relative: randomPose(random, 3, 0.1),
  }),
  "a hair's breadth apart": (random) => ({
    a: box([200, 300, 20]),
    b: shards(random, 40, 40, 20, [0, 0, 60.01 + 10 ** -(1 + 8 * random())]),
    relative: identityPose(),
  }),
};

/** Relative to the size of the coordinates. */
const TOLERANCE = 1e-12;

function sizeOf({ a, b, relative }: Case): number {
  return [...a.positions, ...b.positions, ...relative].reduce((most, value) => Math.max(most, Math.abs(value)), 1);
}

afterAll(() => chooseKernel("auto"));

describe.each(["typescript", "wasm"] as const)("distance of two surfaces by the %s kernel", (name) => {
  const SEED = 107;
  beforeAll(() => {
    chooseKernel(name);
    expect(kernelInUse()).toBe(name);
  });

  it.each(Object.entries(kinds))(`equals the least of all pairs of triangles: %s (seed ${SEED})`, (_, make) => {
    const random = randomFrom(SEED);
    for (let k = 0; k < 25; k++) {
      const one = make(random);
      const expected = Math.min(...chunkMinima(allPairs(one.a, one.b, one.relative)));
      const [treeA, treeB] = [buildTree(one.a), buildTree(one.b)];
      const slack = TOLERANCE * sizeOf(one);
      const witness = createWitness();
      expect(createDistanceQuery(treeA, treeB).distance(one.relative, witness), `case ${k}`).toBe(true);
      expect(Math.abs(witness.distance_mm - expected), `case ${k}`).toBeLessThanOrEqual(slack);
      const between = Math.hypot(...[0, 1, 2].map((axis) => witness.pointB[axis]! - witness.pointA[axis]!));
      expect(Math.abs(between - expected), `case ${k}: points`).toBeLessThanOrEqual(10 * slack);
      // b against a
      const swapped = createWitness();
      createDistanceQuery(treeB, treeA).distance(invertPose(one.relative), swapped);
      expect(Math.abs(swapped.distance_mm - expected), `case ${k}: swapped`).toBeLessThanOrEqual(10 * slack);
    }
  });

  it("stays the same when it starts from the witness of another pose, or below a limit", () => {
    const random = randomFrom(11);
    for (let k = 0; k < 20; k++) {
      const [a, b] = [blob(random, 5, 40, [1, 2, 0.5], 0.2, [0, 0, 0]), blob(random, 4, 30, [1, 1, 3], 0.2, [0, 0, 0])];
      const query = createDistanceQuery(buildTree(a), buildTree(b));
      const warm = createWitness();
      for (let step = 0; step < 10; step++) {
        const relative = randomPose(random, 180, 150);
        const cold = createWitness();
        query.distance(relative, cold);
        const limit = 60 * random();
        const isBelow = query.distance(relative, warm, limit);
        expect(isBelow).toBe(cold.distance_mm < limit);
        expect(warm.distance_mm).toBeCloseTo(isBelow ? cold.distance_mm : limit, 10);
        expect(query.distance(relative, warm)).toBe(true);
        expect(warm.distance_mm).toBeCloseTo(cold.distance_mm, 10);
        expect(query.intersects(relative, warm)).toBe(cold.distance_mm === 0);
      }
    }
  });

  it("stays the same when both bodies are moved together", () => {
    const random = randomFrom(5);
    for (let k = 0; k < 30; k++) {
      const query = createDistanceQuery(
        buildTree(shards(random, 40, 100, 30, [0, 0, 0])),
        buildTree(blob(random, 4, 30, [1, 1, 3], 0.2, [0, 0, 0])),
      );
      const [poseA, poseB, together] = [
        randomPose(random, 180, 150),
        randomPose(random, 180, 150),
        randomPose(random, 180, 900),
      ];
      const before = createWitness();
      const after = createWitness();
      query.distance(composePoses(invertPose(poseA), poseB), before);
      query.distance(composePoses(invertPose(composePoses(together, poseA)), composePoses(together, poseB)), after);
      expect(after.distance_mm).toBeCloseTo(before.distance_mm, 9);
    }
  });

  it("is not below any limit while a body has no triangles", () => {
    const query = createDistanceQuery(buildTree(solidOf([], [])), buildTree(box([1, 1, 1])));
    const witness = createWitness();
    expect(query.distance(identityPose(), witness)).toBe(false);
    expect(query.distance(identityPose(), witness, 5)).toBe(false);
    expect(witness.distance_mm).toBe(5);
  });

  it("measures a leaf of any number of coincident triangles", () => {
    const pile = (count: number): Solid => {
      const corners = Array.from({ length: count }, () => [
        [0, 0, 0],
        [10, 0, 0],
        [0, 10, 0],
      ]).flat() as [number, number, number][];
      return solidOf(
        corners,
        Array.from({ length: count }, (_, i) => [3 * i, 3 * i + 1, 3 * i + 2]),
        false,
      );
    };
    for (const count of [1, 3, 255, 256, 257, 700]) {
      const query = createDistanceQuery(buildTree(pile(count)), buildTree(pile(3)));
      const witness = createWitness();
      query.distance(translationPose([1, 1, 7]), witness);
      expect(witness.distance_mm).toBeCloseTo(7, 12);
      expect(query.intersects(translationPose([1, 1, 0]), witness)).toBe(true);
    }
  });
});

describe("the two kernels beside each other", () => {
  it("measure the same to 1e-9, cold and warm, and points and direction agree with the distance", () => {
    const random = randomFrom(23);
    for (let k = 0; k < 60; k++) {
      const one = Object.values(kinds)[k % Object.keys(kinds).length]!(random);
      const [a, b] = [buildTree(one.a), buildTree(one.b)];
      const [plain, compiled] = (["typescript", "wasm"] as const).map((name) => {
        chooseKernel(name);
        return { query: createDistanceQuery(a, b), witness: createWitness() };
      });
      for (let step = 0; step < 6; step++) {
        const relative = composePoses(one.relative, randomPose(random, 4, 2));
        plain!.query.distance(relative, plain!.witness);
        compiled!.query.distance(relative, compiled!.witness);
        const { distance_mm, pointA, pointB, direction } = compiled!.witness;
        const expected = plain!.witness.distance_mm;
        expect(Math.abs(distance_mm - expected), `case ${k}`).toBeLessThanOrEqual(1e-9 * Math.max(1, expected));
        if (distance_mm < 1e-6) continue;
        for (let axis = 0; axis < 3; axis++) {
          const along = (pointB[axis]! - pointA[axis]!) / distance_mm;
          expect(direction[axis]!, `case ${k}: direction`).toBeCloseTo(along, 4);
        }
      }
    }
  });
});

/** Smallest of each run of numbers: a spread of all of them would overflow the stack. */
function chunkMinima(values: Float64Array): number[] {
  const minima: number[] = [];
  for (let from = 0; from < values.length; from += 1000) {
    minima.push(values.subarray(from, from + 1000).reduce((least, value) => Math.min(least, value)));
  }
  return minima;
}
