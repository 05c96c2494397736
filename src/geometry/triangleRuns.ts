import type { Vec3 } from "../maths/vec3.ts";
import type { Solid } from "./solid.ts";

/** Triangles that follow each other in a mesh mostly lie near each other: this many share one box. */
export const RUN = 64;

/** Bounds of each run of triangles, six numbers a run: least x, y, z, greatest x, y, z. Body coordinates, mm. */
export type TriangleRuns = Float32Array;

const known = new WeakMap<Solid, TriangleRuns>();

/** Boxes round the runs of a solid's triangles, made once in one pass: enough to ask a scan a few questions a frame without a tree. */
export function triangleRuns(solid: Solid): TriangleRuns {
  let runs = known.get(solid);
  if (!runs) {
    runs = makeRuns(solid);
    known.set(solid, runs);
  }
  return runs;
}

function makeRuns({ positions, indices }: Solid): TriangleRuns {
  const count = Math.ceil(indices.length / 3 / RUN);
  const runs = new Float32Array(count * 6);
  for (let run = 0; run < count; run++) {
    const at = run * 6;
    runs.fill(Infinity, at, at + 3).fill(-Infinity, at + 3, at + 6);
    const end = Math.min(indices.length, (run + 1) * RUN * 3);
    for (let i = run * RUN * 3; i < end; i++) {
      const from = indices[i]! * 3;
      for (let k = 0; k < 3; k++) {
        const value = positions[from + k]!;
        if (value < runs[at + k]!) runs[at + k] = value;
        if (value > runs[at + 3 + k]!) runs[at + 3 + k] = value;
      }
    }
  }
  return runs;
}

/** Calls `visit` with the first index (into `indices`) of every triangle in a run whose box comes within `reach_mm` of `p`. */
export function visitNear(solid: Solid, p: Vec3, reach_mm: number, visit: (first: number) => void): void {
  const runs = triangleRuns(solid);
  for (let run = 0; run * 6 < runs.length; run++) {
    let square = 0;
    for (let k = 0; k < 3; k++) {
      const off = Math.max(runs[run * 6 + k]! - p[k]!, 0, p[k]! - runs[run * 6 + 3 + k]!);
      square += off * off;
    }
    if (square > reach_mm * reach_mm) continue;
    const end = Math.min(solid.indices.length, (run + 1) * RUN * 3);
    for (let first = run * RUN * 3; first < end; first += 3) visit(first);
  }
}
