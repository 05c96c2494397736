import { Matrix4 } from "three";
import { describe, expect, it } from "vitest";
import { BodyLayer } from "../../../src/app/viewport/bodyLayer.ts";
import { GhostLayer } from "../../../src/app/viewport/ghostLayer.ts";
import { sharedUniforms } from "../../../src/app/viewport/materials.ts";
import type { ModelBody } from "../../../src/check/model.ts";
import { translationPose } from "../../../src/maths/pose.ts";

function body(key: string, group: ModelBody["group"]): ModelBody {
  const positions = Float32Array.of(0, 0, 0, 40, 0, 0, 0, 30, 0, 0, 0, 20);
  const indices = Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3);
  const shells = [{ firstTriangle: 0, triangleCount: 4, closed: true }];
  const solid = { positions, indices, shells, convexPieces: null };
  return { key, id: key, side: "both", mount: "carrier", group, role: null, look: null, solid, content: key };
}

function layers() {
  const shared = sharedUniforms();
  const bodies = new BodyLayer(shared);
  bodies.setBodies([body("link", "arms"), body("hub", "hub"), body("rail", "chassis")]);
  return { bodies, ghosts: new GhostLayer(shared) };
}
const heights = ({ scene }: GhostLayer) => scene.children.map(({ matrixWorld }) => matrixWorld.elements[14]);
const keys = new Set(["link", "hub"]);
const at = (up: number) => ({ keys, poses: new Map([...keys].map((key) => [key, translationPose([0, 0, up])])) });

describe("ghosts", () => {
  it("stand at their own poses with the parts' geometry; the parts stay where they are", () => {
    const { bodies, ghosts } = layers();
    bodies.setPoses(new Map([["link", translationPose([0, 0, 5])]]));
    ghosts.setGhosts([at(60), at(-70)], bodies);
    expect(heights(ghosts)).toEqual([60, 60, -70, -70]);
    expect(bodies.part("link")!.mesh.matrixWorld.elements[14]).toBe(5);
    const own = new Set(bodies.parts.map(({ mesh }) => mesh.geometry));
    for (const ghost of ghosts.scene.children)
      expect(own.has((ghost as typeof ghost & { geometry: never }).geometry)).toBe(true);
  });

  it("are moved, not made anew, while the same parts are shown at other poses", () => {
    const { bodies, ghosts } = layers();
    ghosts.setGhosts([at(60)], bodies);
    const made = [...ghosts.scene.children];
    ghosts.setGhosts([at(20)], bodies);
    expect(ghosts.scene.children).toEqual(made);
    expect(made[0]!.matrixWorld.equals(new Matrix4().makeTranslation(0, 0, 20))).toBe(true);
    ghosts.setGhosts([], bodies);
    expect(ghosts.isEmpty).toBe(true);
  });

  it("follow the list of parts, and are off where their parts are", () => {
    const { bodies, ghosts } = layers();
    ghosts.setGhosts([at(60)], bodies);
    ghosts.show(({ body: { group } }) => group !== "hub");
    expect(ghosts.scene.children.map(({ visible }) => visible)).toEqual([true, false]);
    bodies.setBodies([body("link", "arms")]);
    ghosts.follow(bodies);
    expect(heights(ghosts)).toEqual([60]);
  });
});
