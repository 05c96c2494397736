import { POSE_SIZE } from "../../maths/pose.ts";
import { createInsideQuery } from "../inside.ts";
import { type CollisionTree, createPointQuery, createSurfacePoint } from "../kernel.ts";

/** A cubic lattice of nodes over a box: node (i, j, k) stands at low + spacing·(i, j, k) and is number i + nx·(j + ny·k). */
export interface Lattice {
  readonly low: readonly [number, number, number];
  readonly spacing_mm: number;
  readonly counts: readonly [nx: number, ny: number, nz: number];
}

/** The value of nodes that are known to lie farther away than the cutoff. */
export const FAR = 1e9;

/** How much farther than the nearest placement others are still measured, of the block's side. */
const STRIDE = 6;
/** Nodes along a block's side at the first look; a power of two. */
const BLOCK = 8;

/**
 * Distance from the nodes of a lattice to the nearest of many placements of one surface, mm, float32: no less than it is and at
 * most `slack_mm` more; FAR where it is more than `cutoff_mm`, 0 at nodes that were seen to lie well within. Unsigned: within
 * the body it grows again. `poses` are 12·n numbers, neighbours in time beside each other. Yields the share done, often.
 *
 * By blocks, each looked at from its middle: a distance changes by no more than one goes, so that placements farther from the
 * middle than the nearest by the block's diagonal are out of the question for all of it, and a block farther away than the
 * cutoff and half its diagonal is done with. Nor does it change by more than the place moves as the body sees it: from one
 * placement to its neighbours it is known how much nearer they can be at the most, and most are never asked.
 */
export function* distanceField(
  tree: CollisionTree,
  poses: Float64Array,
  lattice: Lattice,
  cutoff_mm: number,
  slack_mm: number,
): Generator<number, Float32Array> {
  const { low, spacing_mm, counts } = lattice;
  const [nx, ny, nz] = counts;
  const field = new Float32Array(nx * ny * nz).fill(FAR);
  const query = createPointQuery(tree, true);
  const inside = createInsideQuery(tree);
  const point = createSurfacePoint();
  const poseCount = poses.length / POSE_SIZE;
  // each level of blocks has its own list, so that a block does not spoil what its parent still needs
  const levels = Math.log2(BLOCK) + 2;
  const lists = Array.from({ length: levels }, () => new Int32Array(poseCount));
  const least = new Float64Array(poseCount);
  for (let p = 0; p < poseCount; p++) lists[0]![p] = p;
  let [ux, uy, uz] = [0, 0, 0];

  /** The place as the placed body sees it, in its design axes. */
  const see = (pose: number, x: number, y: number, z: number): void => {
    const at = pose * POSE_SIZE;
    const dx = x - poses[at + 3]!;
    const dy = y - poses[at + 7]!;
    const dz = z - poses[at + 11]!;
    ux = poses[at]! * dx + poses[at + 4]! * dy + poses[at + 8]! * dz;
    uy = poses[at + 1]! * dx + poses[at + 5]! * dy + poses[at + 9]! * dz;
    uz = poses[at + 2]! * dx + poses[at + 6]! * dy + poses[at + 10]! * dz;
  };

  /** `hint` was nearest to the block's parent, `within` held its middle inside (−1: none is known to). */
  const look = (
    i: number,
    j: number,
    k: number,
    size: number,
    level: number,
    count: number,
    hint: number,
    within: number,
  ): void => {
    if (i >= nx || j >= ny || k >= nz) return;
    const list = lists[level]!;
    const half = ((size - 1) / 2) * spacing_mm;
    const [x, y, z] = [low[0] + i * spacing_mm + half, low[1] + j * spacing_mm + half, low[2] + k * spacing_mm + half];
    const reach_mm = Math.sqrt(3) * half;
    if (within >= 0) {
      see(within, x, y, z);
      if (!inside.isInside(ux, uy, uz)) within = -1;
      else if (size === 1 || !query.nearest(ux, uy, uz, reach_mm, point, reach_mm)) {
        fill(i, j, k, size);
        return;
      }
    }
    const most_mm = cutoff_mm + reach_mm + slack_mm;
    // of a block it need not be known more closely than its own size asks
    const ease_mm = size > 2 ? slack_mm + 0.25 * reach_mm : slack_mm;
    // of one that is far away it is told how far, so that many of its neighbours need not be asked
    const far_mm = ease_mm + 2 * reach_mm + STRIDE * (size - 1) * spacing_mm;
    see(hint, x, y, z);
    query.nearest(ux, uy, uz, most_mm, point);
    let best = point.distance_mm;
    let nearest = hint;
    let deepest = hint;
    let deep = -Infinity;
    let [kx, ky, kz, known] = [0, 0, 0, -Infinity];
    for (let c = 0; c < count; c++) {
      const pose = list[c]!;
      see(pose, x, y, z);
      const bound = known - Math.sqrt((ux - kx) ** 2 + (uy - ky) ** 2 + (uz - kz) ** 2);
      least[c] = bound;
      if (bound > deep) [deep, deepest] = [bound, pose];
      if (bound >= best - ease_mm) continue;
      query.nearest(ux, uy, uz, best + far_mm, point);
      known = point.distance_mm;
      least[c] = known;
      if (known > deep) [deep, deepest] = [known, pose];
      [kx, ky, kz] = [ux, uy, uz];
      if (known < best) [best, nearest] = [known, pose];
    }
    if (best - ease_mm >= cutoff_mm + reach_mm) return;
    if (size === 1) {
      field[i + nx * (j + ny * k)] = best;
      return;
    }
    // of the placements that hold the middle inside, the one whose surface is farthest holds the most of the block
    if (within < 0) {
      see(deepest, x, y, z);
      if (inside.isInside(ux, uy, uz)) {
        if (deep > reach_mm) {
          fill(i, j, k, size);
          return;
        }
        within = deepest;
      }
    }
    const next = lists[level + 1]!;
    let kept = 0;
    for (let c = 0; c < count; c++) if (least[c]! <= best + 2 * reach_mm) next[kept++] = list[c]!;
    const part = size / 2;
    for (let corner = 0; corner < 8; corner++) {
      look(
        i + (corner & 1) * part,
        j + ((corner >> 1) & 1) * part,
        k + (corner >> 2) * part,
        part,
        level + 1,
        kept,
        nearest,
        within,
      );
    }
  };
  const fill = (i: number, j: number, k: number, size: number): void => {
    for (let c = k; c < Math.min(k + size, nz); c++) {
      for (let b = j; b < Math.min(j + size, ny); b++) {
        const row = nx * (b + ny * c);
        field.fill(0, row + i, row + Math.min(i + size, nx));
      }
    }
  };

  const blocks = [nx, ny, nz].map((count) => Math.ceil(count / BLOCK)) as [number, number, number];
  const total = blocks[0] * blocks[1] * blocks[2];
  for (let block = 0; block < total; block++) {
    const i = (block % blocks[0]) * BLOCK;
    const j = (Math.floor(block / blocks[0]) % blocks[1]) * BLOCK;
    const k = Math.floor(block / (blocks[0] * blocks[1])) * BLOCK;
    // by eighths: a whole block may take long
    const half = BLOCK / 2;
    for (let corner = 0; corner < 8; corner++) {
      const [ci, cj, ck] = [i + (corner & 1) * half, j + ((corner >> 1) & 1) * half, k + (corner >> 2) * half];
      look(ci, cj, ck, half, 0, poseCount, poseCount >> 1, -1);
      yield (block + (corner + 1) / 8) / total;
    }
  }
  return field;
}
