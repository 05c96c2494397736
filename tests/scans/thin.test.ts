import { describe, expect, test } from "vitest";
import { volume_mm3 } from "../../src/geometry/measure.ts";
import { shellsOf } from "../../src/geometry/shells.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import { holdUnproven } from "../../src/scans/deviation.ts";
import { readyMesh } from "../../src/scans/readyMesh.ts";
import { thinAgain, thinWithin } from "../../src/scans/thin.ts";
import { InputError } from "../../src/scene/error.ts";
import { draw, surfacePoints } from "../geometry/support.ts";
import { agreesOn } from "../truth/agreement.ts";
import { bumpyBall, distanceToSurface, stlOf } from "./meshes.ts";

function provenWithin(mesh: Solid, other: Solid, within_mm: number) {
  return holdUnproven(mesh, other, within_mm, new Uint8Array(mesh.positions.length / 3));
}

/** By every triangle, from many points of the surface: a lower bound of the true deviation. */
function sampledDeviation(mesh: Solid, other: Solid): number {
  return surfacePoints(mesh, 1, 0)
    .filter((_, i) => i % 7 === 0)
    .reduce((most, p) => Math.max(most, distanceToSurface(other, p)), 0);
}

describe("a proof that one surface is within a bound of another", () => {
  test("closed form: a box round another, 3 larger every way; the corners are √27 off", () => {
    const inner = draw({ kind: "box", size_mm: [40, 30, 20], edge_mm: null });
    const outer = draw({ kind: "box", size_mm: [46, 36, 26], edge_mm: null });
    // from within every point is 3 away, from outside the corners are farthest
    agreesOn("thinnedWithin", provenWithin(inner, outer, 3.01).isWithin, true);
    agreesOn("thinnedWithin", provenWithin(inner, outer, 2.9999).isWithin, false);
    expect(provenWithin(outer, inner, Math.sqrt(27) + 0.05).isWithin).toBe(true);
    expect(provenWithin(outer, inner, Math.sqrt(27) - 1e-4).isWithin).toBe(false);
  });

  test("sees what lies between vertices: a roof over a flat, whose corners alone are near", () => {
    const flat = sheet(
      [
        [-50, -50, 0],
        [50, -50, 0],
        [50, 50, 0],
        [-50, 50, 0],
      ],
      [0, 1, 2, 0, 2, 3],
    );
    // the same border, but a ridge 8 high along the middle
    const roof = sheet(
      [
        [-50, -50, 0],
        [50, -50, 0],
        [50, 50, 0],
        [-50, 50, 0],
        [-50, 0, 8],
        [50, 0, 8],
      ],
      [0, 1, 5, 0, 5, 4, 4, 5, 2, 4, 2, 3],
    );
    // every vertex of the flat is on the roof; its middle line is 8·cos(atan(8/50)) from the slopes
    const off = 8 * Math.cos(Math.atan(8 / 50));
    expect(provenWithin(flat, roof, 1e-3).isWithin).toBe(false);
    expect(provenWithin(flat, roof, off + 1e-3).isWithin).toBe(true);
    expect(provenWithin(flat, roof, off - 1e-2).isWithin).toBe(false);
  });

  function sheet(points: readonly Vec3[], triangles: readonly number[]): Solid {
    return shellsOf({ positions: new Float32Array(points.flat()), indices: Uint32Array.from(triangles) });
  }
});

describe("a scan thinned out for the check", () => {
  const scan = shellsOf(bumpyBall(20, 150, 4));

  test.each([0.2, 1, 4])(
    "stays within %f mm, by brute force over samples, with fewer triangles and as closed",
    async (within_mm) => {
      const found = (await thinWithin(scan, within_mm))!;
      expect(found.solid.indices.length).toBeLessThan(scan.indices.length);
      expect(sampledDeviation(scan, found.solid)).toBeLessThanOrEqual(within_mm);
      expect(found.thinned.within_mm).toBe(within_mm);
      expect(found.solid.shells).toHaveLength(1);
      expect(found.solid.shells[0]!.closed).toBe(true);
      expect(volume_mm3(found.solid) / volume_mm3(scan)).toBeCloseTo(1, 1);
    },
  );

  test("a larger error leaves fewer triangles", async () => {
    const counts = [];
    for (const within_mm of [0.2, 1, 4]) counts.push((await thinWithin(scan, within_mm))!.solid.indices.length);
    expect(counts).toEqual([...counts].sort((a, b) => b - a));
  });

  test("comes out the same each time it is read, to the last bit", async () => {
    const reading = { unit: "mm", repair: null, thinned: (await thinWithin(scan, 1))!.thinned } as const;
    const [one, other] = [
      await readyMesh(stlOf(scan), "ball.stl", reading),
      await readyMesh(stlOf(scan), "ball.stl", reading),
    ];
    expect(other.positions).toEqual(one.positions);
    expect(other.indices).toEqual(one.indices);
    expect(one.indices.length).toBeLessThan(scan.indices.length);
  });

  test("a scene whose error and bound do not go together is refused with the mend", async () => {
    const lie = () => thinAgain(scan, { within_mm: 0.01, error_mm: 900 }, "ball.stl");
    await expect(lie()).rejects.toThrow(InputError);
    await expect(lie()).rejects.toThrow(/ball\.stl: thinned out .* smaller thinned\.error_mm/);
  });

  test("a box keeps its twelve triangles: there is nothing to thin out", async () => {
    const box = draw({ kind: "box", size_mm: [40, 30, 20], edge_mm: null });
    expect(await thinWithin(box, 0.5)).toBeNull();
  });
});
