import type { Solid } from "../geometry/solid.ts";
import { isFlat, withoutUnused } from "../geometry/weld.ts";

export type BareMesh = Pick<Solid, "positions" | "indices">;

/**
 * Every vertex takes the place of the first one in the list that is no farther than `within_mm` and stays itself; triangles
 * that lose their area by it go. No point of the surface moves farther than that.
 */
export function weldNear({ positions, indices }: BareMesh, within_mm: number): BareMesh {
  const count = positions.length / 3;
  const stands = new Int32Array(count);
  const cells = new CellTable(count);
  const square = within_mm * within_mm;
  for (let i = 0; i < count; i++) {
    const [x, y, z] = [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
    const [cx, cy, cz] = [x, y, z].map((value) => Math.floor(value / within_mm)) as [number, number, number];
    let found = -1;
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) {
        for (let dz = -1; dz <= 1; dz++) {
          for (let other = cells.first(cx + dx, cy + dy, cz + dz); other >= 0; other = cells.next[other]!) {
            const off =
              (positions[3 * other]! - x) ** 2 +
              (positions[3 * other + 1]! - y) ** 2 +
              (positions[3 * other + 2]! - z) ** 2;
            if (off <= square && (found < 0 || other < found)) found = other;
          }
        }
      }
    }
    stands[i] = found < 0 ? i : found;
    if (found < 0) cells.add(cx, cy, cz, i);
  }
  const kept = new Uint32Array(indices.length);
  let end = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [stands[indices[t]!]!, stands[indices[t + 1]!]!, stands[indices[t + 2]!]!];
    if (a === b || b === c || c === a || isFlat(positions, a, b, c)) continue;
    kept.set([a, b, c], end);
    end += 3;
  }
  return withoutUnused(positions, kept.slice(0, end));
}

/** Vertices by the cell they lie in; cells that share a place in the table share a chain, which costs time only. */
class CellTable {
  private readonly heads: Int32Array;
  readonly next: Int32Array;

  constructor(capacity: number) {
    this.heads = new Int32Array(2 ** Math.ceil(Math.log2(Math.max(16, 2 * capacity)))).fill(-1);
    this.next = new Int32Array(capacity).fill(-1);
  }

  first(x: number, y: number, z: number): number {
    return this.heads[this.slot(x, y, z)]!;
  }

  add(x: number, y: number, z: number, vertex: number): void {
    const slot = this.slot(x, y, z);
    this.next[vertex] = this.heads[slot]!;
    this.heads[slot] = vertex;
  }

  private slot(x: number, y: number, z: number): number {
    const mixed = Math.imul(Math.imul(Math.imul(x, 0x9e3779b1) ^ y, 0x85ebca6b) ^ z, 0xc2b2ae35);
    return (mixed ^ (mixed >>> 15)) & (this.heads.length - 1);
  }
}
