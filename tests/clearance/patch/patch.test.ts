import { describe, expect, it } from "vitest";
import {
  buildTree,
  createDistanceQuery,
  createPointQuery,
  createSurfacePoint,
  createWitness,
} from "../../../src/clearance/kernel.ts";
import { contactPatch, worstPatch } from "../../../src/clearance/patch.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { ContactPatch, PatchMesh, SweepBody } from "../../../src/clearance/types.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { applyPose, composePoses, identityPose, invertPose, rotationPose } from "../../../src/maths/pose.ts";
import { cross, distance, length, subtract, type Vec3 } from "../../../src/maths/vec3.ts";
import { agrees, agreesWithin } from "../../truth/agreement.ts";
import { soupOf } from "../kernel/bruteForce.ts";
import { blob, randomFrom } from "../kernel/meshes.ts";
import { armPose, ball, bar, body, brick, joined, motion, STILL, shiftPose, variant } from "../sweep/shapes.ts";

const shelf = new TreeShelf();
const HOME = identityPose();

function patchOf(a: SweepBody, b: SweepBody, required_mm: number, poseA = HOME, poseB = HOME): ContactPatch {
  return contactPatch(shelf, a, b, { required_mm, excuses: [] }, poseA, poseB);
}

function verticesOf({ positions }: PatchMesh): Vec3[] {
  return Array.from({ length: positions.length / 3 }, (_, i) => [
    positions[3 * i]!,
    positions[3 * i + 1]!,
    positions[3 * i + 2]!,
  ]);
}

function areaOf(mesh: PatchMesh): number {
  const vertices = verticesOf(mesh);
  let area = 0;
  for (let i = 0; i < mesh.indices.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => vertices[mesh.indices[i + k]!]!) as [Vec3, Vec3, Vec3];
    area += length(cross(subtract(b, a), subtract(c, a))) / 2;
  }
  return area;
}

/** Vertices on edges that belong to one triangle only. */
function rimOf(mesh: PatchMesh): Vec3[] {
  const vertices = verticesOf(mesh);
  const uses = new Map<string, number>();
  for (let i = 0; i < mesh.indices.length; i += 3) {
    for (const [p, q] of [
      [0, 1],
      [1, 2],
      [2, 0],
    ] as const) {
      const name = [mesh.indices[i + p]!, mesh.indices[i + q]!].sort((x, y) => x - y).join();
      uses.set(name, (uses.get(name) ?? 0) + 1);
    }
  }
  const rim = new Set<number>();
  for (const [name, count] of uses) if (count === 1) for (const vertex of name.split(",")) rim.add(Number(vertex));
  return [...rim].map((vertex) => vertices[vertex]!);
}

describe("a ball over a plate", () => {
  // closed forms: the cap of a ball of radius r whose height over the plate is below the required one, area 2πr·h; and
  // the disc of the plate, radius √((r + required)² − (r + gap)²)
  const r = 60;
  const plate = body("plate", brick([400, 300, 200], [0, 0, -100]));
  const round = body("ball", ball(r, [0, 0, 0], 64));

  it.each([
    [3, 10],
    [9, 10],
    [0.5, 25],
  ])("gap %d mm, required %d mm", (gap, required) => {
    const patch = patchOf(plate, round, required, HOME, shiftPose([0, 0, r + gap]));
    const h = required - gap;
    const capRim = Math.sqrt(r * r - (r - h) ** 2);
    const discRim = Math.sqrt((r + required) ** 2 - (r + gap) ** 2);
    // the ball's facets lie up to 0.04 mm within it: that over the slope at the rim
    const tolerance = 0.5;
    for (const [x, y, z] of rimOf(patch.a).filter((p) => Math.abs(p[2]) < 1e-6)) {
      expect(z).toBeCloseTo(0, 6);
      expect(Math.abs(Math.hypot(x, y) - discRim)).toBeLessThan(tolerance);
    }
    for (const [x, y] of rimOf(patch.b)) expect(Math.abs(Math.hypot(x, y) - capRim)).toBeLessThan(tolerance);
    expect(Math.abs(patch.a.area_mm2 / (Math.PI * discRim ** 2) - 1)).toBeLessThan((2 * tolerance) / discRim);
    expect(Math.abs(patch.b.area_mm2 / (2 * Math.PI * r * h) - 1)).toBeLessThan((2 * tolerance) / capRim);
    expect(patch.crossing).toEqual([]);
    expect(Math.min(...patch.b.clearance_mm)).toBeCloseTo(gap, 2);
    expect(Math.max(...patch.b.clearance_mm)).toBeLessThanOrEqual(required + 1e-4);
  });

  it("carries the exact clearance at each vertex", () => {
    const patch = patchOf(plate, round, 12, HOME, shiftPose([30, 20, r - 4]));
    verticesOf(patch.b).forEach(([, , z], i) => {
      // the height of the vertex over the plate, which is also how deep it lies in it
      expect(Math.abs(patch.b.clearance_mm[i]! - (z + r - 4))).toBeLessThan(0.13);
    });
    verticesOf(patch.a).forEach(([x, y, z], i) => {
      const exact = Math.hypot(x - 30, y - 20, z - (r - 4)) - r;
      // facets of the ball, and on its rim the cut
      expect(Math.abs(patch.a.clearance_mm[i]! - exact)).toBeLessThan(0.13);
    });
    expect(Math.min(...patch.b.clearance_mm)).toBeCloseTo(-4, 2);
  });

  it("is nothing where they are farther apart than required", () => {
    const patch = patchOf(plate, round, 10, HOME, shiftPose([0, 0, r + 10.5]));
    expect(patch.a.indices).toHaveLength(0);
    expect(patch.b.positions).toHaveLength(0);
    expect(patch.b.area_mm2).toBe(0);
  });

  it("crosses in a circle of radius √(r² − height²), one closed curve in car coordinates", () => {
    for (const height of [5, 30, 55]) {
      const away = composePoses(shiftPose([500, -300, 250]), rotationPose([0.6, 0.8, 0], 0.7));
      const patch = patchOf(plate, round, 10, away, composePoses(away, shiftPose([10, 0, height])));
      expect(patch.crossing).toHaveLength(1);
      const radius = Math.sqrt(r * r - height * height);
      const curve = curveOf(patch.crossing[0]!);
      expect(curve[0]).toEqual(curve[curve.length - 1]);
      expect(Math.abs(lengthOf(curve) / (2 * Math.PI * radius) - 1)).toBeLessThan(0.004);
      const back = invertPose(away);
      for (const point of curve) {
        const [x, y, z] = applyPose(back, point);
        expect(Math.abs(z)).toBeLessThan(1e-3);
        expect(Math.abs(Math.hypot(x - 10, y) - radius)).toBeLessThan((0.07 * r) / radius);
      }
    }
  });

  it("counts what is buried deeper than the required clearance", () => {
    const slug = body("slug", brick([20, 20, 20]));
    const block = body("block", brick([200, 200, 200]));
    const patch = patchOf(block, slug, 5, HOME, HOME);
    // all six faces of the slug, 80 to 90 mm from the block's faces; none of the block's surface is near
    agrees("patchArea", patch.b.area_mm2, 2400, 3);
    expect(patch.a.area_mm2).toBe(0);
    // told as 30 mm, the deepest that is told
    expect(Math.min(...patch.b.clearance_mm)).toBe(-30);
    expect(Math.max(...patch.b.clearance_mm)).toBe(-30);
  });
});

describe("a ball over a strip 3 mm wide", () => {
  // closed form: the part of the plate's disc between y = ±1.5 mm, 2·(y·√(R² − y²) + R²·asin(y/R)) at y = 1.5
  const [r, gap, required] = [60, 4, 10];
  const disc = Math.sqrt((r + required) ** 2 - (r + gap) ** 2);
  const between = 2 * (1.5 * Math.sqrt(disc ** 2 - 1.5 ** 2) + disc ** 2 * Math.asin(1.5 / disc));

  it("takes about a triangle a square millimetre at most, though it is cut from needles of any length", () => {
    const counts = [200, 800, 3200].map((length) => {
      const strip = body(`strip ${length}`, brick([length, 3, 80], [0, 0, -40]));
      const { a } = patchOf(strip, body("ball", ball(r, [0, 0, 0], 64)), required, HOME, shiftPose([0, 0, r + gap]));
      const top = { ...a, indices: a.indices.filter((_, i) => isTop(a, i - (i % 3))) };
      expect(areaOf(top) / between).toBeCloseTo(1, 2);
      return top.indices.length / 3;
    });
    for (const count of counts) expect(count / between).toBeLessThan(1.5);
  });

  function isTop({ positions, indices }: PatchMesh, triangle: number): boolean {
    return [0, 1, 2].every((k) => Math.abs(positions[3 * indices[triangle + k]! + 2]!) < 1e-6);
  }
});

describe("two lumps", () => {
  /** Area of the surface, cut into triangles with edges below 0.7 mm, whose middles are nearer than so much to the other body. */
  function areaNearer(solid: Solid, other: Solid, required_mm: number): number {
    const query = createPointQuery(buildTree(other));
    const found = createSurfacePoint();
    const soup = soupOf(solid);
    let area = 0;
    for (let at = 0; at < soup.length; at += 9) {
      const [a, b, c] = [0, 3, 6].map((k): Vec3 => [soup[at + k]!, soup[at + k + 1]!, soup[at + k + 2]!]) as [
        Vec3,
        Vec3,
        Vec3,
      ];
      const n = Math.ceil(Math.max(distance(a, b), distance(b, c), distance(c, a)) / 0.7);
      const each = length(cross(subtract(b, a), subtract(c, a))) / 2 / n ** 2;
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n - i; j++) {
          for (const third of i + j < n - 1 ? [1, 2] : [1]) {
            const [u, v] = [(i + third / 3) / n, (j + third / 3) / n];
            const p = a.map((x, k) => x + u * (b[k]! - x) + v * (c[k]! - x)) as unknown as Vec3;
            if (query.nearest(...p, required_mm, found)) area += each;
          }
        }
      }
    }
    return area;
  }

  it.each([1, 4, 12, 30])(
    "are near each other over the area that small triangles tell (required %d mm)",
    (required) => {
      const random = randomFrom(required);
      const lumps = [
        blob(random, 8, 30, [1, 1.4, 0.8], 0.1, [0, 0, 0]),
        blob(random, 9, 30, [1, 1, 0.6], 0.1, [0, 0, 0]),
      ];
      const bodies = lumps.map((solid, i) => body(`lump ${i}`, solid)) as [SweepBody, SweepBody];
      const start = createWitness();
      createDistanceQuery(buildTree(lumps[0]!), buildTree(lumps[1]!)).distance(shiftPose([0, 0, 80]), start);
      // 0.6 mm apart
      const moved = shiftPose([0, 0, 80 - (start.distance_mm - 0.6)]);
      const patch = patchOf(...bodies, required, HOME, moved);
      const placed = { ...lumps[1]!, positions: lumps[1]!.positions.map((x, i) => (i % 3 === 2 ? x + moved[11]! : x)) };
      const expected = [areaNearer(lumps[0]!, placed, required), areaNearer(placed, lumps[0]!, required)];
      agreesWithin("patchArea", patch.a.area_mm2, expected[0]!, 1 + 0.02 * expected[0]!);
      expect(Math.abs(patch.b.area_mm2 - expected[1]!)).toBeLessThan(1 + 0.02 * expected[1]!);
      expect(expected[0]).toBeGreaterThan(2);
    },
  );
});

describe("two tubes that cross", () => {
  it("meet in two closed curves of the length that the parametric curve has", () => {
    // x = r·cos θ, y = r·sin θ on the thin tube along z; on the thick one along x: z = ±√(R² − y²)
    const [thick, thin] = [30, 18];
    const a = body("a", bar([-200, 0, 0], [200, 0, 0], thick, 180));
    const b = body("b", bar([0, 0, -120], [0, 0, 120], thin, 180));
    const patch = patchOf(a, b, 5);
    const exact: Vec3[] = Array.from({ length: 20001 }, (_, i) => {
      const angle = (2 * Math.PI * i) / 20000;
      const y = thin * Math.sin(angle);
      return [thin * Math.cos(angle), y, Math.sqrt(thick * thick - y * y)];
    });
    expect(patch.crossing).toHaveLength(2);
    for (const curve of patch.crossing) {
      const points = curveOf(curve);
      expect(points[0]).toEqual(points[points.length - 1]);
      expect(Math.abs(lengthOf(points) / lengthOf(exact) - 1)).toBeLessThan(0.002);
      for (const [x, y, z] of points) {
        expect(Math.abs(Math.hypot(x, y) - thin)).toBeLessThan(0.01);
        expect(Math.abs(Math.hypot(y, z) - thick)).toBeLessThan(0.01);
      }
    }
  });

  it("meet in the same curves with the bodies exchanged", () => {
    const a = body("a", bar([-200, 0, 0], [200, 0, 0], 30, 60));
    const b = body("b", bar([0, 10, -120], [20, 0, 120], 18, 48));
    const total = (patch: ContactPatch) => patch.crossing.reduce((sum, curve) => sum + lengthOf(curveOf(curve)), 0);
    const [one, other] = [patchOf(a, b, 5), patchOf(b, a, 5)];
    expect(total(one)).toBeGreaterThan(200);
    expect(total(other)).toBeCloseTo(total(one), 3);
    expect(other.a.area_mm2).toBeCloseTo(one.b.area_mm2, 3);
  });

  it("give closed curves through exact coincidences of corners, edges and faces", () => {
    // a brick whose edges run through the other's corners and edges: all ties
    for (const at of [
      [10, 10, 0],
      [10, 10, 10],
      [5, 5, 5],
      [10, 0, 5],
    ] as const) {
      const patch = patchOf(body("p", brick([20, 20, 20])), body("q", brick([20, 20, 20])), 1, HOME, shiftPose(at));
      for (const curve of patch.crossing) {
        for (const value of curve) expect(Number.isFinite(value)).toBe(true);
      }
    }
    const corner = patchOf(
      body("p", brick([20, 20, 20])),
      body("q", brick([20, 20, 20])),
      1,
      HOME,
      shiftPose([10, 10, 10]),
    );
    // 6 edges of a cube of 10
    expect(corner.crossing).toHaveLength(1);
    expect(lengthOf(curveOf(corner.crossing[0]!))).toBeCloseTo(60, 4);
  });
});

describe("the worst over the travel", () => {
  it("is at every vertex the least of the clearances along the way", () => {
    const arm = body("arm", bar([0, 0, 0], [300, 0, 0], 12, 32));
    const rail = body("rail", brick([40, 40, 200], [200, 40, 0]));
    const swinging = motion(-40, 40, 1, (travel) => armPose(travel, [0, 0, 0]));
    const both = variant(STILL, swinging, -40, 40);
    const pair = { required_mm: 12, excuses: [] };
    const worst = worstPatch(shelf, rail, arm, pair, both, 0);
    const single = contactPatch(shelf, rail, arm, pair, HOME, HOME);
    expect(worst.a.area_mm2).toBeGreaterThan(1.5 * single.a.area_mm2);
    // gap of 8 mm everywhere the bar sweeps past the rail's face y = 20
    expect(Math.min(...worst.a.clearance_mm)).toBeCloseTo(8, 2);
    verticesOf(worst.a).forEach((point, i) => {
      let least = Number.POSITIVE_INFINITY;
      for (let travel = -40; travel <= 40; travel += 2.5) {
        const [x, y, z] = applyPose(invertPose(armPose(travel, [0, 0, 0])), point);
        // distance to the bar's axis; within its length, as all of the patch is
        expect(x).toBeLessThan(300);
        least = Math.min(least, Math.hypot(y, z) - 12);
      }
      expect(Math.abs(worst.a.clearance_mm[i]! - least)).toBeLessThan(0.16);
    });
  });

  it("leaves out what a joint excuses", () => {
    const lug = body("lug", joined(brick([60, 6, 60], [0, 20, 0]), brick([60, 6, 60], [0, -20, 0])));
    const link = body("link", bar([0, 0, 0], [300, 0, 0], 12, 32));
    const excuses = [{ centreInA: [0, 0, 0] as Vec3, centreInB: [0, 0, 0] as Vec3, radius_mm: 50 }];
    const bare = contactPatch(shelf, lug, link, { required_mm: 10, excuses: [] }, HOME, HOME);
    const excused = contactPatch(shelf, lug, link, { required_mm: 10, excuses }, HOME, HOME);
    expect(bare.a.area_mm2).toBeGreaterThan(100);
    expect(excused.a.area_mm2).toBe(0);
    for (const point of verticesOf(excused.b)) expect(distance(point, [0, 0, 0])).toBeGreaterThan(49.7);
  });
});

function curveOf(values: Float32Array): Vec3[] {
  return Array.from({ length: values.length / 3 }, (_, i) => [values[3 * i]!, values[3 * i + 1]!, values[3 * i + 2]!]);
}

function lengthOf(points: readonly Vec3[]): number {
  return points.slice(1).reduce((sum, point, i) => sum + distance(point, points[i]!), 0);
}
