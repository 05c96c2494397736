import { describe, expect, it } from "vitest";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import { gripAt, gripsOf, placeOfShare, shareOfPlace, shareOfWay, wayOfShare } from "../../src/geometry/grips.ts";
import { turnPose } from "../../src/maths/pose.ts";
import { distance, length, type Vec3 } from "../../src/maths/vec3.ts";
import type { Shape, Wheel } from "../../src/scene/scene.ts";

const wheel: Wheel = {
  centre: [0, 740, 300],
  tyre: "205/55R16",
  rimWidth_in: 7,
  rimOffset_mm: 42,
  toe_deg: 0.5,
  camber_deg: -1,
};
const at = [120, 400, 260] as const;
const turn_deg = [20, -35, 50] as const;
const ring = (radius: number): [number, number][] =>
  Array.from({ length: 24 }, (_, i) => [radius * Math.cos((i * Math.PI) / 12), radius * Math.sin((i * Math.PI) / 12)]);

const SHAPES: Readonly<Record<string, Shape>> = {
  sphere: { kind: "sphere", diameter_mm: 40, at, turn_deg },
  cylinder: { kind: "cylinder", from: [0, 300, 200], to: [50, 600, 260], diameter_mm: 30, at: null, turn_deg: null },
  capsule: { kind: "capsule", from: [0, 300, 200], to: [50, 600, 260], diameter_mm: 30, at: null, turn_deg },
  cone: { kind: "cone", from: [0, 0, 0], to: [0, 0, 80], fromDiameter_mm: 60, toDiameter_mm: 20, at, turn_deg },
  box: { kind: "box", size_mm: [80, 50, 30], edge_mm: null, at, turn_deg },
  torus: { kind: "torus", diameter_mm: 120, section_mm: 20, at, turn_deg },
  tube: {
    kind: "tube",
    path: [
      [0, 0, 0],
      [200, 0, 0],
      [200, 150, 40],
    ],
    diameter_mm: 38,
    bend_mm: 60,
    wall_mm: 2,
    at,
    turn_deg,
  },
  prism: {
    kind: "prism",
    outline: [
      [-60, -40],
      [60, -40],
      [60, 40],
      [-60, 40],
    ],
    holes: [ring(12).map(([u, v]) => [u + 20, v - 5] as [number, number])],
    thickness_mm: 6,
    origin: [10, 20, 30],
    u: [1, 0, 0],
    v: [0, 0.6, 0.8],
    at: null,
    turn_deg: null,
  },
  hull: {
    kind: "hull",
    points: [
      [0, 0, 0],
      [100, 0, 0],
      [0, 80, 0],
    ],
    spheres: [{ at: [30, 30, 60], diameter_mm: 40 }],
    at,
    turn_deg: null,
  },
  wheel: { kind: "wheel", at: null, turn_deg: null },
};
const context = { tessellation_mm: 0.05, wheel, meshFiles: new Map() };

describe("grips", () => {
  it.each(Object.entries(SHAPES))("of a %s give back every place and way they were asked for", (_, shape) => {
    const grips = gripsOf(shape, wheel);
    const { positions } = buildSolid(shape, context);
    for (let i = 0; i < positions.length; i += 3 * 17) {
      const place: Vec3 = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
      const grip = grips[gripAt(grips, place)]!;
      expect(distance(placeOfShare(grip, shareOfPlace(grip, place)), place)).toBeLessThan(1e-9);
      const way: Vec3 = [0.48, -0.6, 0.64];
      expect(distance(wayOfShare(grip, shareOfWay(grip, way)), way)).toBeLessThan(1e-12);
    }
  });

  it("of a box keep a corner the corner when it is moved, turned and made larger", () => {
    const [grip] = gripsOf(SHAPES.box!, wheel);
    const [other] = gripsOf(
      { kind: "box", size_mm: [10, 20, 300], edge_mm: null, at: [5, 6, 7], turn_deg: null },
      wheel,
    );
    const pose = turnPose(turn_deg);
    const corner: Vec3 = [
      at[0] + pose[0]! * 40 - pose[1]! * 25 + pose[2]! * 15,
      at[1] + pose[4]! * 40 - pose[5]! * 25 + pose[6]! * 15,
      at[2] + pose[8]! * 40 - pose[9]! * 25 + pose[10]! * 15,
    ];
    const share = shareOfPlace(grip!, corner);
    expect(distance(share, [1, -1, 1])).toBeLessThan(1e-12);
    expect(distance(placeOfShare(other!, share), [10, -4, 157])).toBeLessThan(1e-9);
  });

  it("know the centres of ends, balls, wheels and round holes", () => {
    const centres = (shape: Shape) =>
      gripsOf(shape, wheel).flatMap((grip) => grip.centres.map((share) => placeOfShare(grip, share)));
    const near = (places: readonly Vec3[], wanted: Vec3) =>
      expect(Math.min(...places.map((place) => distance(place, wanted)))).toBeLessThan(1e-9);
    near(centres(SHAPES.cylinder!), [0, 300, 200]);
    near(centres(SHAPES.cylinder!), [50, 600, 260]);
    near(centres(SHAPES.sphere!), at);
    near(centres(SHAPES.torus!), at);
    near(centres(SHAPES.wheel!), wheel.centre);
    near(centres(SHAPES.hull!), [150, 430, 320]);
    // origin + 20 u − 5 v, and 6 mm along u × v = (0, −0.8, 0.6)
    near(centres(SHAPES.prism!), [30, 17, 26]);
    near(centres(SHAPES.prism!), [30, 12.2, 29.6]);
  });

  it("of a group find the piece on whose surface a place lies", () => {
    const group: Shape = {
      kind: "group",
      at: null,
      turn_deg: null,
      parts: [SHAPES.box!, { kind: "sphere", diameter_mm: 40, at: [300, 400, 260], turn_deg: null }, SHAPES.cylinder!],
    };
    const grips = gripsOf(group, wheel);
    expect(grips).toHaveLength(3);
    expect(gripAt(grips, [320, 400, 260])).toBe(1);
    expect(gripAt(grips, [0, 300, 200])).toBe(2);
    const { positions } = buildSolid(SHAPES.box!, context);
    expect(gripAt(grips, [positions[0]!, positions[1]!, positions[2]!])).toBe(0);
    expect(grips.every(({ axes }) => axes.every((axis) => Math.abs(length(axis) - 1) < 1e-12))).toBe(true);
  });
});
