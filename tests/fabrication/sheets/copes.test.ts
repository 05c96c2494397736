import { describe, expect, it } from "vitest";
import { copeTo } from "../../../src/fabrication/sheets/copes.ts";
import type { Vec3 } from "../../../src/maths/vec3.ts";
import { agrees } from "../../truth/agreement.ts";

/** Where the axes cross, a generator at φ meets the bar at √(R² − r² sin² φ)/sin θ + r cos φ/tan θ from there (two cylinders in one plane; elementary). */
function closedForm(r: number, R: number, angle_deg: number): { longest: number; shortest: number } {
  const theta = (angle_deg * Math.PI) / 180;
  const reach = Array.from({ length: 36_000 }, (_, i) => {
    const phi = (i * Math.PI) / 18_000;
    return Math.sqrt(R * R - r * r * Math.sin(phi) ** 2) / Math.sin(theta) + (r * Math.cos(phi)) / Math.tan(theta);
  });
  return { longest: Math.min(...reach), shortest: Math.max(...reach) };
}

const axisAt = (angle_deg: number): Vec3 => [
  Math.cos((angle_deg * Math.PI) / 180),
  0,
  Math.sin((angle_deg * Math.PI) / 180),
];

describe("a coped end", () => {
  it.each([
    [10, 14, 90],
    [20, 20, 90],
    [15, 25, 60],
    [15, 25, 35],
    [19, 20, 75],
  ])("of radius %d on %d at %d° is the closed form's", (r, R, angle) => {
    const cope = copeTo({ at: [0, 0, 0], axis: axisAt(angle), radius_mm: R }, [0, 0, 0], [1, 0, 0], r)!;
    const { longest, shortest } = closedForm(r, R, angle);
    agrees("copeReach", cope.longest_mm, longest, 3);
    agrees("copeReach", cope.shortest_mm, shortest, 3);
    agrees("copeAngle", cope.angle_deg, angle, 9);
  });

  it("that runs past a thinner bar goes as far as its axis", () => {
    expect(copeTo({ at: [0, 0, 0], axis: [0, 0, 1], radius_mm: 8 }, [0, 0, 0], [1, 0, 0], 20)).toMatchObject({
      longest_mm: 0,
      shortest_mm: 8,
    });
    expect(copeTo({ at: [0, 100, 0], axis: [0, 0, 1], radius_mm: 8 }, [0, 0, 0], [1, 0, 0], 20)).toBeNull();
  });

  it("with axes that pass each other reaches as far as what is left of the solid tube (manifold-3d)", async () => {
    const [r, R, off] = [12, 30, 9];
    const cope = copeTo({ at: [0, off, 0], axis: axisAt(50), radius_mm: R }, [0, 0, 0], [1, 0, 0], r)!;
    const { Manifold } = await manifoldKernel();
    const rod = Manifold.cylinder(200, r, r, 360).rotate([0, 90, 0]).translate([-200, 0, 0]);
    const bar = Manifold.cylinder(600, R, R, 720, true).rotate([0, 40, 0]).translate([0, off, 0]);
    const left = rod.subtract(bar);
    const box = left.boundingBox();
    expect(-box.max[0]!).toBeCloseTo(cope.longest_mm, 1);
    for (const solid of [rod, bar, left]) solid.delete();
  });
});

async function manifoldKernel() {
  const { default: load } = await import("manifold-3d");
  const kernel = await load();
  kernel.setup();
  return kernel;
}
