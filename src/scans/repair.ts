import { edgeTable } from "../geometry/edgeTable.ts";
import { shellsOf } from "../geometry/shells.ts";
import type { Shell, Solid } from "../geometry/solid.ts";
import { withoutUnused } from "../geometry/weld.ts";
import type { MeshRepair } from "../scene/scene.ts";
import { canBeClosed, holesOf, lidOf } from "./holes.ts";
import { type BareMesh, weldNear } from "./weldNear.ts";

export interface Repaired {
  readonly solid: Solid;
  readonly done: RepairsDone;
}

export interface RepairsDone {
  readonly verticesWelded: number;
  readonly straysLeftOut: number;
  readonly holesClosed: number;
  /** Within the size that was asked for, but not flat, or with an edge that crosses itself. */
  readonly holesLeftOpen: number;
}

/**
 * Mends what is asked for, in this order: near vertices become one, triangles are turned alike and sorted into shells, small loose
 * shells are left out, flat holes get a lid. The largest shell always stays. The same mesh and the same repair give the same result.
 */
export function repaired(mesh: BareMesh, repair: MeshRepair | null): Repaired {
  const { weldWithin_mm, straysBelow_mm, holesUpTo_mm } = repair ?? {};
  const welded = weldWithin_mm === undefined ? mesh : weldNear(mesh, weldWithin_mm);
  const verticesWelded = (mesh.positions.length - welded.positions.length) / 3;
  const sorted = shellsOf(welded);
  const strays = straysBelow_mm === undefined ? [] : straysOf(sorted, straysBelow_mm);
  const kept = strays.length === 0 ? sorted : withoutShells(sorted, new Set(strays));
  const lids = holesUpTo_mm === undefined ? NO_LIDS : lidsOf(kept, holesUpTo_mm);
  const solid = lids.triangles.length === 0 ? kept : shellsOf(withTriangles(kept, lids.triangles));
  return {
    solid,
    done: {
      verticesWelded,
      straysLeftOut: strays.length,
      holesClosed: lids.closed,
      holesLeftOpen: lids.open,
    },
  };
}

/** Diagonal of the box round each shell, mm. */
export function shellSizes_mm({ positions, indices, shells }: Solid): number[] {
  return shells.map(({ firstTriangle, triangleCount }) => {
    const low = [Infinity, Infinity, Infinity];
    const high = [-Infinity, -Infinity, -Infinity];
    for (let i = 3 * firstTriangle; i < 3 * (firstTriangle + triangleCount); i++) {
      for (let k = 0; k < 3; k++) {
        const value = positions[3 * indices[i]! + k]!;
        if (value < low[k]!) low[k] = value;
        if (value > high[k]!) high[k] = value;
      }
    }
    return Math.hypot(high[0]! - low[0]!, high[1]! - low[1]!, high[2]! - low[2]!);
  });
}

function straysOf(solid: Solid, below_mm: number): Shell[] {
  const sizes = shellSizes_mm(solid);
  const largest = sizes.reduce((most, size, i) => (size > sizes[most]! ? i : most), 0);
  return solid.shells.filter((_, i) => i !== largest && sizes[i]! < below_mm);
}

function withoutShells({ positions, indices, shells }: Solid, out: ReadonlySet<Shell>): Solid {
  const kept = shells.filter((shell) => !out.has(shell));
  const triangles = new Uint32Array(3 * kept.reduce((sum, { triangleCount }) => sum + triangleCount, 0));
  let at = 0;
  const renumbered = kept.map((shell): Shell => {
    const run = indices.subarray(3 * shell.firstTriangle, 3 * (shell.firstTriangle + shell.triangleCount));
    triangles.set(run, at);
    const firstTriangle = at / 3;
    at += run.length;
    return { ...shell, firstTriangle };
  });
  return { ...withoutUnused(positions, triangles), shells: renumbered, convexPieces: null };
}

interface Lids {
  readonly triangles: readonly number[];
  readonly closed: number;
  readonly open: number;
}

const NO_LIDS: Lids = { triangles: [], closed: 0, open: 0 };

function lidsOf(solid: Solid, upTo_mm: number): Lids {
  const triangles: number[] = [];
  let [closed, open] = [0, 0];
  for (const hole of holesOf(solid, edgeTable(solid.indices))) {
    if (hole.across_mm > upTo_mm) continue;
    const lid = canBeClosed(hole) ? lidOf(hole, solid) : null;
    if (lid) {
      for (const vertex of lid) triangles.push(vertex);
      closed++;
    } else open++;
  }
  return { triangles, closed, open };
}

function withTriangles({ positions, indices }: BareMesh, more: readonly number[]): BareMesh {
  const all = new Uint32Array(indices.length + more.length);
  all.set(indices);
  all.set(more, indices.length);
  return { positions, indices: all };
}
