import {
  BEST_LINE,
  bestAbove,
  between,
  intoA,
  OWN_LINE,
  placedX,
  placedY,
  placedZ,
  setBest,
  setLine,
  slackOf,
  turnFrame,
} from "./frame";
import { largest, least, sum, vector } from "./lanes";
import {
  BEST,
  BLOCK_SIZE,
  DIRECTION,
  LEAF_TRIANGLES,
  NODE_BLOCK,
  NODE_COUNT,
  NODE_FIRST,
  NODE_HALF,
  NODE_X,
  NODE_Y,
  NODE_Z,
  POINTS,
  POSE,
  TRIANGLE_A,
  TRIANGLE_B,
  TRIANGLE_PAIRS,
  TRIANGLE_SIZE,
} from "./layout";
import { RESULT, triangleDistance } from "./triangle";

// B's triangles of the leaf, in A's axes, as far as they were needed.
const PLACED: usize = memory.data(TRIANGLE_SIZE * LEAF_TRIANGLES, 16);
const IS_PLACED: usize = memory.data(LEAF_TRIANGLES, 16);
// How far each triangle of A reaches along either line, and where each of B begins, less the slack. By line.
const END_OF_A: usize = memory.data(2 * 4 * LEAF_TRIANGLES, 16);
const START_OF_B: usize = memory.data(2 * 4 * LEAF_TRIANGLES, 16);
const LINE_SIZE: usize = 4 * LEAF_TRIANGLES;

/** A gap whose square in float32 is this near that of the best may well be as large. */
const ALMOST: f32 = 0.9998;
/** What two distances may differ by and count as equal, as a share of the coordinates along the line. */
const EQUAL: f64 = 1e-13;

/** Whether the last gap of two leaves was almost as large as the best. */
let almost: bool = false;

let trianglesA: usize = 0;
let trianglesB: usize = 0;
let lanesA: usize = 0;
let lanesB: usize = 0;

export function openTrees(ofA: usize, lanesOfA: usize, ofB: usize, lanesOfB: usize): void {
  trianglesA = ofA;
  trianglesB = ofB;
  lanesA = lanesOfA;
  lanesB = lanesOfB;
}

/** Tries the triangles that were nearest in a similar pose. */
export function testHint(i: i32, j: i32): void {
  place(j, PLACED);
  testPair(i, j, PLACED);
  // Even a pair that is too far shows the direction in which the two are apart now.
  const squared = load<f64>(RESULT);
  if (squared > 0) {
    const share = 1 / sqrt(squared);
    turnFrame(across(0) * share, across(8) * share, across(16) * share);
  }
}

/** Tests all pairs of triangles of two leaves. */
export function testLeaves(nodeA: usize, nodeB: usize): void {
  const countA = load<i32>(nodeA, NODE_COUNT);
  const countB = load<i32>(nodeB, NODE_COUNT);
  const c = between(nodeA, nodeB);
  const slack = sum(slackOf(c, v128.load(nodeA, NODE_HALF), v128.load(nodeB, NODE_HALF)));
  const blocksA = lanesA + BLOCK_SIZE * load<u32>(nodeA, NODE_BLOCK);
  const blocksB = lanesB + BLOCK_SIZE * load<u32>(nodeB, NODE_BLOCK);
  if (areApart(0, blocksA, countA, blocksB, countB, c, slack)) return;
  if (almost && areApartExactly(nodeA, nodeB)) return;
  lookAcross(nodeA, nodeB, c);
  if (areApart(1, blocksA, countA, blocksB, countB, c, slack)) return;
  const firstA = load<i32>(nodeA, NODE_FIRST);
  const firstB = load<i32>(nodeB, NODE_FIRST);
  memory.fill(IS_PLACED, 0, countB);
  for (let i = 0; i < countA; i++) {
    for (let from = 0; from < countB; from += 4) {
      const rest = countB - from;
      let open = rest >= 4 ? 15 : (1 << rest) - 1;
      while (true) {
        open &= nearLanes(i, from);
        if (open === 0) break;
        const lane = ctz(open);
        open &= open - 1;
        const j = from + lane;
        const at = PLACED + TRIANGLE_SIZE * j;
        if (load<u8>(IS_PLACED + j) === 0) {
          store<u8>(IS_PLACED + j, 1);
          place(firstB + j, at);
        }
        const isBetter = testPair(firstA + i, firstB + j, at);
        if (load<f64>(BEST) === 0) return;
        // What separates these two most likely separates their neighbours.
        if (areApart(1, blocksA, countA, blocksB, countB, c, slack)) return;
        if (isBetter && areApart(0, blocksA, countA, blocksB, countB, c, slack)) return;
      }
    }
  }
}

/** Which of four triangles of B no line keeps away from triangle i of A: one bit each. */
@inline
function nearLanes(i: i32, from: i32): i32 {
  const endA = END_OF_A + 4 * i;
  const startB = START_OF_B + 4 * from;
  const gap = f32x4.pmax(
    f32x4.sub(v128.load(startB), v128.load_splat<f32>(endA)),
    f32x4.sub(v128.load(startB + LINE_SIZE), v128.load_splat<f32>(endA + LINE_SIZE)),
  );
  const away = v128.and(
    f32x4.gt(gap, f32x4.splat(0)),
    f32x4.ge(f32x4.mul(gap, gap), f32x4.splat(bestAbove)),
  );
  return i32x4.bitmask(away) ^ 15;
}

/** Puts tree triangle j of B into A's axes. */
function place(j: i32, at: usize): void {
  const from = trianglesB + TRIANGLE_SIZE * j;
  for (let corner: usize = 0; corner < 72; corner += 24) {
    const x = load<f64>(from + corner);
    const y = load<f64>(from + corner, 8);
    const z = load<f64>(from + corner, 16);
    store<f64>(at + corner, placedX(x, y, z));
    store<f64>(at + corner, placedY(x, y, z), 8);
    store<f64>(at + corner, placedZ(x, y, z), 16);
  }
}

/** One coordinate of the way from the nearest point of A to that of B. */
@inline
function across(k: usize): f64 {
  return load<f64>(RESULT + 32 + k) - load<f64>(RESULT + 8 + k);
}

/** Exact distance of a triangle of A and a placed one of B, whose direction becomes the leaves' own; true if it is the best so far. */
function testPair(i: i32, j: i32, at: usize): bool {
  triangleDistance(trianglesA + TRIANGLE_SIZE * i, at);
  store<i32>(TRIANGLE_PAIRS, load<i32>(TRIANGLE_PAIRS) + 1);
  const squared = load<f64>(RESULT);
  const size = sqrt(squared);
  const x = across(0) / size;
  const y = across(8) / size;
  const z = across(16) / size;
  if (size > 0) setLine(OWN_LINE, vector(x, y, z));
  if (squared >= load<f64>(BEST)) return false;
  setBest(squared);
  store<i32>(TRIANGLE_A, i);
  store<i32>(TRIANGLE_B, j);
  memory.copy(POINTS, RESULT + 8, 48);
  if (size > 0) turnFrame(x, y, z);
  return true;
}

/** Measures the triangles of two leaves along one of the lines; true if that alone shows that none are nearer than the best. */
function areApart(line: usize, blocksA: usize, countA: i32, blocksB: usize, countB: i32, c: v128, slack: f32): bool {
  const lines = BEST_LINE + 32 * line;
  const u = v128.load(lines);
  let x = v128.load_splat<f32>(lines);
  let y = v128.load_splat<f32>(lines, 4);
  let z = v128.load_splat<f32>(lines, 8);
  let ends = f32x4.splat(-Infinity);
  let into = END_OF_A + LINE_SIZE * line;
  const endA = into + 4 * countA;
  let block = blocksA;
  while (into < endA) {
    const end = f32x4.pmax(along(block, x, y, z), f32x4.pmax(along(block + 48, x, y, z), along(block + 96, x, y, z)));
    v128.store(into, end);
    ends = f32x4.pmax(ends, end);
    into += 16;
    block += BLOCK_SIZE;
  }
  x = v128.load_splat<f32>(lines, 16);
  y = v128.load_splat<f32>(lines, 20);
  z = v128.load_splat<f32>(lines, 24);
  const shift = f32x4.splat(sum(f32x4.mul(u, c)) - slack);
  let starts = f32x4.splat(Infinity);
  into = START_OF_B + LINE_SIZE * line;
  const endB = into + 4 * countB;
  block = blocksB;
  while (into < endB) {
    const low = f32x4.pmin(along(block, x, y, z), f32x4.pmin(along(block + 48, x, y, z), along(block + 96, x, y, z)));
    const start = f32x4.add(shift, low);
    v128.store(into, start);
    starts = f32x4.pmin(starts, start);
    into += 16;
    block += BLOCK_SIZE;
  }
  const gap = least(starts) - largest(ends);
  almost = gap > 0 && gap * gap >= ALMOST * bestAbove;
  return gap > 0 && gap * gap >= bestAbove;
}

/**
 * Whether the direction of the best pair, in float64, shows that none of the triangles of two leaves are nearer: where faces
 * lie parallel, very many pairs are as far as the best, and only rounding would make them candidates.
 */
function areApartExactly(nodeA: usize, nodeB: usize): bool {
  const ux = load<f64>(DIRECTION);
  const uy = load<f64>(DIRECTION, 8);
  const uz = load<f64>(DIRECTION, 16);
  let end: f64 = -Infinity;
  let at = trianglesA + TRIANGLE_SIZE * load<u32>(nodeA, NODE_FIRST);
  let last = at + TRIANGLE_SIZE * load<u32>(nodeA, NODE_COUNT);
  for (; at < last; at += 24) end = max(end, ux * load<f64>(at) + uy * load<f64>(at, 8) + uz * load<f64>(at, 16));
  const wx = load<f64>(POSE) * ux + load<f64>(POSE + 32) * uy + load<f64>(POSE + 64) * uz;
  const wy = load<f64>(POSE + 8) * ux + load<f64>(POSE + 40) * uy + load<f64>(POSE + 72) * uz;
  const wz = load<f64>(POSE + 16) * ux + load<f64>(POSE + 48) * uy + load<f64>(POSE + 80) * uz;
  let start: f64 = Infinity;
  at = trianglesB + TRIANGLE_SIZE * load<u32>(nodeB, NODE_FIRST);
  last = at + TRIANGLE_SIZE * load<u32>(nodeB, NODE_COUNT);
  for (; at < last; at += 24) start = min(start, wx * load<f64>(at) + wy * load<f64>(at, 8) + wz * load<f64>(at, 16));
  start += ux * load<f64>(POSE + 24) + uy * load<f64>(POSE + 56) + uz * load<f64>(POSE + 88);
  return start - end + EQUAL * (abs(start) + abs(end)) >= sqrt(load<f64>(BEST));
}

@inline
function along(block: usize, x: v128, y: v128, z: v128): v128 {
  return f32x4.add(
    f32x4.add(f32x4.mul(v128.load(block), x), f32x4.mul(v128.load(block, 16), y)),
    f32x4.mul(v128.load(block, 32), z),
  );
}

/** The direction in which two leaves most likely are apart: square to both of their surfaces, as far as they agree. */
function lookAcross(nodeA: usize, nodeB: usize, c: v128): void {
  const normalA = normalOf(nodeA);
  const normalB = intoA(normalOf(nodeB));
  const facingA = sum(f32x4.mul(c, normalA));
  const facingB = sum(f32x4.mul(c, normalB));
  const own = f32x4.add(
    facingB < 0 ? f32x4.neg(normalB) : normalB,
    facingA < 0 ? f32x4.neg(normalA) : normalA,
  );
  const size = sum(f32x4.mul(own, own));
  // Two that cancel out leave no direction.
  setLine(OWN_LINE, size > 1e-6 ? f32x4.mul(own, f32x4.splat(1 / sqrt(size))) : f32x4.splat(0));
}

/** The thinnest axis of a node's fitted box. */
@inline
function normalOf(node: usize): v128 {
  const xy = v128.shuffle<f32>(v128.load(node, NODE_X), v128.load(node, NODE_Y), 0, 4, 3, 3);
  return v128.shuffle<f32>(xy, v128.load(node, NODE_Z), 0, 1, 4, 7);
}
