import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  buildTree,
  type CollisionTree,
  chooseKernel,
  createContainmentQuery,
  createDepthQuery,
  createDistanceQuery,
  createInsideQuery,
  createOverlapDepth,
  createPairQuery,
  createSampledDepth,
  createWitness,
  type Poll,
  refitTree,
} from "../../../src/clearance/kernel.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { identityPose, invertPose, translationPose } from "../../../src/maths/pose.ts";
import { blob, box, randomFrom, solidOf } from "./meshes.ts";
import { together } from "./solids.ts";
import { expectSound } from "./soundTree.ts";

/** A poll that throws at its n-th call, and then no more; how often it was called. */
function stopAt(n: number): { poll: Poll; calls(): number } {
  let calls = 0;
  return {
    poll: () => {
      if (++calls === n) throw new Stopped();
    },
    calls: () => calls,
  };
}

class Stopped extends Error {}

/**
 * Does the work with a poll that throws at its first, its second and its fifth call, each time followed by the same work to
 * its end, which must come out as it does without a poll.
 */
function expectStoppable<T>(workWith: (poll?: Poll) => () => T): void {
  const expected = workWith()();
  for (const n of [1, 2, 5]) {
    const { poll, calls } = stopAt(n);
    const work = workWith(poll);
    expect(work).toThrow(Stopped);
    expect(calls()).toBe(n);
    expect(work()).toEqual(expected);
    expect(calls()).toBeGreaterThan(n);
  }
}

const lump = (seed: number, n: number) => blob(randomFrom(seed), n, 60, [1, 1.5, 0.8], 0.02, [0, 0, 0]);
const relative = translationPose([30, 20, 10]);

/** Differs between trees that differ. */
function digestOf({ right, count, boxes, fitted }: CollisionTree): number[] {
  return [right, count, boxes, fitted].map((values) => {
    let digest = 0;
    for (let i = 0; i < values.length; i++) digest += values[i]! * (1 + (i % 97));
    return digest;
  });
}

/** A closed cloak of very many layers, all in one place. */
function pile(count: number): Solid {
  const { positions, indices } = box([10, 10, 10]);
  const all = new Uint32Array(count * indices.length);
  for (let k = 0; k < count; k++) all.set(indices, k * indices.length);
  return {
    positions,
    indices: all,
    shells: [{ firstTriangle: 0, triangleCount: all.length / 3, closed: true }],
    convexPieces: null,
  };
}

describe("a poll that throws ends what takes long and leaves it ready for the next time:", () => {
  it.each(["typescript", "wasm"] as const)("building a tree by the %s kernel", (kernel) => {
    chooseKernel(kernel);
    const solid = lump(1, 200);
    expectStoppable((poll) => () => digestOf(buildTree(solid, poll)));
    expectSound(buildTree(lump(1, 20)));
    chooseKernel("auto");
  });

  it("building a tree whose edges are halved", () => {
    const solid = blob(randomFrom(2), 40, 4000, [1, 1, 1], 0.02, [0, 0, 0]);
    expectStoppable((poll) => () => digestOf(buildTree(solid, poll)));
  });

  it("refitting a tree", () => {
    const [before, after] = [lump(3, 200), lump(4, 200)];
    const tree = buildTree(before);
    expectStoppable((poll) => () => digestOf(refitTree(tree, after, poll)!));
  });

  it("preparing a body on a shelf", () => {
    const body = { key: "lump", solid: lump(5, 150), content: "lump" };
    const { poll } = stopAt(2);
    const shelf = new TreeShelf();
    expect(() => shelf.prepare(body, poll)).toThrow(Stopped);
    expect(digestOf(shelf.prepare(body, poll).tree)).toEqual(digestOf(buildTree(body.solid)));
  });

  it("cutting joints out of a body of very many triangles", () => {
    const body = { key: "lump", solid: lump(5, 150), content: "lump" };
    const shelf = new TreeShelf();
    const { tree } = shelf.prepare(body);
    const balls = [{ centre: [tree.triangles[0]!, tree.triangles[1]!, tree.triangles[2]!] as const, radius_mm: 5 }];
    const { poll } = stopAt(2);
    expect(() => shelf.clip(body, balls, poll)).toThrow(Stopped);
    const [found, expected] = [shelf.clip(body, balls, poll), new TreeShelf().clip(body, balls)];
    expect(found.counted.map(digestOf)).toEqual(expected.counted.map(digestOf));
    expect(found.farthest).toEqual(expected.farthest);
  });

  it("visiting pairs of triangles", () => {
    const [a, b] = [buildTree(lump(6, 40)), buildTree(lump(7, 40))];
    expectStoppable((poll) => {
      const query = createPairQuery(a, b, poll);
      return () => {
        let count = 0;
        query.forEachPairWithin(relative, 20, () => ++count < 0);
        return count;
      };
    });
  });

  it("telling whether a point is inside, and one body in another", () => {
    const layers = buildTree(pile(30_000));
    const points = Array.from({ length: 12 }, (_, i) => [i - 6, 4 - (i % 8), (i % 5) - 2] as const);
    expectStoppable((poll) => {
      const query = createInsideQuery(layers, poll);
      return () => points.map(([x, y, z]) => query.isInside(x, y, z));
    });
    const inner = buildTree(together(...points.map((at) => box([0.1, 0.2, 0.3], [at[0] + 20, at[1], at[2]]))));
    expectStoppable((poll) => {
      const query = createContainmentQuery(inner, layers, poll);
      return () => points.map(([x, y]) => query.containment(translationPose([20 + x, y / 4, 0])));
    });
  });

  it("sampling a depth", () => {
    const [a, b] = [buildTree(lump(8, 30)), buildTree(lump(9, 30))];
    const back = invertPose(relative);
    expectStoppable((poll) => {
      const sampled = createSampledDepth([a], [b], a, b, poll);
      return () => {
        const out = createOverlapDepth();
        sampled.deepest(relative, back, out);
        return out.depth_mm > 20;
      };
    });
    expectStoppable((poll) => {
      const depth = createDepthQuery(a, b, poll);
      return () => {
        const out = createOverlapDepth();
        depth.overlapDepth(relative, true, out);
        return out.measure;
      };
    });
  });

  it("measuring the depth of very many convex pieces", () => {
    const pieces = (shift: number) =>
      together(...Array.from({ length: 150 }, (_, i) => box([100, 2, 100], [0, 5 * i + shift, shift])));
    const [a, b] = [buildTree(pieces(0)), buildTree(pieces(1))];
    expectStoppable((poll) => {
      const depth = createDepthQuery(a, b, poll);
      return () => {
        const out = createOverlapDepth();
        depth.overlapDepth(identityPose(), true, out);
        return out.depth_mm;
      };
    });
  });
});

describe.each(["typescript", "wasm"] as const)("a poll of a distance query in the %s kernel", (kernel) => {
  beforeAll(() => chooseKernel(kernel));
  afterAll(() => chooseKernel("auto"));

  // one ball around another: everything is almost equally far
  const ball = (radius: number, rings: number) =>
    buildTree(blob(randomFrom(1), rings, radius, [1, 1, 1], 0, [0, 0, 0]));
  const [inner, outer] = [ball(60, 45), ball(70, 40)];
  const places = [0, 0.01, 0.02, -0.01].map((x) => translationPose([x, 0, 0]));

  it("may throw, and the query is ready for the next time", () => {
    expectStoppable((poll) => {
      const query = createDistanceQuery(inner, outer, poll);
      return () => {
        const witness = createWitness();
        return places.map((place) => {
          query.distance(place, witness);
          return witness.distance_mm;
        });
      };
    });
  });

  it("leaves the witness as it was when it throws", () => {
    const query = createDistanceQuery(inner, outer, stopAt(1).poll);
    const witness = createWitness();
    expect(() => query.distance(places[0]!, witness)).toThrow(Stopped);
    expect(witness).toEqual(createWitness());
  });

  it("may come between two others' queries", () => {
    const other = createDistanceQuery(outer, inner);
    const [query, undisturbed] = [createDistanceQuery(inner, outer, stopAt(3).poll), createWitness()];
    other.distance(places[1]!, undisturbed);
    expect(() => query.distance(places[0]!, createWitness())).toThrow(Stopped);
    const after = createWitness();
    other.distance(places[1]!, after);
    expect(after).toEqual(undisturbed);
  });

  it("comes after many short queries as well", () => {
    const tree = buildTree(lump(11, 12));
    const { poll, calls } = stopAt(0);
    const query = createDistanceQuery(tree, tree, poll);
    for (let k = 0; k < 2000; k++) query.distance(translationPose([200, k / 100, 0]), createWitness());
    expect(calls()).toBeGreaterThan(2);
  });
});

describe("a poll", () => {
  it("that asks the compiled kernel for something else is told so", () => {
    const ball = (radius: number) => buildTree(blob(randomFrom(1), 45, radius, [1, 1, 1], 0, [0, 0, 0]));
    const [inner, outer] = [ball(60), ball(70)];
    const other = createDistanceQuery(outer, inner);
    const query = createDistanceQuery(inner, outer, () => other.intersects(identityPose(), createWitness()));
    expect(() => query.distance(identityPose(), createWitness())).toThrow("a poll asked the kernel");
  });

  it("comes the oftener the more there is to do", () => {
    const callsFor = (rings: number) => {
      const { poll, calls } = stopAt(0);
      buildTree(lump(10, rings), poll);
      return calls();
    };
    expect(callsFor(200)).toBeGreaterThan(3 * callsFor(100));
  });

  it("is not needed for what is soon done", () => {
    const { poll, calls } = stopAt(1);
    buildTree(solidOf([], []), poll);
    const tree = buildTree(box([1, 1, 1]), poll);
    createInsideQuery(tree, poll).isInside(0, 0, 0);
    expect(calls()).toBe(0);
  });
});
