import { describe, expect, it } from "vitest";
import { sectionPlane } from "../../src/app/section/sectionPlane.ts";
import { type Flat, type SectionPlane, sliceSolid } from "../../src/app/section/sliceSolid.ts";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { identityPose, rotationPose } from "../../src/maths/pose.ts";
import { dot, type Vec3 } from "../../src/maths/vec3.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { Shape } from "../../src/scene/scene.ts";
import { smallScene } from "./smallScene.ts";

const { wheel } = resolveScene(smallScene());
const still = identityPose();

function made(shape: Shape): Solid {
  return buildSolid(shape, { tessellation_mm: 0.05, wheel, meshFiles: new Map() });
}
const nowhere = { at: null, turn_deg: null } as const;
const tube = (from: Vec3, to: Vec3, diameter_mm: number) =>
  made({ ...nowhere, kind: "cylinder", from, to, diameter_mm });

/** Shoelace formula; the sign tells the sense of the outline. */
function area(outline: readonly Flat[]): number {
  return outline.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length]!;
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

const across: SectionPlane = { at: [0, 0, 0], right: [0, 1, 0], up: [0, 0, 1], normal: [1, 0, 0] };

describe("a solid cut by a plane", () => {
  it("a round bar square across shows a circle of its diameter, drawn outside the true one by no more than 0.05 mm", () => {
    const outlines = sliceSolid(tube([-100, 0, 0], [100, 0, 0], 40), still, across);
    expect(outlines).toHaveLength(1);
    for (const [x, y] of outlines[0]!) {
      expect(Math.hypot(x, y)).toBeGreaterThanOrEqual(20 - 1e-3);
      expect(Math.hypot(x, y)).toBeLessThanOrEqual(20.05 + 1e-3);
    }
    expect(Math.abs(area(outlines[0]!))).toBeGreaterThanOrEqual(Math.PI * 400 - 0.5);
  });

  it("cut at a slant of 60° it shows an ellipse twice as long: π·a·b", () => {
    const slant = rotationPose([0, 0, 1], Math.PI / 3);
    const [outline] = sliceSolid(tube([-200, 0, 0], [200, 0, 0], 40), slant, across);
    const size = Math.abs(area(outline!));
    expect(size).toBeGreaterThanOrEqual(Math.PI * 40 * 20 - 1);
    expect(size).toBeLessThanOrEqual(Math.PI * 40 * 20 * 1.006);
  });

  it("a ring cut through its axis shows two rounds, turned alike", () => {
    const ring = made({ ...nowhere, kind: "torus", diameter_mm: 200, section_mm: 30 });
    const outlines = sliceSolid(ring, still, across);
    expect(outlines).toHaveLength(2);
    const areas = outlines.map(area);
    expect(Math.sign(areas[0]!)).toBe(Math.sign(areas[1]!));
    for (const size of areas) expect(Math.abs(size)).toBeCloseTo(Math.PI * 225, -1);
  });

  it("a plane through vertices and along faces still gives closed outlines", () => {
    const box = made({ ...nowhere, kind: "box", size_mm: [40, 60, 20], edge_mm: null, at: [20, 0, 0] });
    const [outline] = sliceSolid(box, still, { ...across, at: [20, 0, 0] });
    expect(Math.abs(area(outline!))).toBeCloseTo(1200, 6);
  });

  it("a solid that the plane misses shows nothing", () => {
    expect(sliceSolid(tube([10, 0, 0], [100, 0, 0], 40), still, across)).toEqual([]);
  });
});

describe("the plane of a touch", () => {
  it("holds the way the parts part and cuts the slender one across", () => {
    const link = { solid: tube([0, -200, 0], [0, 200, 0], 30), pose: still };
    const block = made({ ...nowhere, kind: "box", size_mm: [100, 100, 100], edge_mm: null, at: [0, 0, 60] });
    const plane = sectionPlane([0, 0, 12], [0, 0, 15], [0, 0, -1], [link, { solid: block, pose: still }]);
    expect(Math.abs(plane.normal[1])).toBeCloseTo(1, 6);
    expect(dot(plane.normal, [0, 0, 1])).toBeCloseTo(0, 9);
    expect(plane.up[2]).toBeCloseTo(1, 9);
    expect(dot(plane.right, plane.up)).toBeCloseTo(0, 9);
  });

  it("takes a round-ended link's run from its whole, not from the dense end near the touch", () => {
    const shape = { ...nowhere, kind: "capsule", from: [0, 0, 0], to: [0, 300, 0], diameter_mm: 30 } as const;
    const link = { solid: made(shape), pose: still };
    const block = made({ ...nowhere, kind: "box", size_mm: [30, 30, 30], edge_mm: null, at: [0, 10, 28] });
    const plane = sectionPlane([0, 10, 13], [0, 10, 15], [0, 0, -1], [{ solid: block, pose: still }, link]);
    expect(Math.abs(plane.normal[1])).toBeGreaterThan(0.999);
  });

  it("copes with a part that parts along its own run", () => {
    const bar = { solid: tube([0, 0, 0], [0, 0, 300], 30), pose: still };
    const plane = sectionPlane([0, 0, 0], [0, 0, -3], [0, 0, 1], [bar, bar]);
    expect(Math.abs(dot(plane.normal, [0, 0, 1]))).toBeLessThan(1e-9);
  });
});
