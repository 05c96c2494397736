import { Triangle, Vector3 } from "three";
import type { Solid } from "../../src/geometry/solid.ts";
import { weld } from "../../src/geometry/weld.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";

type Bare = Pick<Solid, "positions" | "indices">;

/** A closed ball-like mesh with waves on it, as finely cut as a scan: 6 faces of a cube in n × n squares, blown up. */
export function bumpyBall(n: number, radius_mm: number, wave_mm: number): Bare {
  const corners: number[] = [];
  const place = (p: Vec3): Vec3 => {
    const size = Math.hypot(...p);
    const r = radius_mm + wave_mm * Math.sin((9 * p[0]) / size) * Math.sin((7 * p[1]) / size + 3 * p[2]);
    return [(p[0] / size) * r, (p[1] / size) * r, (p[2] / size) * r];
  };
  for (let axis = 0; axis < 3; axis++) {
    for (const side of [-1, 1]) {
      const at = (i: number, j: number): Vec3 => {
        const p = [0, 0, 0];
        p[axis] = side;
        p[(axis + 1) % 3] = (2 * i) / n - 1;
        p[(axis + 2) % 3] = side * ((2 * j) / n - 1);
        return place(p as unknown as Vec3);
      };
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const [a, b, c, d] = [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)];
          for (const p of [a, b, c, a, c, d]) corners.push(...p);
        }
      }
    }
  }
  return weld(new Float32Array(corners));
}

/** Loose triangles as weld() takes them. */
export function soupOf({ positions, indices }: Bare): Float32Array {
  const corners = new Float32Array(3 * indices.length);
  for (let i = 0; i < indices.length; i++) {
    for (let k = 0; k < 3; k++) corners[3 * i + k] = positions[3 * indices[i]! + k]!;
  }
  return corners;
}

/** Binary STL of it: 80 bytes, a count, 50 bytes a triangle. */
export function stlOf(mesh: Bare): Uint8Array<ArrayBuffer> {
  const corners = soupOf(mesh);
  const count = corners.length / 9;
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let t = 0; t < count; t++) {
    for (let i = 0; i < 9; i++) view.setFloat32(96 + 50 * t + 4 * i, corners[9 * t + i]!, true);
  }
  return bytes;
}

/** The nearest of all triangles, each by three's own closest point. */
export function distanceToSurface({ positions, indices }: Bare, p: Vec3): number {
  const [at, near] = [new Vector3(...p), new Vector3()];
  const corner = (i: number) => new Vector3().fromArray(positions, 3 * indices[i]!);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < indices.length; i += 3) {
    new Triangle(corner(i), corner(i + 1), corner(i + 2)).closestPointToPoint(at, near);
    least = Math.min(least, near.distanceTo(at));
  }
  return least;
}
