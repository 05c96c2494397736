import { describe, expect, test } from "vitest";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import { area_mm2, bounds, isClosedManifold, volume_mm3 } from "../../src/geometry/measure.ts";
import { mergeSolids, mirrorSolid, transformSolid } from "../../src/geometry/rearrange.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { invertPose, rotationPose } from "../../src/maths/pose.ts";
import { normalise, type Vec3 } from "../../src/maths/vec3.ts";
import { InputError } from "../../src/scene/error.ts";
import type { Shape } from "../../src/scene/scene.ts";
import { contextAt, type Drawn, draw, expectSound, inPieces, pointsAround, vertexOf } from "./support.ts";

const BOX: Shape = { kind: "box", size_mm: [40, 20, 10], edge_mm: null, at: null, turn_deg: null };
const PLATE: Drawn = {
  kind: "prism",
  outline: [
    [0, 0],
    [60, 0],
    [0, 40],
  ],
  holes: [],
  thickness_mm: 5,
  origin: [100, 200, 300],
  u: [1, 0, 0],
  v: [0, 1, 0],
};

function build(shape: Shape, files?: ReadonlyMap<string, Solid>): Solid {
  return buildSolid(shape, contextAt(0.1, files));
}

function expectBounds(solid: Solid, min: Vec3, max: Vec3): void {
  const found = bounds(solid);
  for (const axis of [0, 1, 2] as const) {
    expect(found.min[axis]).toBeCloseTo(min[axis], 3);
    expect(found.max[axis]).toBeCloseTo(max[axis], 3);
  }
}

describe("a shape's place", () => {
  test("`at` moves its own origin there", () => {
    expectBounds(build({ ...BOX, at: [100, 500, 300] }), [80, 490, 295], [120, 510, 305]);
  });

  test("turns are intrinsic: X by 90°, then the turned Z by 90°", () => {
    // by hand: X first lays y to z and z to −y; the turned Z axis is −y, and a quarter turn about it takes x to z
    const solid = build({ ...BOX, at: [0, 500, 0], turn_deg: [90, 0, 90] });
    // length 40 ends along z, 20 along x, 10 along y
    expectBounds(solid, [-10, 495, -20], [10, 505, 20]);
  });

  test("shapes drawn between points turn about the car's origin and then move", () => {
    const shape: Shape = {
      kind: "cylinder",
      from: [0, 0, 0],
      to: [100, 0, 0],
      diameter_mm: 20,
      at: [0, 0, 50],
      turn_deg: [0, 0, 90],
    };
    const { min, max } = bounds(build(shape));
    expect([min[1], max[1]]).toEqual([expect.closeTo(0, 4), expect.closeTo(100, 4)]);
    expect((min[2] + max[2]) / 2).toBeCloseTo(50, 1);
  });

  test("a group's place acts on its placed parts; shells and pieces stay apart", () => {
    const solid = build({
      kind: "group",
      parts: [
        { ...BOX, at: [100, 0, 0] },
        { ...BOX, at: [-100, 0, 0] },
      ],
      at: [0, 0, 10],
      turn_deg: [0, 0, 90],
    });
    expectBounds(solid, [-10, -120, 5], [10, 120, 15]);
    expect(solid.shells.map((shell) => shell.triangleCount)).toEqual([12, 12]);
    expect(solid.convexPieces).toHaveLength(2);
    expectSound(solid);
  });

  test("a mesh file is taken from the files beside the scene, and missed by name", () => {
    const mesh: Shape = {
      kind: "mesh",
      file: "scan/sump.stl",
      unit: "mm",
      repair: null,
      thinned: null,
      at: [0, 0, 5],
      turn_deg: null,
    };
    expectBounds(build(mesh, new Map([["scan/sump.stl", build(BOX)]])), [-20, -10, 0], [20, 10, 10]);
    expect(() => build(mesh)).toThrow(InputError);
    expect(() => build({ kind: "group", parts: [BOX, mesh], at: null, turn_deg: null })).toThrow(/parts\[1\]\.file/);
  });
});

describe("mirror image", () => {
  const solids: [string, Solid][] = [
    ["plate", draw(PLATE)],
    ["sphere", draw({ kind: "sphere", diameter_mm: 50 })],
    ["wheel", draw({ kind: "wheel" }, 0.5)],
  ];

  test.each(solids)("of a %s keeps volume and area, faces outward, and lies at −y", (_name, solid) => {
    const image = mirrorSolid(solid);
    expect(volume_mm3(image)).toBeCloseTo(volume_mm3(solid), 3);
    expect(area_mm2(image)).toBeCloseTo(area_mm2(solid), 3);
    expect(isClosedManifold(image)).toBe(true);
    const [was, is] = [bounds(solid), bounds(image)];
    expect(is.min).toEqual([was.min[0], -was.max[1], was.min[2]]);
    expect(is.max).toEqual([was.max[0], -was.min[1], was.max[2]]);
  });

  test("of the mirror image is the solid itself", () => {
    const solid = draw(PLATE);
    expect(mirrorSolid(mirrorSolid(solid))).toEqual(solid);
  });

  test("mirrors the pieces with the surface", () => {
    const solid = draw(PLATE);
    const [isIn, isInImage] = [inPieces(solid), inPieces(mirrorSolid(solid))];
    for (const [x, y, z] of pointsAround(solid, 300)) expect(isInImage([x, -y, z])).toBe(isIn([x, y, z]));
  });
});

describe("moving and merging", () => {
  const pose = rotationPose(normalise([1, 2, -1]), 0.7, [30, -20, 400]);

  test("a rigid motion keeps volume and area and can be undone", () => {
    const solid = draw(PLATE);
    const moved = transformSolid(solid, pose);
    expect(volume_mm3(moved) / volume_mm3(solid)).toBeCloseTo(1, 5);
    expect(area_mm2(moved) / area_mm2(solid)).toBeCloseTo(1, 5);
    const back = transformSolid(moved, invertPose(pose));
    for (let i = 0; i < solid.positions.length / 3; i++) {
      for (const axis of [0, 1, 2]) expect(vertexOf(back, i)[axis]!).toBeCloseTo(vertexOf(solid, i)[axis]!, 3);
    }
  });

  test("a convex solid's one piece goes with its vertices", () => {
    const moved = transformSolid(draw({ kind: "sphere", diameter_mm: 20 }), pose);
    expect(moved.convexPieces![0]).toEqual(moved.positions);
  });

  test("merged solids add up, and their shells follow each other", () => {
    const parts = [draw(PLATE), draw({ kind: "sphere", diameter_mm: 20 }), draw({ kind: "wheel" }, 0.5)];
    const merged = mergeSolids(parts);
    expectSound(merged);
    const sum = (of: (solid: Solid) => number) => parts.reduce((total, part) => total + of(part), 0);
    expect(volume_mm3(merged) / sum(volume_mm3)).toBeCloseTo(1, 5);
    expect(area_mm2(merged) / sum(area_mm2)).toBeCloseTo(1, 5);
    expect(merged.shells).toHaveLength(4);
    expect(merged.convexPieces).toHaveLength(sum((part) => part.convexPieces!.length));
    expect(mergeSolids([parts[0]!, { ...parts[1]!, convexPieces: null }]).convexPieces).toBeNull();
  });
});

describe("closed manifold", () => {
  const box = build(BOX);

  test("is asked of edges and of vertices", () => {
    expect(isClosedManifold(box)).toBe(true);
    expect(isClosedManifold({ ...box, indices: box.indices.slice(3) })).toBe(false);
    const flipped = box.indices.slice();
    flipped.set([box.indices[1]!, box.indices[0]!], 0);
    expect(isClosedManifold({ ...box, indices: flipped })).toBe(false);
  });

  test("does not hold for two boxes that share one corner", () => {
    const other = build({ ...BOX, at: [40, 20, 10] });
    const pair = mergeSolids([box, other]);
    expect(isClosedManifold(pair)).toBe(true);
    const n = pair.positions.length / 3;
    const nameOf = new Map<string, number>();
    const firstOf = Array.from({ length: n }, (_, i) => {
      const key = vertexOf(pair, i).join();
      if (!nameOf.has(key)) nameOf.set(key, i);
      return nameOf.get(key)!;
    });
    const kept = [...new Set(firstOf)];
    expect(kept).toHaveLength(15);
    const welded = {
      positions: Float32Array.from(kept.flatMap((i) => vertexOf(pair, i))),
      indices: pair.indices.map((i) => kept.indexOf(firstOf[i]!)),
    };
    expect(isClosedManifold(welded)).toBe(false);
  });
});
