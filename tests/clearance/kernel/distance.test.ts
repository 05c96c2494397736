import { describe, expect, it } from "vitest";
import { buildTree, createDistanceQuery, createPairQuery, createWitness } from "../../../src/clearance/kernel.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, identityPose, invertPose, type Pose, translationPose } from "../../../src/maths/pose.ts";
import { allPairs } from "./bruteForce.ts";
import { blob, box, randomFrom, randomPoint, randomPose, shards, solidOf } from "./meshes.ts";

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
    const size = 20;
    const steps = () => (Math.floor(random() * 5) - 2) * 10;
    return {
      a: box([size, size, size]),
      b: box([size, size, size]),
      relative: translationPose([steps(), steps(), steps()]),
    };
  },
};

/** Relative to the size of the coordinates. */
const TOLERANCE = 1e-12;

function sizeOf({ a, b, relative }: Case): number {
  return [...a.positions, ...b.positions, ...relative].reduce((most, value) => Math.max(most, Math.abs(value)), 1);
}

describe("distance of two surfaces", () => {
  const SEED = 7;
  for (const [name, make] of Object.entries(kinds)) {
    it(`equals the least of all pairs of triangles: ${name} (seed ${SEED})`, () => {
      const random = randomFrom(SEED);
      for (let k = 0; k < 25; k++) {
        const one = make(random);
        const expected = Math.min(...allPairs(one.a, one.b, one.relative));
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

    it(`visits exactly the pairs of triangles within a limit: ${name} (seed ${SEED})`, () => {
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
    const nothing = buildTree(solidOf([], []));
    const query = createDistanceQuery(nothing, buildTree(box([1, 1, 1])));
    expect(query.distance(identityPose(), createWitness())).toBe(false);
    expect(createPairQuery(nothing, nothing).forEachPairWithin(identityPose(), 1e6, () => true)).toBe(false);
  });

  it("stops visiting when it is told to", () => {
    const tree = buildTree(box([10, 10, 10]));
    let calls = 0;
    const stopped = createPairQuery(tree, tree).forEachPairWithin(identityPose(), 5, () => ++calls === 3);
    expect([stopped, calls]).toEqual([true, 3]);
  });
});
