import type { Vec3 } from "../maths/vec3.ts";
import { edgeTable, nextHalfEdge } from "./edgeTable.ts";
import { JoinedSets } from "./joinedSets.ts";
import type { Shell, Solid } from "./solid.ts";

/** Volume within the surface, mm³, by the divergence theorem; negative where it faces inward, without meaning where it is open. */
export function volume_mm3(solid: Solid): number {
  return shellVolume_mm3(solid, { firstTriangle: 0, triangleCount: solid.indices.length / 3 });
}

export function shellVolume_mm3(
  { positions: p, indices }: Pick<Solid, "positions" | "indices">,
  shell: Pick<Shell, "firstTriangle" | "triangleCount">,
): number {
  const first = 3 * shell.firstTriangle;
  const end = first + 3 * shell.triangleCount;
  if (first === end) return 0;
  // about a point of the surface itself, so that a body far from the origin loses nothing to cancellation
  const o = 3 * indices[first]!;
  const [ox, oy, oz] = [p[o]!, p[o + 1]!, p[o + 2]!];
  let six = 0;
  for (let i = first; i < end; i += 3) {
    const [a, b, c] = [3 * indices[i]!, 3 * indices[i + 1]!, 3 * indices[i + 2]!];
    const [ax, ay, az] = [p[a]! - ox, p[a + 1]! - oy, p[a + 2]! - oz];
    const [bx, by, bz] = [p[b]! - ox, p[b + 1]! - oy, p[b + 2]! - oz];
    const [cx, cy, cz] = [p[c]! - ox, p[c + 1]! - oy, p[c + 2]! - oz];
    six += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  return six / 6;
}

export function area_mm2({ positions: p, indices }: Solid): number {
  let twice = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [3 * indices[i]!, 3 * indices[i + 1]!, 3 * indices[i + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    twice += Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
  }
  return twice / 2;
}

export interface Bounds {
  readonly min: Vec3;
  readonly max: Vec3;
}

/** The box around all vertices; around none it is empty (min +∞, max −∞). */
export function bounds({ positions }: Solid): Bounds {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    for (const axis of [0, 1, 2] as const) {
      const value = positions[i + axis]!;
      if (value < min[axis]) min[axis] = value;
      if (value > max[axis]) max[axis] = value;
    }
  }
  return { min, max };
}

/**
 * Whether the surface is closed and manifold: every edge belongs to two triangles that run it in opposite senses, the
 * triangles around every vertex form one fan, and every vertex is used.
 */
export function isClosedManifold({ positions, indices }: Pick<Solid, "positions" | "indices">): boolean {
  const { edgeCount, uses, first, second } = edgeTable(indices);
  const fans = new JoinedSets(indices.length);
  for (let edge = 0; edge < edgeCount; edge++) {
    if (uses[edge] !== 2) return false;
    const [here, there] = [first[edge]!, second[edge]!];
    if (indices[here] !== indices[nextHalfEdge(there)]) return false;
    fans.join(here, nextHalfEdge(there));
    fans.join(nextHalfEdge(here), there);
  }
  const vertices = new Set(indices).size;
  return indices.length > 0 && fans.count === vertices && vertices === positions.length / 3;
}
