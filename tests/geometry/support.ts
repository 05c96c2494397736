import Module, { type Manifold } from "manifold-3d";
import { Vector3 } from "three";
import { ConvexHull } from "three/examples/jsm/math/ConvexHull.js";
import { expect } from "vitest";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import type { ShapeContext } from "../../src/geometry/context.ts";
import { isClosedManifold, volume_mm3 } from "../../src/geometry/measure.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import type { Shape, Wheel } from "../../src/scene/scene.ts";

/** Positions are float32: half a unit in the last place at 1 m is 0.00003 mm; sums of a few of them stay below this. */
export const FLOAT32_mm = 2e-4;

export const WHEEL: Wheel = {
  centre: [0, 740, 300],
  tyre: "205/55R16",
  rimWidth_in: 6.5,
  rimOffset_mm: 42,
  toe_deg: 0.15,
  camber_deg: -1,
};

export function contextAt(tessellation_mm: number, meshFiles: ReadonlyMap<string, Solid> = new Map()): ShapeContext {
  return { tessellation_mm, wheel: WHEEL, meshFiles };
}

/** A shape's record without the keys every shape has. */
export type Drawn = Shape extends infer Kind ? (Kind extends Shape ? Omit<Kind, "at" | "turn_deg"> : never) : never;

export function draw(shape: Drawn, tessellation_mm = 0.1): Solid {
  return buildSolid({ at: null, turn_deg: null, ...shape } as Shape, contextAt(tessellation_mm));
}

/** mulberry32: evenly spread numbers in [0, 1) that a seed repeats. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function vertexOf(solid: Pick<Solid, "positions">, index: number): Vec3 {
  const { positions: p } = solid;
  return [p[3 * index]!, p[3 * index + 1]!, p[3 * index + 2]!];
}

export function cornersOf(solid: Solid, triangle: number): [Vec3, Vec3, Vec3] {
  const { indices } = solid;
  return [0, 1, 2].map((k) => vertexOf(solid, indices[3 * triangle + k]!)) as [Vec3, Vec3, Vec3];
}

/** All vertices, and of every triangle its centre, the middles of its sides and some random points. */
export function surfacePoints(solid: Solid, seed = 1, perTriangle = 3): Vec3[] {
  const random = randomFrom(seed);
  const points: Vec3[] = [];
  for (let i = 0; i < solid.positions.length / 3; i++) points.push(vertexOf(solid, i));
  for (let t = 0; t < solid.indices.length / 3; t++) {
    const [a, b, c] = cornersOf(solid, t);
    const at = (u: number, v: number, w: number): Vec3 =>
      [0, 1, 2].map((k) => a[k]! * u + b[k]! * v + c[k]! * w) as unknown as Vec3;
    points.push(at(1 / 3, 1 / 3, 1 / 3), at(0.5, 0.5, 0), at(0, 0.5, 0.5), at(0.5, 0, 0.5));
    for (let k = 0; k < perTriangle; k++) {
      const u = Math.sqrt(random());
      const v = random();
      points.push(at(1 - u, u * (1 - v), u * v));
    }
  }
  return points;
}

/** Asserts that the drawn surface is nowhere inside the true one and nowhere more than the bound outside it. */
export function expectOutsideWithin(solid: Solid, signedDistance: (p: Vec3) => number, tessellation_mm: number): void {
  let [least, most] = [Infinity, -Infinity];
  for (const p of surfacePoints(solid)) {
    const d = signedDistance(p);
    least = Math.min(least, d);
    most = Math.max(most, d);
  }
  expect(least, "deepest inside").toBeGreaterThanOrEqual(-FLOAT32_mm);
  expect(most, "farthest outside").toBeLessThanOrEqual(tessellation_mm + FLOAT32_mm);
}

/** Asserts a closed, outward, manifold surface without triangles that have no area, in shells that cover it. */
export function expectSound(solid: Solid): void {
  expect(isClosedManifold(solid)).toBe(true);
  expect(volume_mm3(solid)).toBeGreaterThan(0);
  let covered = 0;
  for (const shell of solid.shells) {
    expect(shell.firstTriangle).toBe(covered);
    expect(shell.closed).toBe(true);
    covered += shell.triangleCount;
  }
  expect(covered).toBe(solid.indices.length / 3);
  for (let t = 0; t < covered; t++) {
    const [a, b, c] = cornersOf(solid, t).map((p) => new Vector3(...p)) as [Vector3, Vector3, Vector3];
    const twiceArea = b.clone().sub(a).cross(c.clone().sub(a)).length();
    if (twiceArea === 0) expect.fail(`triangle ${t} has no area`);
  }
}

let manifoldLibrary: ReturnType<typeof Module> | null = null;

/** The solid as manifold-3d takes it; that library throws for a surface it does not hold for manifold. */
export async function asManifold(solid: Solid): Promise<Manifold> {
  manifoldLibrary ??= Module().then((library) => {
    library.setup();
    return library;
  });
  const library = await manifoldLibrary;
  const mesh = new library.Mesh({ numProp: 3, vertProperties: solid.positions, triVerts: solid.indices });
  return new library.Manifold(mesh);
}

/** Whether a point lies in one of the convex pieces, by hulls made with three's quickhull. */
export function inPieces(solid: Solid): (p: Vec3) => boolean {
  const hulls = solid.convexPieces!.map((cloud) => {
    const points: Vector3[] = [];
    for (let i = 0; i < cloud.length; i += 3) points.push(new Vector3(cloud[i]!, cloud[i + 1]!, cloud[i + 2]!));
    const hull = new ConvexHull().setFromPoints(points);
    hull.tolerance = FLOAT32_mm;
    return hull;
  });
  return ([x, y, z]) => hulls.some((hull) => hull.containsPoint(new Vector3(x, y, z)));
}

/** Random points in the box around the solid. */
export function pointsAround(solid: Solid, count: number, seed = 2): Vec3[] {
  const random = randomFrom(seed);
  const [low, high]: [number[], number[]] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ];
  for (const [i, value] of solid.positions.entries()) {
    low[i % 3] = Math.min(low[i % 3]!, value);
    high[i % 3] = Math.max(high[i % 3]!, value);
  }
  return Array.from(
    { length: count },
    () => [0, 1, 2].map((k) => low[k]! + (high[k]! - low[k]!) * random()) as unknown as Vec3,
  );
}

/**
 * Asserts that the pieces fill the true solid and do not reach farther out than the drawn one may.
 */
export function expectPiecesFill(solid: Solid, signedDistance: (p: Vec3) => number, tessellation_mm: number): void {
  const isIn = inPieces(solid);
  for (const p of pointsAround(solid, 1500)) {
    const d = signedDistance(p);
    if (d <= 0 && !isIn(p)) expect.fail(`no piece holds ${p} although it lies ${-d} mm inside`);
    if (d > tessellation_mm + 2 * FLOAT32_mm && isIn(p))
      expect.fail(`a piece holds ${p} although it lies ${d} mm outside`);
  }
}
