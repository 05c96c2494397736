import { describe, expect, it } from "vitest";
import { type Envelope, type SweptStates, sweptEnvelope } from "../../../src/clearance/envelope/envelope.ts";
import { buildTree, createInsideQuery, createPointQuery, createSurfacePoint } from "../../../src/clearance/kernel.ts";
import { buildSolid } from "../../../src/geometry/buildSolid.ts";
import { volume_mm3 } from "../../../src/geometry/measure.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { applyPose, POSE_SIZE, poseOfTrack, rotationPose, translationPose } from "../../../src/maths/pose.ts";
import type { Vec3 } from "../../../src/maths/vec3.ts";
import type { Shape } from "../../../src/scene/scene.ts";
import { agreesOn, agreesWithin } from "../../truth/agreement.ts";

const wheel = {
  centre: [0, 740, 300],
  tyre: "205/55R16",
  rimWidth_in: 7,
  rimOffset_mm: 42,
  toe_deg: 0,
  camber_deg: 0,
} as const;
const nowhere = { at: null, turn_deg: null } as const;
const SAG_mm = 0.05;
const solidOf = (shape: Shape): Solid => buildSolid(shape, { tessellation_mm: SAG_mm, wheel, meshFiles: new Map() });

function run(solid: Solid, states: SweptStates, accuracy_mm: number): Envelope & { readonly solid: Solid } {
  const work = sweptEnvelope(buildTree(solid), states, accuracy_mm);
  let step = work.next();
  let before = 0;
  while (!step.done) {
    expect(step.value).toBeGreaterThanOrEqual(before - 1e-12);
    expect(step.value).toBeLessThanOrEqual(1);
    before = step.value;
    step = work.next();
  }
  const { positions, indices } = step.value;
  const shells = [{ firstTriangle: 0, triangleCount: indices.length / 3, closed: true }];
  return { ...step.value, solid: { positions, indices, shells, convexPieces: null } };
}

/** Placements `count` + 1 in all, `at(0)` to `at(1)`, of which no two neighbours have a point farther apart than `step_mm`. */
function statesOf(count: number, step_mm: number, at: (share: number) => Float64Array): SweptStates {
  const poses = new Float64Array((count + 1) * POSE_SIZE);
  for (let i = 0; i <= count; i++) poses.set(at(i / count), i * POSE_SIZE);
  return { poses, between_mm: step_mm / 2 };
}

/** Every edge runs once each way. */
function isManifold({ indices }: Solid): boolean {
  const seen = new Set<string>();
  for (let i = 0; i < indices.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const edge = `${indices[i + k]},${indices[i + ((k + 1) % 3)]}`;
      if (seen.has(edge)) return false;
      seen.add(edge);
    }
  }
  return [...seen].every((edge) => seen.has(edge.split(",").reverse().join()));
}

function farthestFrom(positions: Float32Array, distance: (p: Vec3) => number): { least: number; most: number } {
  let [least, most] = [Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    const off = distance([positions[i]!, positions[i + 1]!, positions[i + 2]!]);
    [least, most] = [Math.min(least, off), Math.max(most, off)];
  }
  return { least, most };
}

describe("the room that a ball sweeps along a straight line", () => {
  const [radius, way] = [15, 60];
  const ball = solidOf({ ...nowhere, kind: "sphere", diameter_mm: 2 * radius });
  const states = statesOf(100, way / 100, (share) => translationPose([way * share, 0, 0]));
  const room = run(ball, states, 2);
  const capsule = ([x, y, z]: Vec3): number => {
    const along = Math.min(way, Math.max(0, x));
    return Math.hypot(x - along, y, z) - radius;
  };

  it("is the capsule: nowhere inside of it, and outside by no more than is told", () => {
    const { least, most } = farthestFrom(room.positions, capsule);
    expect(room.accuracy_mm).toBeLessThan(2.01);
    expect(least).toBeGreaterThanOrEqual(0);
    expect(most).toBeLessThanOrEqual(room.accuracy_mm + SAG_mm);
  });

  it("has the capsule's volume, grown by no more than the accuracy all round", () => {
    const capsuleVolume = (r: number) => Math.PI * r * r * way + (4 / 3) * Math.PI * r ** 3;
    const volume = volume_mm3(room.solid);
    expect(volume).toBeGreaterThan(capsuleVolume(radius));
    expect(volume).toBeLessThan(capsuleVolume(radius + room.accuracy_mm));
  });

  it("is one closed surface that faces outwards, with normals of length 1 that do so too", () => {
    expect(isManifold(room.solid)).toBe(true);
    const { normals, positions } = room;
    let against = 0;
    for (let i = 0; i < normals.length; i += 3) {
      expect(Math.hypot(normals[i]!, normals[i + 1]!, normals[i + 2]!)).toBeCloseTo(1, 4);
      const along = Math.min(way, Math.max(0, positions[i]!));
      const outwards =
        (positions[i]! - along) * normals[i]! +
        positions[i + 1]! * normals[i + 1]! +
        positions[i + 2]! * normals[i + 2]!;
      if (outwards < 0.8 * Math.hypot(positions[i]! - along, positions[i + 1]!, positions[i + 2]!)) against++;
    }
    expect(against).toBe(0);
  });
});

describe("the room that a box sweeps as it turns right round", () => {
  const [length, width, height] = [50, 20, 24];
  const box = solidOf({ ...nowhere, kind: "box", size_mm: [length, width, height], edge_mm: null });
  const radius = Math.hypot(length, width) / 2;
  const count = 300;
  const states = statesOf(count, (2 * Math.PI * radius) / count, (share) =>
    rotationPose([0, 0, 1], 2 * Math.PI * share),
  );
  const room = run(box, states, 2);

  it("is the drum round its corners: nowhere inside of it, outside by no more than is told", () => {
    const drum = ([x, y, z]: Vec3): number => {
      const [aside, over] = [Math.hypot(x, y) - radius, Math.abs(z) - height / 2];
      const out = Math.hypot(Math.max(aside, 0), Math.max(over, 0));
      return out > 0 ? out : Math.max(aside, over);
    };
    const { least, most } = farthestFrom(room.positions, drum);
    expect(least).toBeGreaterThanOrEqual(0);
    agreesWithin("envelope", most, 0, room.accuracy_mm);
    agreesOn("envelopeBound", most <= room.accuracy_mm && room.accuracy_mm < 20, true);
    const drumVolume = (r: number, h: number) => Math.PI * r * r * h;
    const volume = volume_mm3(room.solid);
    expect(volume).toBeGreaterThan(drumVolume(radius, height));
    expect(volume).toBeLessThan(drumVolume(radius + room.accuracy_mm, height + 2 * room.accuracy_mm));
    // where the drum is hollow as drawn (no corner comes to its axis' ends) it is room all the same
    expect(isManifold(room.solid)).toBe(true);
  });
});

describe("the room of any motion", () => {
  const shape: Shape = {
    ...nowhere,
    kind: "group",
    parts: [
      { ...nowhere, kind: "capsule", from: [0, 0, 0], to: [90, 10, 0], diameter_mm: 14 },
      { kind: "box", size_mm: [10, 30, 3], edge_mm: null, at: [90, 10, 0], turn_deg: [0, 20, 40] },
    ],
  };
  const solid = solidOf(shape);
  const pose = (share: number) => rotationPose([0.36, 0.48, 0.8], share, [10, -5, 20]);
  // no point is farther from the axis than 110 mm
  const room = run(
    solid,
    statesOf(200, 110 / 200, (share) => pose(share)),
    3,
  );

  it("holds every vertex of the part at states that were none of the placements", () => {
    const tree = buildTree(room.solid);
    const inside = createInsideQuery(tree);
    let seed = 11;
    const random = () => {
      seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
      return seed / 0x7fffffff;
    };
    for (let n = 0; n < 40; n++) {
      const at = pose(random());
      for (let i = 0; i < solid.positions.length; i += 3 * 7) {
        const [x, y, z] = applyPose(at, [solid.positions[i]!, solid.positions[i + 1]!, solid.positions[i + 2]!]);
        expect(inside.isInside(x, y, z)).toBe(true);
      }
    }
  });

  it("comes nowhere farther from the part than is told", () => {
    const query = createPointQuery(buildTree(solid));
    const nearest = createSurfacePoint();
    const states = Array.from({ length: 401 }, (_, i) => pose(i / 400));
    const back = states.map((each) => {
      const [r, t] = [each, [each[3]!, each[7]!, each[11]!]];
      return (p: Vec3): Vec3 => {
        const [x, y, z] = [p[0] - t[0]!, p[1] - t[1]!, p[2] - t[2]!];
        return [
          r[0]! * x + r[4]! * y + r[8]! * z,
          r[1]! * x + r[5]! * y + r[9]! * z,
          r[2]! * x + r[6]! * y + r[10]! * z,
        ];
      };
    });
    const { positions } = room;
    for (let i = 0; i < positions.length; i += 3 * 211) {
      let least = Infinity;
      for (const see of back) {
        const [x, y, z] = see([positions[i]!, positions[i + 1]!, positions[i + 2]!]);
        if (query.nearest(x, y, z, least, nearest)) least = nearest.distance_mm;
      }
      expect(least).toBeGreaterThan(0);
      expect(least).toBeLessThanOrEqual(room.accuracy_mm + 110 / 800);
    }
  });

  it("is refused where the placements lie too far apart for what is asked", () => {
    const states = { poses: poseOfTrack(pose(0), 0), between_mm: 3 };
    expect(() => sweptEnvelope(buildTree(solid), states, 2).next()).toThrow(RangeError);
  });
});
