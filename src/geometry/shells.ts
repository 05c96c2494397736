import { type EdgeTable, edgeTable } from "./edgeTable.ts";
import { JoinedSets } from "./joinedSets.ts";
import { shellVolume_mm3 } from "./measure.ts";
import type { Shell, Solid } from "./solid.ts";

/**
 * Sorts an indexed mesh into shells (triangles joined by edges) and turns its triangles: neighbours one way round, closed
 * shells outward by their volume, open ones as most of their triangles were. A shell within another is turned outward
 * as well: it counts as a body of its own, not as a hollow.
 */
export function shellsOf(mesh: Pick<Solid, "positions" | "indices">): Solid {
  const { positions } = mesh;
  const edges = edgeTable(mesh.indices);
  const { turned, isTurned } = turnedAlike(mesh.indices, edges);
  const triangleCount = mesh.indices.length / 3;

  const joined = new JoinedSets(triangleCount);
  for (let h = 0; h < mesh.indices.length; h++) {
    joined.join(triangleOf(h), triangleOf(edges.first[edges.edgeOf[h]!]!));
  }
  const shellOf = new Int32Array(triangleCount);
  const sizes: number[] = [];
  for (let t = 0; t < triangleCount; t++) {
    const root = joined.find(t); // always the shell's first triangle
    shellOf[t] = root === t ? sizes.push(0) - 1 : shellOf[root]!;
    sizes[shellOf[t]!]!++;
  }
  const closed = closedShells(mesh.indices, isTurned, edges, shellOf, sizes.length);

  const indices = new Uint32Array(turned.length);
  const shells: Shell[] = [];
  const place: number[] = [];
  let first = 0;
  for (const [shell, size] of sizes.entries()) {
    shells.push({ firstTriangle: first, triangleCount: size, closed: closed[shell]! });
    place.push(3 * first);
    first += size;
  }
  for (let t = 0; t < triangleCount; t++) {
    const to = place[shellOf[t]!]!;
    for (let k = 0; k < 3; k++) indices[to + k] = turned[3 * t + k]!;
    place[shellOf[t]!] = to + 3;
  }
  for (const shell of shells) {
    if (shell.closed && shellVolume_mm3({ positions, indices }, shell) < 0) turnOver(indices, shell);
  }
  return { positions, indices, shells, convexPieces: null };
}

/** How many triangles are wound against most of those that hang together with them. */
export function countTurned(indices: Uint32Array, edges: EdgeTable): number {
  return turnedAlike(indices, edges).isTurned.reduce((sum, each) => sum + each, 0);
}

/** The triangles with neighbours across two-triangle edges wound alike, as the majority of each such patch was. */
function turnedAlike(
  indices: Uint32Array,
  { edgeOf, uses, first, second }: EdgeTable,
): { turned: Uint32Array; isTurned: Uint8Array } {
  const turned = indices.slice();
  const isTurned = new Uint8Array(indices.length / 3);
  const triangleCount = indices.length / 3;
  const sense = new Int8Array(triangleCount); // 0 not met, 1 as it was, −1 turned
  const queue = new Int32Array(triangleCount);
  for (let seed = 0; seed < triangleCount; seed++) {
    if (sense[seed] !== 0) continue;
    let [read, end, kept] = [0, 0, 0];
    sense[seed] = 1;
    queue[end++] = seed;
    while (read < end) {
      const t = queue[read++]!;
      kept += sense[t]!;
      for (let h = 3 * t; h < 3 * t + 3; h++) {
        const edge = edgeOf[h]!;
        if (uses[edge] !== 2) continue;
        const other = first[edge] === h ? second[edge]! : first[edge]!;
        const neighbour = triangleOf(other);
        if (sense[neighbour] !== 0) continue;
        sense[neighbour] = indices[h] === indices[other] ? -sense[t]! : sense[t]!;
        queue[end++] = neighbour;
      }
    }
    const minority = kept < 0 ? 1 : -1;
    for (let i = 0; i < end; i++) {
      const t = queue[i]!;
      if (sense[t] !== minority) continue;
      isTurned[t] = 1;
      turnOver(turned, { firstTriangle: t, triangleCount: 1 });
    }
  }
  return { turned, isTurned };
}

/** Those each of whose edges two triangles run, after the turning, in opposite senses. */
function closedShells(
  indices: Uint32Array,
  isTurned: Uint8Array,
  { edgeCount, edgeOf, uses, first, second }: EdgeTable,
  shellOf: Int32Array,
  shellCount: number,
): boolean[] {
  const closed = new Array<boolean>(shellCount).fill(true);
  for (let h = 0; h < indices.length; h++) {
    if (uses[edgeOf[h]!] !== 2) closed[shellOf[triangleOf(h)]!] = false;
  }
  for (let edge = 0; edge < edgeCount; edge++) {
    if (uses[edge] !== 2) continue;
    const [one, other] = [first[edge]!, second[edge]!];
    const wereOpposite = indices[one] !== indices[other];
    const bothTurned = isTurned[triangleOf(one)] === isTurned[triangleOf(other)];
    if (wereOpposite !== bothTurned) closed[shellOf[triangleOf(one)]!] = false;
  }
  return closed;
}

function turnOver(
  indices: Uint32Array,
  { firstTriangle, triangleCount }: Pick<Shell, "firstTriangle" | "triangleCount">,
): void {
  for (let i = 3 * firstTriangle; i < 3 * (firstTriangle + triangleCount); i += 3) {
    const held = indices[i + 1]!;
    indices[i + 1] = indices[i + 2]!;
    indices[i + 2] = held;
  }
}

function triangleOf(halfEdge: number): number {
  return Math.floor(halfEdge / 3);
}
