import Module, { type ManifoldToplevel } from "manifold-3d";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildTree, chooseKernel, createDistanceQuery, createWitness } from "../../../src/clearance/kernel.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import type { Pose } from "../../../src/maths/pose.ts";
import { agrees } from "../../truth/agreement.ts";
import { blob, randomFrom, randomPose } from "./meshes.ts";
import { ring } from "./solids.ts";

/** A general-purpose solid modeller as a second opinion. */
describe.each(["typescript", "wasm"] as const)("distance against manifold's gap, by the %s kernel", (kernel) => {
  let manifold: ManifoldToplevel;
  beforeAll(async () => {
    manifold = await Module();
    manifold.setup();
    chooseKernel(kernel);
  });
  afterAll(() => chooseKernel("auto"));

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
        agrees("clearance", witness.distance_mm, bodyA.minGap(bodyB, 1000), 3, `case ${k}`);
        if (witness.distance_mm > 0) apart++;
      }
      bodyA.delete();
      bodyB.delete();
    }
    expect(apart).toBeGreaterThan(20);
  });

  it("is the same for lumps of over 100,000 triangles", () => {
    const random = randomFrom(43);
    const [solidA, solidB] = [
      blob(random, 170, 60, [1, 1.4, 0.7], 0.01, [0, 0, 0]),
      blob(random, 165, 50, [1, 0.6, 2], 0.01, [0, 0, 0]),
    ];
    expect(Math.min(solidA.indices.length, solidB.indices.length) / 3).toBeGreaterThan(100_000);
    const query = createDistanceQuery(buildTree(solidA), buildTree(solidB));
    const bodyA = bodyOf(solidA);
    const witness = createWitness();
    for (const shift of [150, 120]) {
      const relative = randomPose(random, 180, 0);
      relative[3] = shift;
      const bodyB = bodyOf(solidB, relative);
      query.distance(relative, witness);
      expect(witness.distance_mm).toBeGreaterThan(0);
      // its search takes long where it is told to look far
      agrees("clearance", witness.distance_mm, bodyA.minGap(bodyB, witness.distance_mm + 1), 3);
      bodyB.delete();
    }
    bodyA.delete();
  });
});
