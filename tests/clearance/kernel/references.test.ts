import Module, { type ManifoldToplevel } from "manifold-3d";
import { beforeAll, describe, expect, it } from "vitest";
import { buildTree, createDistanceQuery, createWitness } from "../../../src/clearance/kernel.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import type { Pose } from "../../../src/maths/pose.ts";
import { blob, randomFrom, randomPose } from "./meshes.ts";
import { ring } from "./solids.ts";

/** A general-purpose solid modeller as a second opinion. */
describe("distance against manifold's gap", () => {
  let manifold: ManifoldToplevel;
  beforeAll(async () => {
    manifold = await Module();
    manifold.setup();
  });

  function bodyOf(solid: Solid, pose?: Pose) {
    const mesh = new manifold.Mesh({ numProp: 3, vertProperties: solid.positions, triVerts: solid.indices });
    const body = manifold.Manifold.ofMesh(mesh);
    if (!pose) return body;
    const [a, b, c, x, d, e, f, y, g, h, i, z] = pose as unknown as number[];
    return body.transform([a!, d!, g!, 0, b!, e!, h!, 0, c!, f!, i!, 0, x!, y!, z!, 1]);
  }

  it("is the same to 0.001 mm on random lumps and rings, any way round", () => {
    const random = randomFrom(41);
    let apart = 0;
    for (let k = 0; k < 60; k++) {
      const a =
        k % 2 === 0
          ? blob(random, 7, 40, [1, 2, 0.5], 0.1, [0, 0, 0])
          : ring(
              [
                [60, -8],
                [75, -8],
                [75, 8],
                [60, 8],
              ],
              24,
            );
      const b = blob(random, 5, 15, [1, 0.4, 3], 0.1, [0, 0, 0]);
      const relative = randomPose(random, 180, 90);
      const witness = createWitness();
      createDistanceQuery(buildTree(a), buildTree(b)).distance(relative, witness);
      const [bodyA, bodyB] = [bodyOf(a), bodyOf(b, relative)];
      const isNested = bodyA.intersect(bodyB).volume() > 0 && witness.distance_mm > 0;
      if (!isNested) {
        expect(witness.distance_mm, `case ${k}`).toBeCloseTo(bodyA.minGap(bodyB, 1000), 3);
        if (witness.distance_mm > 0) apart++;
      }
      bodyA.delete();
      bodyB.delete();
    }
    expect(apart).toBeGreaterThan(20);
  });
});
