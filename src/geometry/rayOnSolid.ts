import { dot, type Vec3 } from "../maths/vec3.ts";
import type { Solid } from "./solid.ts";
import { RUN, triangleRuns } from "./triangleRuns.ts";

/** Triangles reach this share of their size beyond their edges, so that no ray slips through between two. */
const SEAM = 1e-9;

/**
 * How far along the ray from `from` towards `way` (any length but nothing) the solid's surface is first met, in lengths of
 * `way`; Infinity where it is not met before `farthest`. Either face counts. Body coordinates, mm.
 * Triangle test after Möller and Trumbore (Fast, minimum storage ray/triangle intersection, 1997).
 */
export function rayOnSolid(solid: Solid, from: Vec3, way: Vec3, farthest = Infinity): number {
  const runs = triangleRuns(solid);
  const { positions, indices } = solid;
  let nearest = farthest;
  for (let run = 0; run * 6 < runs.length; run++) {
    if (!meetsBox(runs, run * 6, from, way, nearest)) continue;
    const end = Math.min(indices.length, (run + 1) * RUN * 3);
    for (let i = run * RUN * 3; i < end; i += 3) {
      const t = meetsTriangle(positions, indices[i]! * 3, indices[i + 1]! * 3, indices[i + 2]! * 3, from, way);
      if (t < nearest) nearest = t;
    }
  }
  return nearest < farthest ? nearest : Infinity;
}

/** By slabs: the ray is in the box while it is between all three pairs of its faces. */
function meetsBox(runs: Float32Array, at: number, from: Vec3, way: Vec3, farthest: number): boolean {
  let [enter, leave] = [0, farthest];
  for (let k = 0; k < 3; k++) {
    // a hair wider, so that a ray along a face of the box is in it
    const [low, high] = [runs[at + k]! - from[k]! - 1e-3, runs[at + 3 + k]! - from[k]! + 1e-3];
    if (way[k] === 0) {
      if (low > 0 || high < 0) return false;
      continue;
    }
    const [a, b] = [low / way[k]!, high / way[k]!];
    enter = Math.max(enter, Math.min(a, b));
    leave = Math.min(leave, Math.max(a, b));
  }
  return enter <= leave;
}

function meetsTriangle(p: Float32Array, a: number, b: number, c: number, from: Vec3, way: Vec3): number {
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const px = way[1] * vz - way[2] * vy;
  const py = way[2] * vx - way[0] * vz;
  const pz = way[0] * vy - way[1] * vx;
  const det = ux * px + uy * py + uz * pz;
  const sizes = (ux * ux + uy * uy + uz * uz) * (vx * vx + vy * vy + vz * vz) * dot(way, way);
  // a sliver, or seen edge on: its neighbours are met instead
  if (!(det * det > 1e-18 * sizes)) return Infinity;
  const [sx, sy, sz] = [from[0] - p[a]!, from[1] - p[a + 1]!, from[2] - p[a + 2]!];
  const u = (sx * px + sy * py + sz * pz) / det;
  if (!(u >= -SEAM && u <= 1 + SEAM)) return Infinity;
  const qx = sy * uz - sz * uy;
  const qy = sz * ux - sx * uz;
  const qz = sx * uy - sy * ux;
  const v = (way[0] * qx + way[1] * qy + way[2] * qz) / det;
  if (!(v >= -SEAM && u + v <= 1 + SEAM)) return Infinity;
  const t = (vx * qx + vy * qy + vz * qz) / det;
  return t >= 0 ? t : Infinity;
}
