import { describe, expect, test } from "vitest";
import { shellsOf } from "../../src/geometry/shells.ts";
import { weld } from "../../src/geometry/weld.ts";
import { applyPose, composePoses, rotationPose, translationPose } from "../../src/maths/pose.ts";
import {
  add,
  cross,
  distance,
  dot,
  length,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from "../../src/maths/vec3.ts";
import { fitCylinder } from "../../src/scans/fitCylinder.ts";
import { fitPlane } from "../../src/scans/fitPlane.ts";
import { neighboursOf, pickPatch } from "../../src/scans/patch.ts";
import { axisPoints, refinePlace, type SurfaceMatch } from "../../src/scans/refine.ts";
import { draw, randomFrom } from "../geometry/support.ts";
import { agrees, agreesWithin } from "../truth/agreement.ts";

const AXIS = normalise([0.3, 1, -0.2]);
const AT: Vec3 = [120, 640, 310];

/** Points on a cylinder, over part of its round, with their true normals; off it by up to `rough_mm`. */
function roundPoints(random: () => number, count: number, arc_rad: number, rough_mm = 0) {
  const u = squareTo(AXIS);
  const v = cross(AXIS, u);
  const normals = Array.from({ length: count }, () => {
    const angle = arc_rad * random();
    return add(scale(u, Math.cos(angle)), scale(v, Math.sin(angle)));
  });
  const points = normals.map((n) =>
    add(add(AT, scale(AXIS, 80 * (random() - 0.5))), scale(n, 34 + rough_mm * 2 * (random() - 0.5))),
  );
  return { points, normals };
}

function fromAxis(p: Vec3, at: Vec3, axis: Vec3): number {
  return length(cross(subtract(p, at), axis));
}

describe("fitted surfaces", () => {
  test("a plane through exact points is that plane", () => {
    const random = randomFrom(1);
    const points = Array.from({ length: 40 }, (): Vec3 => {
      const [x, y] = [200 * random(), 300 * random()];
      return [x, y, 12 + 0.25 * x - 0.5 * y];
    });
    const { normal, at, rms_mm } = fitPlane(points);
    const true_ = normalise([-0.25, 0.5, 1]);
    agrees("fittedPlane", Math.abs(dot(normal, true_)), 1, 12);
    agrees("fittedPlane", dot(subtract(at, [0, 0, 12]), true_), 0, 9);
    expect(rms_mm).toBeLessThan(1e-9);
  });

  test("a plane's residual is that of equal offsets either way", () => {
    // the corners of a square, lifted by 2 and lowered by 2 crosswise: by symmetry the plane stays, each 2 off
    const points: Vec3[] = [
      [0, 0, 2],
      [10, 0, -2],
      [10, 10, 2],
      [0, 10, -2],
    ];
    agrees("fitRms", fitPlane(points).rms_mm, 2, 12);
  });

  test.each([Math.PI * 2, Math.PI, 1])("a cylinder from exact points over %f radians of its round", (arc) => {
    const { points, normals } = roundPoints(randomFrom(2), 120, arc);
    const found = fitCylinder(points, normals)!;
    agrees("fittedAxis", Math.abs(dot(found.axis, AXIS)), 1, 10);
    agrees("fittedCylinder", found.radius_mm, 34, 6);
    agreesWithin("fittedCylinder", fromAxis(found.at, AT, AXIS), 0, 1e-5);
    agreesWithin("fitRms", found.rms_mm, 0, 1e-7);
    const along = points.map((point) => dot(point, AXIS));
    agreesWithin("fittedCylinder", found.length_mm, Math.max(...along) - Math.min(...along), 1e-6);
  });

  test("a rough cylinder within what its roughness allows", () => {
    const { points, normals } = roundPoints(randomFrom(4), 600, Math.PI, 0.5);
    const found = fitCylinder(points, normals)!;
    expect(Math.abs(found.radius_mm - 34)).toBeLessThan(0.15);
    // even offsets within ±0.5 have a root mean square of 0.5/√3
    expect(found.rms_mm).toBeCloseTo(0.5 / Math.sqrt(3), 1);
  });

  test("neither a plane nor a ball passes for a cylinder", () => {
    const random = randomFrom(6);
    const flat = Array.from({ length: 50 }, (): Vec3 => [80 * random(), 60 * random(), 5]);
    expect(
      fitCylinder(
        flat,
        flat.map(() => [0, 0, 1] as const),
      ),
    ).toBeNull();
    const outward = Array.from({ length: 200 }, () => normalise([random() - 0.5, random() - 0.5, random() - 0.5]));
    expect(
      fitCylinder(
        outward.map((n) => scale(n, 40)),
        outward,
      ),
    ).toBeNull();
  });
});

describe("a patch picked on a mesh", () => {
  const box = draw({ kind: "box", size_mm: [200, 120, 80], edge_mm: 4 });
  const round = draw({ kind: "cylinder", from: [0, -60, 0], to: [0, 60, 0], diameter_mm: 70 }, 0.05);

  function triangleNear(mesh: typeof box, p: Vec3): number {
    const middleOf = (t: number): Vec3 => {
      const sum = [0, 0, 0];
      for (let k = 0; k < 3; k++)
        for (let a = 0; a < 3; a++) sum[a]! += mesh.positions[3 * mesh.indices[3 * t + k]! + a]! / 3;
      return sum as unknown as Vec3;
    };
    let best = 0;
    for (let t = 1; t < mesh.indices.length / 3; t++)
      if (distance(middleOf(t), p) < distance(middleOf(best), p)) best = t;
    return best;
  }

  test("the flat of a box with rounded edges, not its rounds", () => {
    const patch = pickPatch(neighboursOf(box), triangleNear(box, [0, 0, 40]), [0, 0, 40], "plane", 300)!;
    expect(patch.fitted.kind).toBe("plane");
    if (patch.fitted.kind !== "plane") return;
    expect(Math.abs(patch.fitted.normal[2])).toBeCloseTo(1, 3);
    expect(patch.fitted.at[2]).toBeCloseTo(40, 0);
    for (const p of patch.points) expect(Math.abs(p[2] - 40)).toBeLessThan(0.5);
  });

  test("the round of a cylinder, not its ends", () => {
    const patch = pickPatch(neighboursOf(round), triangleNear(round, [35, 0, 0]), [35, 0, 0], "cylinder", 130)!;
    expect(patch.fitted.kind).toBe("cylinder");
    if (patch.fitted.kind !== "cylinder") return;
    expect(Math.abs(patch.fitted.axis[1])).toBeCloseTo(1, 4);
    // drawn outside the true cylinder by at most 0.05
    expect(patch.fitted.radius_mm).toBeGreaterThan(34.99);
    expect(patch.fitted.radius_mm).toBeLessThan(35.06);
  });

  test("a flat asked for as a round is refused", () => {
    expect(pickPatch(neighboursOf(box), triangleNear(box, [0, 0, 40]), [0, 0, 40], "cylinder", 30)).toBeNull();
  });
});

describe("a place refined by fit", () => {
  const random = randomFrom(9);
  const flat = (normal: Vec3, at: Vec3): { points: Vec3[]; at: Vec3; normal: Vec3 } => {
    const u = squareTo(normal);
    const v = cross(normal, u);
    const points = Array.from({ length: 60 }, () =>
      add(at, add(scale(u, 90 * (random() - 0.5)), scale(v, 90 * (random() - 0.5)))),
    );
    return { points, at, normal };
  };
  const true_ = composePoses(translationPose([300, 500, 250]), rotationPose(normalise([2, -1, 3]), 0.7));
  const inCar = (p: Vec3) => applyPose(true_, p);
  const turned = (d: Vec3) => subtract(inCar(d), inCar([0, 0, 0]));
  const matchOf = ({ points, at, normal }: ReturnType<typeof flat>): SurfaceMatch => ({
    kind: "plane",
    points,
    at: inCar(at),
    normal: turned(normal),
  });
  const near = composePoses(
    rotationPose(normalise([1, 1, 0]), 0.05, inCar([0, 0, 0])),
    composePoses(translationPose([6, -4, 3]), true_),
  );

  test("three flats square to each other hold it all: the true place comes back", () => {
    const matches = [flat([1, 0, 0], [100, 0, 0]), flat([0, 1, 0], [0, 80, 0]), flat([0, 0, 1], [0, 0, 60])].map(
      matchOf,
    );
    const found = refinePlace(near, matches);
    expect(found.held).toBe(6);
    for (let i = 0; i < 12; i++) expect(found.pose[i]!).toBeCloseTo(true_[i]!, 8);
    for (const fit of found.fits) expect(fit.worst_mm).toBeLessThan(1e-8);
  });

  test("one flat holds three of six ways; along it the scan stays where it was put", () => {
    const top = flat([0, 0, 1], [0, 0, 60]);
    const start = composePoses(translationPose(scale(turned([0, 0, 1]), 2)), true_);
    const beside = composePoses(translationPose(turned([5, -3, 0])), start);
    const found = refinePlace(beside, [matchOf(top)]);
    expect(found.held).toBe(3);
    const moved = subtract(applyPose(found.pose, top.at), applyPose(beside, top.at));
    const along = turned([0, 0, 1]);
    expect(dot(moved, along)).toBeCloseTo(-2, 8);
    expect(length(cross(moved, along))).toBeLessThan(1e-6);
    expect(found.fits[0]!.rms_mm).toBeLessThan(1e-9);
  });

  test("a bore's axis and a flat square to it leave the turn about the bore", () => {
    const bore: SurfaceMatch = {
      kind: "axis",
      points: axisPoints([40, 30, 0], [0, 0, 1], 50),
      at: inCar([40, 30, 200]),
      axis: turned([0, 0, -1]),
    };
    const found = refinePlace(near, [matchOf(flat([0, 0, 1], [40, 30, 60])), bore]);
    expect(found.held).toBe(5);
    for (const fit of found.fits) expect(fit.worst_mm).toBeLessThan(1e-8);
    const off = length(cross(subtract(applyPose(found.pose, [40, 30, 0]), inCar([40, 30, 0])), turned([0, 0, 1])));
    expect(off).toBeLessThan(1e-8);
  });

  test.each([
    ["square to it", Math.PI / 2],
    ["a little more", 1.7],
    ["upside down", Math.PI],
  ])("flats that stand %s are turned to where they must lie", (_, angle_rad) => {
    const tipped = composePoses(true_, rotationPose([0, 1, 0], angle_rad));
    const one = refinePlace(tipped, [matchOf(flat([0, 0, 1], [0, 0, 60]))]);
    expect(one.held).toBe(3);
    expect(one.fits[0]!.worst_mm).toBeLessThan(1e-8);
    const swung = composePoses(tipped, rotationPose([0, 0, 1], angle_rad / 2));
    const matches = [flat([1, 0, 0], [100, 0, 0]), flat([0, 1, 0], [0, 80, 0]), flat([0, 0, 1], [0, 0, 60])].map(
      matchOf,
    );
    const all = refinePlace(swung, matches);
    expect(all.held).toBe(6);
    for (const fit of all.fits) agreesWithin("refinement", fit.worst_mm, 0, 1e-8);
  });

  test("what cannot all be met is shared and told", () => {
    // two flats of the scan 100 apart that must lie in planes 103 apart: either is off by half of it
    const square = (z: number) => [-40, 40].flatMap((x) => [-40, 40].map((y): Vec3 => [x, y, z]));
    const matches: SurfaceMatch[] = [
      { kind: "plane", points: square(0), at: [0, 0, 0], normal: [0, 0, 1] },
      { kind: "plane", points: square(100), at: [0, 0, 103], normal: [0, 0, 1] },
    ];
    const found = refinePlace(translationPose([0, 0, 0]), matches);
    for (const fit of found.fits) expect(fit.rms_mm).toBeCloseTo(1.5, 6);
  });

  test("weld and shells of a mesh leave its patches whole", () => {
    const box = draw({ kind: "box", size_mm: [200, 120, 80], edge_mm: null });
    const corners = new Float32Array([...box.indices].flatMap((v) => [...box.positions.slice(3 * v, 3 * v + 3)]));
    const solid = shellsOf(weld(corners));
    expect(pickPatch(neighboursOf(solid), 0, [0, 0, 0], "plane", 500)!.triangles).toHaveLength(2);
  });
});
