/*
 * Where things are in the linear memory. AssemblyScript: TypeScript's syntax with machine types, compiled by
 * `npm run kernel`. The host writes trees as packTree.ts lays them out and talks through the exchange block.
 */

// A tree: a header of words, then its nodes, its triangles (72 bytes each: 9 float64) and the lanes of its leaves.
export const TREE_NODES: usize = 0;
export const TREE_TRIANGLES: usize = 4;
export const TREE_LANES: usize = 8;

// A node: centre of the upright box and radius in float64; then in float32, four lanes each: half sizes; x, y and z of
// the three fitted axes; limits along them from the centre. The fourth lane is 0 throughout. Links come last.
export const NODE_SIZE: usize = 144;
export const NODE_RADIUS: usize = 24;
export const NODE_HALF: usize = 32;
export const NODE_X: usize = 48;
export const NODE_Y: usize = 64;
export const NODE_Z: usize = 80;
export const NODE_LOW: usize = 96;
export const NODE_HIGH: usize = 112;
export const NODE_RIGHT: usize = 128;
export const NODE_FIRST: usize = 132;
export const NODE_COUNT: usize = 136;
/** For a leaf, the number of its first block of lanes. */
export const NODE_BLOCK: usize = 140;

// A block of lanes: four triangles of a leaf, from the leaf's centre, in float32: ax ×4, ay ×4, az ×4, bx ×4, … cz ×4.
export const BLOCK_SIZE: usize = 144;

export const TRIANGLE_SIZE: usize = 72;

/** What the stacks and the leaves' scratch hold; the host sends nothing larger here. */
export const STACK_ENTRIES: i32 = 256;
export const LEAF_TRIANGLES: i32 = 256;

// The exchange block, float64: pose (12), limit, direction (3), squared distance, points (6), then four words, leeway (2).
const EXCHANGE: usize = memory.data(216, 16);
export const POSE: usize = EXCHANGE;
export const LIMIT: usize = EXCHANGE + 96;
export const DIRECTION: usize = EXCHANGE + 104;
export const BEST: usize = EXCHANGE + 128;
export const POINTS: usize = EXCHANGE + 136;
export const TRIANGLE_A: usize = EXCHANGE + 184;
export const TRIANGLE_B: usize = EXCHANGE + 188;
/** How many pairs of nodes the query bounded, and how many pairs of triangles it measured. */
export const NODE_PAIRS: usize = EXCHANGE + 192;
export const TRIANGLE_PAIRS: usize = EXCHANGE + 196;
/** How much nearer than the best a pair must be to be looked for: see Leeway in distance.ts. */
export const LEEWAY_FLOOR: usize = EXCHANGE + 200;
export const LEEWAY_SHARE: usize = EXCHANGE + 208;

export function exchange(): usize {
  return EXCHANGE;
}

/** Where the host may put trees. */
export function heapStart(): usize {
  return __heap_base;
}

export function stackEntries(): i32 {
  return STACK_ENTRIES;
}

export function leafTriangles(): i32 {
  return LEAF_TRIANGLES;
}
