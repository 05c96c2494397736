import type { Lattice } from "./field.ts";

/** What nodes that cannot be reached from outside are given: well within. */
export const WITHIN = -1;

/**
 * Fills what cannot be reached from the lattice's border through nodes of at least `level_mm`: the far inside of the body, and
 * hollows without a way out. Changes the field; the border must lie outside.
 */
export function fillWithin(field: Float32Array, { counts: [nx, ny, nz] }: Lattice, level_mm: number): void {
  const isReached = new Uint8Array(field.length);
  const rows = nx * ny;
  let waiting = new Int32Array(1 << 16);
  let count = 0;
  const reach = (node: number): void => {
    if (isReached[node] === 1 || field[node]! < level_mm) return;
    isReached[node] = 1;
    if (count === waiting.length) {
      const more = new Int32Array(2 * count);
      more.set(waiting);
      waiting = more;
    }
    waiting[count++] = node;
  };
  reach(0);
  while (count > 0) {
    const node = waiting[--count]!;
    const i = node % nx;
    const j = Math.floor(node / nx) % ny;
    const k = Math.floor(node / rows);
    if (i > 0) reach(node - 1);
    if (i < nx - 1) reach(node + 1);
    if (j > 0) reach(node - nx);
    if (j < ny - 1) reach(node + nx);
    if (k > 0) reach(node - rows);
    if (k < nz - 1) reach(node + rows);
  }
  for (let node = 0; node < field.length; node++) {
    if (isReached[node] === 0 && field[node]! >= level_mm) field[node] = WITHIN;
  }
}
