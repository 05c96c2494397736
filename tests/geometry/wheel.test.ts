import { describe, expect, test } from "vitest";
import { volume_mm3 } from "../../src/geometry/measure.ts";
import { rimProfile } from "../../src/geometry/rimProfile.ts";
import { buildRim } from "../../src/geometry/rimSolid.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { tyreSize } from "../../src/geometry/tyreSize.ts";
import { buildTyre, tyreSection } from "../../src/geometry/tyreSolid.ts";
import { dot, length, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { Wheel } from "../../src/scene/scene.ts";
import { turnedPolygon } from "./distances.ts";
import {
  asManifold,
  contextAt,
  draw,
  expectOutsideWithin,
  expectSound,
  FLOAT32_mm,
  inPieces,
  pointsAround,
  surfacePoints,
  vertexOf,
  WHEEL,
} from "./support.ts";

/** Spin axis of a left wheel: (sin t·cos c, cos t·cos c, −sin c). */
function spinAxis({ toe_deg, camber_deg }: Wheel): Vec3 {
  const [t, c] = [(toe_deg * Math.PI) / 180, (camber_deg * Math.PI) / 180];
  return [Math.sin(t) * Math.cos(c), Math.cos(t) * Math.cos(c), -Math.sin(c)];
}

/** Height outboard of the wheel's centre plane, radius from the spin axis. */
function inWheel(wheel: Wheel, p: Vec3): { axial: number; radial: number } {
  const s = spinAxis(wheel);
  const offset = subtract(p, wheel.centre);
  const axial = dot(offset, s);
  return { axial, radial: length(subtract(offset, scale(s, axial))) };
}

const WHEELS: [string, Wheel][] = [
  ["205/55R16 on 6.5 in", WHEEL],
  [
    "185/60R14 on 5.5 in, toed and cambered",
    { ...WHEEL, tyre: "185/60R14", rimWidth_in: 5.5, toe_deg: -3, camber_deg: 7 },
  ],
  ["255/35R19 on 9 in, offset inboard", { ...WHEEL, tyre: "255/35R19", rimWidth_in: 9, rimOffset_mm: -12 }],
  ["145/80R10 on a rim far too wide", { ...WHEEL, tyre: "145/80R10", rimWidth_in: 9, rimOffset_mm: 0 }],
];

describe.each(WHEELS)("tyre %s", (_name, wheel) => {
  const tessellation_mm = 0.1;
  const solid = buildTyre(wheel, tessellation_mm);
  const size = tyreSize(wheel.tyre, wheel.rimWidth_in);
  const points = surfacePoints(solid, 1, 0).map((p) => inWheel(wheel, p));

  test("is a sound ring that manifold-3d takes", async () => {
    expectSound(solid);
    const manifold = await asManifold(solid);
    expect(manifold.genus()).toBe(1);
    expect(volume_mm3(solid) / manifold.volume()).toBeCloseTo(1, 5);
  });

  test("reaches its section width on both sides of the centre plane and never exceeds it", () => {
    const axial = points.map((p) => p.axial);
    expect(Math.max(...axial)).toBeCloseTo(size.sectionWidth_mm / 2, 3);
    expect(Math.min(...axial)).toBeCloseTo(-size.sectionWidth_mm / 2, 3);
  });

  test("reaches its overall diameter all round, and exceeds it by less than the bound", () => {
    // middles of the tread's sides are the nearest points of the outermost band
    const radial = points.map((p) => p.radial);
    const outer_mm = size.overallDiameter_mm / 2;
    expect(Math.max(...radial)).toBeLessThanOrEqual(outer_mm + tessellation_mm + FLOAT32_mm);
    const tread = points.filter((p) => Math.abs(p.axial) < 0.3 * size.sectionWidth_mm && p.radial > outer_mm - 20);
    expect(Math.min(...tread.map((p) => p.radial))).toBeGreaterThanOrEqual(outer_mm - FLOAT32_mm);
  });

  test("has its hole at the bead seats", () => {
    const least = Math.min(...points.map((p) => p.radial));
    expect(least).toBeLessThanOrEqual(size.rimDiameter_mm / 2 + FLOAT32_mm);
    expect(least).toBeGreaterThanOrEqual(size.rimDiameter_mm / 2 - tessellation_mm);
  });

  test("lies outside its section turned about the spin axis, within the bound", () => {
    expectOutsideWithin(solid, turnedPolygon(wheel.centre, spinAxis(wheel), tyreSection(size)), tessellation_mm);
  });

  test("its section is convex", () => {
    const section = tyreSection(size);
    const n = section.length;
    for (let i = 0; i < n; i++) {
      const [a, b, c] = [section[i]!, section[(i + 1) % n]!, section[(i + 2) % n]!];
      expect((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])).toBeGreaterThan(0);
    }
  });

  test("has rounded shoulders: it clears the corner of width and diameter", () => {
    const [w, r] = [size.sectionWidth_mm / 2, size.overallDiameter_mm / 2];
    const toCorner = points.map((p) => Math.hypot(Math.abs(p.axial) - w, p.radial - r));
    expect(Math.min(...toCorner)).toBeGreaterThan(0.02 * size.sectionWidth_mm);
  });

  test("every section is convex, so its pieces are the surface and its steps", () => {
    const isIn = inPieces(solid);
    const manifoldVolume = volume_mm3(solid);
    const around = pointsAround(solid, 1500);
    const held = around.filter(isIn).length / around.length;
    const xyz = [0, 1, 2].map((k) => [...solid.positions].filter((_, i) => i % 3 === k));
    const boxVolume = xyz.reduce((product, all) => product * (maximum(all) - minimum(all)), 1);
    // four standard deviations of 1500 draws
    expect(Math.abs(held - manifoldVolume / boxVolume)).toBeLessThan(4 * Math.sqrt(0.25 / 1500));
  });
});

describe.each(WHEELS)("rim %s", (_name, wheel) => {
  const solid = buildRim(wheel, 0.1);
  const points = surfacePoints(solid, 1, 0).map((p) => inWheel(wheel, p));
  const size = tyreSize(wheel.tyre, wheel.rimWidth_in);

  test("is a sound surface with a bore and five windows", async () => {
    expectSound(solid);
    const manifold = await asManifold(solid);
    expect(manifold.genus()).toBe(6);
    expect(volume_mm3(solid) / manifold.volume()).toBeCloseTo(1, 5);
  });

  test("its hub face is the offset outboard of the centre plane (ISO rim offset, positive outboard)", () => {
    const hub = points.filter((p) => p.radial < 0.35 * (size.rimDiameter_mm / 2)).map((p) => p.axial);
    expect(minimum(hub)).toBeCloseTo(wheel.rimOffset_mm, 3);
  });

  test("its bead seats carry the rim's diameter between flanges the rim's width apart", () => {
    const seat_mm = size.rimDiameter_mm / 2;
    const vertices = Array.from({ length: solid.positions.length / 3 }, (_, i) => inWheel(wheel, vertexOf(solid, i)));
    const seats = vertices.filter((p) => p.radial > seat_mm - 0.01 && p.radial < seat_mm + 0.1 + FLOAT32_mm);
    expect(maximum(seats.map((p) => p.axial))).toBeCloseTo(size.rimWidth_mm / 2, 3);
    expect(minimum(seats.map((p) => p.axial))).toBeCloseTo(-size.rimWidth_mm / 2, 3);
  });

  test("lies outside its profile turned about the spin axis, within the bound, but for the windows", () => {
    const profile = rimProfile(size, wheel.rimOffset_mm);
    const [inner, outer] = [profile.windowInnerBack, profile.windowOuterBack].map((i) => profile.points[i]![0]);
    const turned = turnedPolygon(wheel.centre, spinAxis(wheel), profile.points);
    for (const p of surfacePoints(solid, 1, 1)) {
      const d = turned(p);
      if (d > 0.1 + FLOAT32_mm) expect.fail(`${p} stands ${d} mm outside`);
      const { radial } = inWheel(wheel, p);
      const inWindow = radial > inner! - 0.2 && radial < outer! + 0.2;
      if (d < -FLOAT32_mm && !inWindow) expect.fail(`${p} lies ${-d} mm inside`);
    }
  });

  test("its pieces together have its volume: they fill it without overlapping", async () => {
    expect(piecesVolume(solid) / volume_mm3(solid)).toBeCloseTo(1, 4);
  });
});

test("the rim of section 2's example: hub face 750 out, offset 35, centre plane 715, sidewalls 827.35 and 602.65", () => {
  const wheel: Wheel = {
    ...WHEEL,
    centre: [0, 715, 300],
    tyre: "225/45R17",
    rimWidth_in: 7.5,
    rimOffset_mm: 35,
    toe_deg: 0,
    camber_deg: 0,
  };
  const y = [...buildTyre(wheel, 0.1).positions].filter((_, i) => i % 3 === 1);
  expect(maximum(y)).toBeCloseTo(827.35, 1);
  expect(minimum(y)).toBeCloseTo(602.65, 1);
  const rim = buildRim(wheel, 0.1);
  const hub = surfacePoints(rim, 1, 0).filter(([x, , z]) => Math.hypot(x, z - 300) < 60);
  expect(minimum(hub.map((p) => p[1]))).toBeCloseTo(750, 3);
});

test("the top of a cambered wheel: R 316·cos 2° + half width 112.5·sin 2° bounds the tyre with its rounded shoulders", () => {
  const wheel: Wheel = { ...WHEEL, centre: [0, 0, 0], toe_deg: 0, camber_deg: 2 };
  const { overallDiameter_mm, sectionWidth_mm } = tyreSize(wheel.tyre, wheel.rimWidth_in);
  const top = maximum([...buildTyre(wheel, 0.1).positions].filter((_, i) => i % 3 === 2));
  const [r, w, c] = [overallDiameter_mm / 2, sectionWidth_mm / 2, (2 * Math.PI) / 180];
  expect(top).toBeLessThan(r * Math.cos(c) + w * Math.sin(c));
  expect(top).toBeGreaterThan(r * Math.cos(c) + 0.7 * w * Math.sin(c));
});

test("the wheel shape is tyre and rim of the scene's wheel, each a shell", () => {
  const solid = draw({ kind: "wheel" }, 0.5);
  const tyre = buildTyre(contextAt(0.5).wheel, 0.5);
  const rim = buildRim(contextAt(0.5).wheel, 0.5);
  expect(solid.shells).toHaveLength(2);
  expect(solid.indices.length).toBe(tyre.indices.length + rim.indices.length);
  expect(volume_mm3(solid) / (volume_mm3(tyre) + volume_mm3(rim))).toBeCloseTo(1, 5);
});

/** Sum of the volumes of the pieces, each a prism between two congruent convex polygons: hulls by fans about a middle. */
function piecesVolume(solid: Solid): number {
  return solid.convexPieces!.reduce((sum, cloud) => sum + wedgeVolume(cloud), 0);
}

/** A wedge lies between a ring of n points and the next ring's n: side quads and two caps, summed as tetrahedra. */
function wedgeVolume(cloud: Float32Array): number {
  const n = cloud.length / 6;
  const at = (i: number): Vec3 => [cloud[3 * i]!, cloud[3 * i + 1]!, cloud[3 * i + 2]!];
  const middle = scale(
    Array.from({ length: 2 * n }, (_, i) => at(i)).reduce((sum, p) => [sum[0] + p[0], sum[1] + p[1], sum[2] + p[2]]),
    1 / (2 * n),
  );
  const six = (a: Vec3, b: Vec3, c: Vec3) => {
    const [u, v, w] = [subtract(a, middle), subtract(b, middle), subtract(c, middle)];
    return Math.abs(
      u[0] * (v[1] * w[2] - v[2] * w[1]) - u[1] * (v[0] * w[2] - v[2] * w[0]) + u[2] * (v[0] * w[1] - v[1] * w[0]),
    );
  };
  let total = 0;
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    total += six(at(i), at(j), at(n + j)) + six(at(i), at(n + j), at(n + i));
    if (i > 0 && i < n - 1) total += six(at(0), at(i), at(i + 1)) + six(at(n), at(n + i), at(n + i + 1));
  }
  return total / 6;
}

function maximum(values: readonly number[]): number {
  return values.reduce((a, b) => Math.max(a, b), -Infinity);
}

function minimum(values: readonly number[]): number {
  return values.reduce((a, b) => Math.min(a, b), Infinity);
}
