import { Sphere, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import { BodyLayer, HELD_BIT, styleByGroup } from "../../../src/app/viewport/bodyLayer.ts";
import { GeometryCache } from "../../../src/app/viewport/geometryCache.ts";
import { sharedUniforms } from "../../../src/app/viewport/materials.ts";
import type { ModelBody, PartGroup } from "../../../src/check/model.ts";
import { applyPose, rotationPose, translationPose } from "../../../src/maths/pose.ts";

function body(key: string, group: PartGroup = "arms", content = key): ModelBody {
  const positions = Float32Array.of(0, 0, 0, 40, 0, 0, 0, 30, 0, 0, 0, 20);
  const indices = Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3);
  const shells = [{ firstTriangle: 0, triangleCount: 4, closed: true }];
  const solid = { positions, indices, shells, convexPieces: null };
  return { key, id: key.split("@")[0]!, side: "left", mount: "chassis", group, role: null, look: null, solid, content };
}

describe("bodies in the picture", () => {
  it("move by their matrices alone: meshes and geometry stay", () => {
    const layer = new BodyLayer(sharedUniforms());
    layer.setBodies([body("upper@left"), body("rail", "chassis")]);
    const meshes = layer.parts.map(({ mesh }) => mesh);
    const geometries = meshes.map(({ geometry }) => geometry);
    const pose = rotationPose([0, 0.6, 0.8], 0.7, [100, 20, 30]);
    layer.setPoses(new Map([["upper@left", pose]]));
    expect(layer.parts.map(({ mesh }) => mesh)).toEqual(meshes);
    expect(meshes.map(({ geometry }) => geometry)).toEqual(geometries);
    const moved = new Vector3(12, -7, 90).applyMatrix4(meshes[0]!.matrixWorld);
    const wanted = applyPose(pose, [12, -7, 90]);
    expect(moved.distanceTo(new Vector3(...wanted))).toBeLessThan(1e-9);
    expect(meshes[1]!.matrixWorld.elements.slice(12, 15)).toEqual([0, 0, 0]);
  });

  it("keep their pose when the list is made anew", () => {
    const layer = new BodyLayer(sharedUniforms());
    layer.setPoses(new Map([["upper@left", translationPose([0, 0, 55])]]));
    layer.setBodies([body("upper@left")]);
    expect(layer.parts[0]!.mesh.matrixWorld.elements[14]).toBe(55);
    const where = layer.whereIs(layer.parts[0]!, new Sphere());
    expect(where.center.z).toBeGreaterThan(54);
  });

  it("are held by id on both sides, by key on one", () => {
    const layer = new BodyLayer(sharedUniforms());
    layer.setBodies([body("upper@left"), body("upper@right"), body("lower@left")]);
    const held = () =>
      layer.parts.map(({ mesh }) => ((mesh.material.uniforms.uMark!.value as number) & HELD_BIT) !== 0);
    layer.setHeld(new Set(["upper"]));
    expect(held()).toEqual([true, true, false]);
    layer.setHeld(new Set(["upper@right"]));
    expect(held()).toEqual([false, true, false]);
  });

  it("turn to glass one by one, and with their group; what is off stays off, but for a chosen touch", () => {
    const layer = new BodyLayer(sharedUniforms());
    layer.setBodies([body("rail", "chassis"), body("upper@left"), body("lower@left")]);
    const show = { chassis: "glass", powertrain: "solid", hub: "off", arms: "solid" } as const;
    const style = styleByGroup(show, new Set(["lower@left"]), new Set());
    expect(layer.parts.map(style)).toEqual(["glass", "solid", "glass"]);
    const off = styleByGroup({ ...show, arms: "off" }, new Set(["lower@left"]), new Set());
    expect(layer.parts.map(off)).toEqual(["glass", "off", "off"]);
    const touch = styleByGroup({ ...show, arms: "off" }, new Set(), new Set(["lower@left"]));
    expect(layer.parts.map(touch)).toEqual(["glass", "off", "glass"]);
    expect(layer.only("glass", style)).toBe(true);
    expect(layer.parts.map(({ mesh }) => mesh.visible)).toEqual([true, false, true]);
  });
});

describe("geometry on the graphics card", () => {
  it("is one for equal content and released when nothing has it any more", () => {
    const cache = new GeometryCache();
    const [a, b, c] = [body("bolt-1", "chassis", "bolt"), body("bolt-2", "chassis", "bolt"), body("rail", "chassis")];
    const bolt = cache.get(a);
    expect(cache.get(b)).toBe(bolt);
    expect(cache.get(c)).not.toBe(bolt);
    let released = 0;
    bolt.addEventListener("dispose", () => {
      released++;
    });
    cache.keepOnly([b, c]);
    expect(released).toBe(0);
    cache.keepOnly([c]);
    expect(released).toBe(1);
  });
});
