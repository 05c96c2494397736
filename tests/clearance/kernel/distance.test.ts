import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  buildTree,
  chooseKernel,
  createDistanceQuery,
  createPairQuery,
  createWitness,
  kernelInUse,
} from "../../../src/clearance/kernel.ts";
import { queryCounts } from "../../../src/clearance/queryCounts.ts";
import { composePoses, identityPose, invertPose } from "../../../src/maths/pose.ts";
import { allPairs } from "./bruteForce.ts";
import { kinds, sizeOf, TOLERANCE } from "./distanceCases.ts";
import { blob, box, randomFrom, randomPose, shards, solidOf } from "./meshes.ts";

const SEED = 7;

describe.each(["typescript", "wasm"] as const)("distance of two surfaces by the %s kernel", (kernel) => {
  beforeAll(() => {
    chooseKernel(kernel);
    expect(kernelInUse()).toBe(kernel);
  });
  afterAll(() => chooseKernel("auto"));

  for (const [name, make] of Object.entries(kinds)) {
    it(`equals the least of all pairs of triangles: ${name} (seed ${SEED})`, () => {
      const random = randomFrom(SEED);
      for (let k = 0; k < 25; k++) {
        const one = make(random);
        const expected = allPairs(one.a, one.b, one.relative).reduce((least, value) => Math.min(least, value));
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
  }

  it("with leeway proves what it says and no more: below the floor exactly, above it to a share of what is above", () => {
    const random = randomFrom(12);
    let saved = 0;
    for (let k = 0; k < 20; k++) {
      const [a, b] = [blob(random, 5, 40, [1, 2, 0.5], 0.2, [0, 0, 0]), blob(random, 4, 30, [1, 1, 3], 0.2, [0, 0, 0])];
      const query = createDistanceQuery(buildTree(a), buildTree(b));
      const warm = createWitness();
      for (let step = 0; step < 10; step++) {
        const relative = randomPose(random, 180, 150);
        const exact = createWitness();
        query.distance(relative, exact);
        expect(exact.least_mm).toBe(exact.distance_mm);
        const leeway = { floor_mm: 60 * random(), share: random() };
        const before = queryCounts().nodePairs;
        expect(query.distance(relative, warm, Number.POSITIVE_INFINITY, leeway)).toBe(true);
        saved += queryCounts().nodePairs - before;
        const { distance_mm, least_mm, pointA, pointB } = warm;
        expect(distance_mm).toBeGreaterThanOrEqual(exact.distance_mm - 1e-9);
        expect(least_mm).toBeLessThanOrEqual(exact.distance_mm + 1e-9);
        expect(Math.hypot(...[0, 1, 2].map((axis) => pointB[axis]! - pointA[axis]!))).toBeCloseTo(distance_mm, 8);
        if (distance_mm <= leeway.floor_mm) expect(distance_mm).toBeCloseTo(exact.distance_mm, 9);
        const open = Math.max(0, distance_mm - leeway.floor_mm) * leeway.share;
        expect(distance_mm - least_mm).toBeCloseTo(open, 9);
        const again = queryCounts().nodePairs;
        query.distance(relative, createWitness());
        saved -= queryCounts().nodePairs - again;
      }
    }
    expect(saved).toBeLessThan(0);
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
});

describe("pairs of triangles within a limit", () => {
  for (const [name, make] of Object.entries(kinds)) {
    it(`are visited, each once and no others: ${name} (seed ${SEED})`, () => {
      const random = randomFrom(SEED + 1);
      for (let k = 0; k < 12; k++) {
        const one = make(random);
        const all = allPairs(one.a, one.b, one.relative);
        const limit = k === 0 ? 0 : 100 * random() ** 3;
        // Pairs within rounding of the limit may fall on either side.
        const slack = TOLERANCE * sizeOf(one);
        const columns = one.b.indices.length / 3;
        const [treeA, treeB] = [buildTree(one.a), buildTree(one.b)];
        const nearest = new Map<number, number>();
        const visited = new Set<number>();
        createPairQuery(treeA, treeB).forEachPairWithin(one.relative, limit, (i, j, distance) => {
          const part = i * treeB.triangleCount + j;
          expect(visited.has(part), "visited twice").toBe(false);
          visited.add(part);
          const pair = treeA.original[i]! * columns + treeB.original[j]!;
          nearest.set(pair, Math.min(nearest.get(pair) ?? Number.POSITIVE_INFINITY, distance));
          return false;
        });
        for (const [pair, distance] of nearest) {
          expect(Math.abs(distance - all[pair]!), `case ${k}`).toBeLessThanOrEqual(10 * slack);
        }
        const missed = all.findIndex((distance, pair) => distance < limit - slack && !nearest.has(pair));
        expect(missed, `case ${k}: missed`).toBe(-1);
      }
    });
  }

  it("are none while a body has no triangles", () => {
    const nothing = buildTree(solidOf([], []));
    expect(createPairQuery(nothing, nothing).forEachPairWithin(identityPose(), 1e6, () => true)).toBe(false);
  });

  it("are visited no longer when told to stop", () => {
    const tree = buildTree(box([10, 10, 10]));
    let calls = 0;
    const stopped = createPairQuery(tree, tree).forEachPairWithin(identityPose(), 5, () => ++calls === 3);
    expect([stopped, calls]).toEqual([true, 3]);
  });
});
