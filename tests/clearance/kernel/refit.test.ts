import { afterAll, describe, expect, it } from "vitest";
import {
  buildTree,
  type CollisionTree,
  chooseKernel,
  createDistanceQuery,
  createPointQuery,
  createSurfacePoint,
  createWitness,
  refitTree,
} from "../../../src/clearance/kernel.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import type { Pose } from "../../../src/maths/pose.ts";
import { allPairs } from "./bruteForce.ts";
import { blob, box, randomFrom, randomPoint, randomPose } from "./meshes.ts";
import { expectClosed, expectSound } from "./soundTree.ts";

const SEED = 47;

/** The same triangles, their vertices elsewhere. */
function deformed(solid: Solid, place: (x: number, y: number, z: number) => readonly number[]): Solid {
  const positions = Float32Array.from(solid.positions);
  for (let k = 0; k < positions.length; k += 3) {
    positions.set(place(positions[k]!, positions[k + 1]!, positions[k + 2]!), k);
  }
  return { ...solid, positions };
}

/** Bent, stretched and shaken a little, as an edit of a drawn part may do. */
function edited(solid: Solid, random: () => number, share = 1): Solid {
  const [u, v, w] = [randomPoint(random, 0.02 * share), randomPoint(random, 0.02 * share), randomPoint(random, 3)];
  const shake = 0.2 * share;
  return deformed(solid, (x, y, z) => [
    x + u[0] * y + v[0] * z + w[0] + shake * random(),
    y + u[1] * z + v[1] * x + w[1] + shake * random(),
    z + u[2] * x + v[2] * y + w[2] + shake * random(),
  ]);
}

function trianglesOf({ triangles, triangleCount }: CollisionTree): string[] {
  return Array.from({ length: triangleCount }, (_, i) => triangles.subarray(9 * i, 9 * i + 9).join()).sort();
}

function distanceOf(a: CollisionTree, b: CollisionTree, relative: Pose): number {
  const witness = createWitness();
  createDistanceQuery(a, b).distance(relative, witness);
  return witness.distance_mm;
}

const parts: Record<string, (random: () => number) => Solid> = {
  lump: (random) => blob(random, 8, 60, [1, 2, 0.5], 0.1, randomPoint(random, 200)),
  "long bar": (random) => blob(random, 6, 20, [30, 1, 1], 0.1, randomPoint(random, 200)),
  "plate with long edges": (random) => box([1000, 700, 20], randomPoint(random, 200)),
};

describe("a refitted tree", () => {
  it.each(Object.entries(parts))(
    `has the very triangles of a fresh one, to the last bit: %s (seed ${SEED})`,
    (_, make) => {
      const random = randomFrom(SEED);
      let refitted = 0;
      for (let k = 0; k < 40; k++) {
        const before = make(random);
        const after = edited(before, random, 0.1);
        const tree = refitTree(buildTree(before), after);
        if (!tree) continue;
        refitted++;
        expectSound(tree);
        expectClosed(tree);
        expect(tree.solid).toBe(after);
        expect(trianglesOf(tree)).toEqual(trianglesOf(buildTree(after)));
      }
      // none where an edit turns which of two edges is the longer one, and with it the cut
      expect(refitted).toBeGreaterThan(8);
    },
  );

  for (const kernel of ["typescript", "wasm"] as const) {
    it.each(Object.entries(parts))(
      `measures what a fresh one does, and all pairs of triangles, by the ${kernel} kernel: %s (seed ${SEED})`,
      (_, make) => {
        chooseKernel(kernel);
        const random = randomFrom(SEED + 1);
        for (let k = 0; k < 8; k++) {
          const before = make(random);
          const other = blob(random, 4, 30, [1, 1, 3], 0.2, randomPoint(random, 50));
          const otherTree = buildTree(other);
          let tree = buildTree(before);
          // edit upon edit, each refitted from the last
          let part = before;
          for (let edit = 0; edit < 3; edit++) {
            part = edited(part, random);
            tree = refitTree(tree, part) ?? buildTree(part);
          }
          const relative = randomPose(random, 180, 300);
          const expected = allPairs(part, other, relative).reduce((least, value) => Math.min(least, value));
          expect(distanceOf(tree, otherTree, relative)).toBeCloseTo(expected, 9);
          expect(distanceOf(buildTree(part), otherTree, relative)).toBeCloseTo(expected, 9);
        }
        chooseKernel("auto");
      },
    );
  }
  afterAll(() => chooseKernel("auto"));

  it("answers for points what a fresh one does", () => {
    const random = randomFrom(SEED + 2);
    const before = parts.lump!(random);
    const after = edited(before, random);
    const [refitted, fresh] = [refitTree(buildTree(before), after)!, buildTree(after)].map((tree) =>
      createPointQuery(tree),
    );
    const [p, q] = [createSurfacePoint(), createSurfacePoint()];
    for (let k = 0; k < 200; k++) {
      const [x, y, z] = randomPoint(random, 300);
      refitted!.nearest(x, y, z, Infinity, p);
      fresh!.nearest(x, y, z, Infinity, q);
      expect(p.distance_mm).toBeCloseTo(q.distance_mm, 9);
    }
  });

  it("is refused for other triangles, other shells, or another number of vertices", () => {
    const solid = blob(randomFrom(5), 6, 40, [1, 1, 1], 0.1, [0, 0, 0]);
    const tree = buildTree(solid);
    const indices = Uint32Array.from(solid.indices);
    [indices[0], indices[1], indices[2]] = [indices[1]!, indices[2]!, indices[0]!];
    expect(refitTree(tree, { ...solid, indices })).toBeNull();
    expect(refitTree(tree, { ...solid, positions: Float32Array.of(...solid.positions, 0, 0, 0) })).toBeNull();
    const [shell] = solid.shells;
    const half = shell!.triangleCount / 2;
    const shells = [0, half].map((firstTriangle) => ({ firstTriangle, triangleCount: half, closed: false }));
    expect(refitTree(tree, { ...solid, shells })).toBeNull();
    expect(refitTree(tree, solid)).not.toBeNull();
  });

  it("is refused where its boxes would hold far more than they need: vertices in another order", () => {
    const random = randomFrom(9);
    const solid = blob(random, 16, 40, [1, 1, 1], 0.05, [0, 0, 0]);
    const places = Array.from({ length: solid.positions.length / 3 }, (_, i) => i);
    for (let i = places.length - 1; i > 0; i--) {
      const j = Math.floor(random() * (i + 1));
      [places[i], places[j]] = [places[j]!, places[i]!];
    }
    const positions = Float32Array.from(
      places.flatMap((vertex) => [...solid.positions.subarray(3 * vertex, 3 * vertex + 3)]),
    );
    const tree = buildTree(solid);
    expect(refitTree(tree, { ...solid, positions })).toBeNull();
    // what only grows, moves or turns keeps its tree
    expect(
      refitTree(
        tree,
        deformed(solid, (x, y, z) => [3 * x + 500, 3 * y, 3 * z]),
      ),
    ).not.toBeNull();
    expect(
      refitTree(
        tree,
        deformed(solid, (x, y, z) => [y, -x, z]),
      ),
    ).not.toBeNull();
  });

  it("is refused, in the end, however slowly the part changes", () => {
    const solid = blob(randomFrom(13), 16, 40, [1, 1, 1], 0.02, [0, 0, 0]);
    let tree: CollisionTree | null = buildTree(solid);
    let edits = 0;
    // every second ring of vertices drifts away from its neighbours
    for (; tree && edits < 200; edits++) {
      const positions = tree.solid.positions.map((value, k) => value + (k % 2 === 0 ? 1 : -1));
      tree = refitTree(tree, { ...solid, positions });
    }
    expect(tree).toBeNull();
    expect(edits).toBeGreaterThan(2);
  });

  it("is refused where the part would be cut otherwise now", () => {
    const tree = buildTree(box([100, 100, 20]));
    expect(refitTree(tree, box([140, 20, 20]))).not.toBeNull();
    expect(refitTree(tree, box([160, 100, 20]))).toBeNull();
    const long = buildTree(box([1100, 3, 3]));
    expect(refitTree(long, box([1101, 3, 3]))).not.toBeNull();
    expect(refitTree(long, box([1201, 3, 3]))).toBeNull();
  });
});

describe("a shelf", () => {
  const bodyOf = (solid: Solid, content: string) => ({ key: "link", solid, content });

  it("refits the tree of a body that was drawn anew, and still has the one before", () => {
    const random = randomFrom(21);
    const before = parts["long bar"]!(random);
    const after = edited(before, random);
    const shelf = new TreeShelf();
    const { tree: first } = shelf.prepare(bodyOf(before, "first"));
    const { tree: second } = shelf.prepare(bodyOf(after, "second"));
    expect(second.right).toBe(first.right);
    expect(second.solid).toBe(after);
    expect(shelf.prepare(bodyOf(before, "first")).tree).toBe(first);
    // back and forth: from the one that was there last
    expect(shelf.prepare(bodyOf(edited(before, random), "third")).tree.right).toBe(first.right);
  });

  it("builds the tree of a body that has other triangles now", () => {
    const shelf = new TreeShelf();
    shelf.prepare(bodyOf(box([10, 20, 30]), "box"));
    const lump = parts.lump!(randomFrom(3));
    const { tree } = shelf.prepare(bodyOf(lump, "lump"));
    expect(tree.triangleCount).toBe(lump.indices.length / 3);
    expectSound(tree);
  });
});
