import { describe, expect, it } from "vitest";
import { coilGeometry } from "../../../src/app/viewport/coilLook.ts";
import { pairCoils, placeCoil } from "../../../src/check/coilLook.ts";
import type { ModelBody } from "../../../src/check/model.ts";
import { readRevolution, revolve } from "../../../src/geometry/revolution.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { tyreMesh } from "../../../src/geometry/tyreLook.ts";
import { buildTyre } from "../../../src/geometry/tyreSolid.ts";
import { identityPose, translationPose } from "../../../src/maths/pose.ts";
import { cross, distance, dot, length, normalise, subtract, type Vec3 } from "../../../src/maths/vec3.ts";

type Mesh = Pick<Solid, "positions" | "indices">;

function solidOf({ positions, indices }: Mesh): Solid {
  const shells = [{ firstTriangle: 0, triangleCount: indices.length / 3, closed: true }];
  return { positions, indices, shells, convexPieces: null };
}

/** Signed volume by the divergence theorem: positive when the surface faces outwards. */
function volume({ positions, indices }: Mesh): number {
  const at = (i: number): Vec3 => [positions[i * 3]!, positions[i * 3 + 1]!, positions[i * 3 + 2]!];
  let sum = 0;
  for (let t = 0; t < indices.length; t += 3) {
    sum += dot(at(indices[t]!), cross(at(indices[t + 1]!), at(indices[t + 2]!))) / 6;
  }
  return sum;
}

const wheel = {
  centre: [0, 740, 300] as Vec3,
  tyre: "205/55R16",
  rimWidth_in: 7,
  rimOffset_mm: 42,
  toe_deg: 0.4,
  camber_deg: -2,
};

describe("bodies of revolution", () => {
  const square = [
    [-20, 90],
    [20, 90],
    [20, 110],
    [-20, 110],
  ] as const;

  it.each([1, -1])("revolves an outline to the volume of Pappus and Guldin, outwards, run %s", (sense) => {
    const outline = sense > 0 ? square : [...square].reverse();
    const mesh = revolve({ centre: [100, -50, 20], axis: normalise([1, 2, 3]) }, outline, 720);
    // 2π · 100 mm (centroid's radius) · 40 · 20 mm²
    expect(volume(mesh)).toBeCloseTo(2 * Math.PI * 100 * 800, -2);
    expect(volume(mesh)).toBeGreaterThan(0);
  });

  it("reads axis and outline back from the mesh, however it is tilted", () => {
    const axis = normalise([0.1, 1, -0.05]);
    const mesh = revolve({ centre: [10, 700, 300], axis }, square, 60);
    const found = readRevolution(solidOf(mesh))!;
    expect(Math.abs(dot(found.axis, axis))).toBeCloseTo(1, 6);
    expect(distance(found.centre, [10, 700, 300])).toBeLessThan(1e-3);
    expect(
      found.outline.map(([along, radius]) => `${Math.abs(Math.round(along))},${Math.round(radius)}`).sort(),
    ).toEqual(["20,110", "20,110", "20,90", "20,90"]);
  });

  it("refuses what is no ring", () => {
    const positions = Float32Array.from({ length: 60 }, (_, i) => Math.sin(i * i) * 100);
    const indices = Uint32Array.from({ length: 54 }, (_, i) => i % 20);
    expect(readRevolution(solidOf({ positions, indices }))).toBeNull();
  });
});

describe("the drawn tyre", () => {
  const solid = buildTyre(wheel, 0.1);
  const drawn = tyreMesh(solid)!;

  it("is the checked tyre with grooves cut inwards: nothing stands outside it", () => {
    const { centre, axis } = readRevolution(solid)!;
    const radius = (p: Vec3) => {
      const d = subtract(p, centre);
      return Math.sqrt(Math.max(0, dot(d, d) - dot(d, axis) ** 2));
    };
    const reach = ({ positions }: Mesh) => {
      let [most, half] = [0, 0];
      for (let i = 0; i < positions.length; i += 3) {
        const p: Vec3 = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
        most = Math.max(most, radius(p));
        half = Math.max(half, Math.abs(dot(subtract(p, centre), axis)));
      }
      return { most, half };
    };
    expect(reach(drawn).most).toBeLessThanOrEqual(reach(solid).most + 1e-3);
    expect(reach(drawn).half).toBeLessThanOrEqual(reach(solid).half + 1e-3);
    expect(volume(drawn)).toBeGreaterThan(0.9 * volume(solid));
    expect(volume(drawn)).toBeLessThan(volume(solid));
  });
});

describe("the drawn coil", () => {
  const ring = (from: number, to: number): Solid =>
    solidOf(
      revolve(
        { centre: [0, 0, 0], axis: [0, 0, 1] },
        [
          [from, 0.01],
          [to, 0.01],
          [to, 45],
          [from, 45],
        ],
        48,
      ),
    );
  const half = (which: "upper" | "lower", solid: Solid): ModelBody => ({
    key: `spring#${which}@left`,
    id: "spring",
    side: "left",
    mount: `damper-${which}`,
    group: "arms",
    role: null,
    look: "coil",
    solid,
    content: which,
  });
  const upper = half("upper", ring(100, 200));
  const lower = half("lower", ring(0, 100));

  it("stands between the far ends of its halves, as wide as they are", () => {
    const [coil] = pairCoils([upper, lower]);
    expect(coil!.topInUpper[2]).toBeCloseTo(200, 3);
    expect(coil!.bottomInLower[2]).toBeCloseTo(0, 3);
    expect(coil!.radius_mm + coil!.wire_mm / 2).toBeCloseTo(45, 2);
  });

  it("is as long as its seats are apart when the lower half rises", () => {
    const [coil] = pairCoils([upper, lower]);
    const matrix = new Array<number>(16).fill(0);
    expect(placeCoil(coil!, identityPose(), translationPose([0, 0, 60]), matrix)).toBeCloseTo(140, 3);
    expect(matrix.slice(12, 15).map((x) => Math.round(x))).toEqual([0, 0, 60]);
    const [x, y, z] = [0, 4, 8].map((c) => matrix.slice(c, c + 3) as unknown as Vec3);
    expect(length(subtract(cross(x!, y!), z!))).toBeLessThan(1e-9);
  });

  it("leaves a half without its other to be drawn as it is", () => {
    expect(pairCoils([upper])).toEqual([]);
  });

  it("is a closed wire: every edge of its mesh is run once each way", () => {
    const index = coilGeometry(5).getIndex()!.array;
    const edges = new Set<string>();
    for (let t = 0; t < index.length; t += 3) {
      for (let k = 0; k < 3; k++) edges.add(`${index[t + k]},${index[t + ((k + 1) % 3)]}`);
    }
    expect(edges.size).toBe(index.length);
    const lone = [...edges].filter((edge) => !edges.has(edge.split(",").reverse().join(",")));
    expect(lone).toEqual([]);
  });
});
