import { edgeTable } from "../geometry/edgeTable.ts";
import { bounds } from "../geometry/measure.ts";
import { countTurned, shellsOf } from "../geometry/shells.ts";
import type { Vec3 } from "../maths/vec3.ts";
import type { MeshRepair } from "../scene/scene.ts";
import { canBeClosed, type Hole, holesOf } from "./holes.ts";
import { shellSizes_mm } from "./repair.ts";
import { type BareMesh, weldNear } from "./weldNear.ts";

/** What is found in a mesh as it was read: nothing of it is mended here. Lengths in mm. */
export interface MeshReport {
  readonly triangles: number;
  readonly vertices: number;
  readonly size_mm: Vec3;
  /** Triangles of the file without area, or there twice: left out on reading. */
  readonly dropped: number;
  /** Triangles wound against their neighbours: turned on reading. */
  readonly flipped: number;
  /** Edges at which more than two triangles meet, or two that no turning makes alike. */
  readonly oddEdges: number;
  readonly openEdges: number;
  /** The largest first, without what closes a ring. */
  readonly holes: readonly Pick<Hole, "across_mm" | "round_mm" | "middle" | "edges">[];
  readonly closableHoles: number;
  /** The largest first. */
  readonly shells: readonly {
    readonly size_mm: number;
    readonly triangles: number;
    readonly closed: boolean;
  }[];
  /** Every shell is closed: it can be told whether something is inside. */
  readonly isClosed: boolean;
  /** What would mend what is found; null: nothing to mend. */
  readonly suggested: MeshRepair | null;
}

/** Seams of scans lie this share of their size apart: what is left by rounding to six or seven figures. */
const SEAM_SHARE = 1e-5;
/** Loose pieces smaller than this share of the whole are dust and things behind it: common practice, no source. */
const STRAY_SHARE = 0.05;
/** Most of the shells and holes of a torn scan that are listed one by one. */
const LISTED = 2000;

/** `trianglesRead`: how many the file has. */
export function reportOf(mesh: BareMesh, trianglesRead: number): MeshReport {
  const edges = edgeTable(mesh.indices);
  const solid = shellsOf(mesh);
  const sorted = edgeTable(solid.indices);
  let openEdges = 0;
  let oddEdges = 0;
  for (let edge = 0; edge < sorted.edgeCount; edge++) {
    const uses = sorted.uses[edge]!;
    if (uses === 1) openEdges++;
    else if (uses > 2 || isTwisted(solid.indices, sorted.first[edge]!, sorted.second[edge]!)) oddEdges++;
  }
  const holes = holesOf(solid, sorted);
  const sizes = shellSizes_mm(solid);
  const shells = solid.shells
    .map(({ triangleCount, closed }, i) => ({ size_mm: sizes[i]!, triangles: triangleCount, closed }))
    .sort((a, b) => b.size_mm - a.size_mm);
  const { min, max } = bounds(solid);
  const size_mm: Vec3 = [max[0] - min[0], max[1] - min[1], max[2] - min[2]];
  return {
    triangles: mesh.indices.length / 3,
    vertices: mesh.positions.length / 3,
    size_mm,
    dropped: trianglesRead - mesh.indices.length / 3,
    flipped: countTurned(mesh.indices, edges),
    oddEdges,
    openEdges,
    holes: holes.slice(0, LISTED).map(({ across_mm, round_mm, middle, edges: count }) => ({
      across_mm,
      round_mm,
      middle,
      edges: count,
    })),
    closableHoles: holes.filter(canBeClosed).length,
    shells: shells.slice(0, LISTED),
    isClosed: shells.every(({ closed }) => closed),
    suggested: suggestionFor(mesh, size_mm, openEdges, holes, shells),
  };
}

/** Two triangles that run an edge in the same sense. */
function isTwisted(indices: Uint32Array, one: number, other: number): boolean {
  return indices[one] === indices[other];
}

function suggestionFor(
  mesh: BareMesh,
  size_mm: Vec3,
  openEdges: number,
  holes: readonly Hole[],
  shells: MeshReport["shells"],
): MeshRepair | null {
  const whole = Math.hypot(...size_mm);
  const repair: { weldWithin_mm?: number; straysBelow_mm?: number; holesUpTo_mm?: number } = {};
  const seam = Math.max(0.001, roundUp(SEAM_SHARE * whole));
  if (openEdges > 0 && openEdgesOf(weldNear(mesh, seam)) < openEdges) repair.weldWithin_mm = seam;
  const strays = shells.slice(1).filter((shell) => shell.size_mm < STRAY_SHARE * whole);
  if (strays.length > 0) repair.straysBelow_mm = roundUp(strays[0]!.size_mm * 1.001);
  const closable = holes.filter(canBeClosed);
  if (closable.length > 0) repair.holesUpTo_mm = roundUp(closable[0]!.across_mm * 1.001);
  return Object.keys(repair).length > 0 ? repair : null;
}

function openEdgesOf({ indices }: BareMesh): number {
  const { uses, edgeCount } = edgeTable(indices);
  let open = 0;
  for (let edge = 0; edge < edgeCount; edge++) if (uses[edge] === 1) open++;
  return open;
}

/** To two figures, so that it reads like what somebody would type. */
function roundUp(value: number): number {
  const step = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Number((Math.ceil(value / step) * step).toPrecision(2));
}
