import { sum, vector } from "./lanes";
import {
  BEST,
  BLOCK_SIZE,
  LEAF_TRIANGLES,
  LEEWAY_FLOOR,
  LIMIT,
  NODE_BLOCK,
  NODE_COUNT,
  NODE_FIRST,
  NODE_HALF,
  NODE_RIGHT,
  NODE_SIZE,
  POINTS,
  POSE,
  STACK_ENTRIES,
  TREE_LANES,
  TREE_NODES,
  TREE_TRIANGLES,
  TRIANGLE_A,
  TRIANGLE_SIZE,
} from "./layout";

/** What rounding in float32 may take off a gap, as in frame.ts. */
const SLACK: f32 = 3.8147e-6;

const STACK: usize = memory.data(4 * STACK_ENTRIES, 16);
const STACK_BOUND: usize = memory.data(4 * STACK_ENTRIES, 16);
/** Squares of the leaf's triangles that are bounded below, four to a block. */
const BOUNDS: usize = memory.data(4 * LEAF_TRIANGLES, 16);

let triangles: usize = 0;
/** Square that a triangle must be below to be looked at, rounded up to float32. */
let above: f32 = 0;
/** Unit vector from the asked point to the nearest so far, or nothing. */
let line: v128 = f32x4.splat(0);

// The last triangle measured: squared distance, and its nearest point.
let squared: f64 = 0;
let nearX: f64 = 0;
let nearY: f64 = 0;
let nearZ: f64 = 0;

/**
 * Nearest point of a tree (the address of its header; it has a triangle) to the point in the first three numbers of POSE, as
 * distancePoint.ts defines it: LIMIT, the distance that will do in LEEWAY_FLOOR, and the triangle to begin with in TRIANGLE_A
 * (−1: none) are taken from the exchange block, where squared distance, point and triangle (−1: none is nearer) are left.
 */
export function nearestPoint(tree: usize): void {
  triangles = load<usize>(tree, TREE_TRIANGLES);
  const lanes = load<usize>(tree, TREE_LANES);
  const root = load<usize>(tree, TREE_NODES);
  const limit = load<f64>(LIMIT);
  const enough = load<f64>(LEEWAY_FLOOR) * load<f64>(LEEWAY_FLOOR);
  const hint = load<i32>(TRIANGLE_A);
  line = f32x4.splat(0);
  setBest(limit * limit);
  store<i32>(TRIANGLE_A, -1);
  if (hint >= 0) {
    tryTriangle(hint);
    if (load<i32>(TRIANGLE_A) >= 0 && load<f64>(BEST) < enough) return;
  }
  store<usize>(STACK, root);
  store<f32>(STACK_BOUND, 0);
  let top: usize = 4;
  while (top > 0) {
    top -= 4;
    if (load<f32>(STACK_BOUND + top) >= above) continue;
    const node = load<usize>(STACK + top);
    const second: usize = load<u32>(node, NODE_RIGHT);
    if (second === 0) {
      lookAtLeaf(node, lanes);
      if (load<f64>(BEST) < enough) return;
      continue;
    }
    const left = node + NODE_SIZE;
    const right = root + NODE_SIZE * second;
    const ofLeft = boundOf(left);
    const ofRight = boundOf(right);
    // the nearer child goes on top
    const leftFirst = ofLeft <= ofRight;
    const farther = leftFirst ? ofRight : ofLeft;
    const nearer = leftFirst ? ofLeft : ofRight;
    if (farther < above) {
      store<usize>(STACK + top, leftFirst ? right : left);
      store<f32>(STACK_BOUND + top, farther);
      top += 4;
    }
    if (nearer < above) {
      store<usize>(STACK + top, leftFirst ? left : right);
      store<f32>(STACK_BOUND + top, nearer);
      top += 4;
    }
  }
}

/** From the asked point to the centre of a node: taken in float64, so that what is lost is small beside the distance. */
@inline
function towards(node: usize): v128 {
  const xy = f64x2.sub(v128.load(node), v128.load(POSE));
  const z = <f32>(load<f64>(node, 16) - load<f64>(POSE, 16));
  return v128.shuffle<f32>(f32x4.demote_f64x2_zero(xy), f32x4.splat(z), 0, 1, 4, 2);
}

/** No point of the node's box is nearer, squared: by its sides, and by the plane through the nearest point so far. */
@inline
function boundOf(node: usize): f32 {
  const c = towards(node);
  const half = v128.load(node, NODE_HALF);
  const size = f32x4.abs(c);
  const slack = f32x4.mul(f32x4.splat(SLACK), f32x4.add(size, half));
  const gap = f32x4.pmax(f32x4.splat(0), f32x4.sub(f32x4.sub(size, half), slack));
  const across = sum(
    f32x4.sub(f32x4.mul(line, c), f32x4.add(f32x4.mul(f32x4.abs(line), half), slack)),
  );
  const bySides = sum(f32x4.mul(gap, gap));
  return across > 0 ? max(bySides, across * across) : bySides;
}

/** Measures those triangles of a leaf that neither their upright boxes nor the plane through the nearest point keep away. */
function lookAtLeaf(node: usize, lanes: usize): void {
  const count = load<i32>(node, NODE_COUNT);
  const first = load<i32>(node, NODE_FIRST);
  const c = towards(node);
  const half = v128.load(node, NODE_HALF);
  const slack = f32x4.splat(SLACK * sum(f32x4.add(f32x4.abs(c), half)));
  const fromX = f32x4.neg(v128.shuffle<f32>(c, c, 0, 0, 0, 0));
  const fromY = f32x4.neg(v128.shuffle<f32>(c, c, 1, 1, 1, 1));
  const fromZ = f32x4.neg(v128.shuffle<f32>(c, c, 2, 2, 2, 2));
  let block = lanes + BLOCK_SIZE * load<u32>(node, NODE_BLOCK);
  for (let from = 0; from < count; from += 4) {
    const gapX = gapOf(block, fromX, slack);
    const gapY = gapOf(block + 16, fromY, slack);
    const gapZ = gapOf(block + 32, fromZ, slack);
    v128.store(
      BOUNDS + 4 * from,
      f32x4.add(f32x4.add(f32x4.mul(gapX, gapX), f32x4.mul(gapY, gapY)), f32x4.mul(gapZ, gapZ)),
    );
    block += BLOCK_SIZE;
  }
  block -= BLOCK_SIZE * ((count + 3) >> 2);
  for (let from = 0; from < count; from += 4, block += BLOCK_SIZE) {
    const rest = count - from;
    let open = i32x4.bitmask(f32x4.lt(v128.load(BOUNDS + 4 * from), f32x4.splat(above)));
    if (rest < 4) open &= (1 << rest) - 1;
    while (open !== 0) {
      open &= nearOnLine(block, c, slack);
      if (open === 0) break;
      const lane = ctz(open);
      open &= open - 1;
      // each that is nearer moves the plane
      if (tryTriangle(first + from + lane)) {
        open &= i32x4.bitmask(f32x4.lt(v128.load(BOUNDS + 4 * from), f32x4.splat(above)));
      }
    }
  }
}

/** How far the asked point lies outside of four triangles along one axis. */
@inline
function gapOf(block: usize, from: v128, slack: v128): v128 {
  const a = v128.load(block);
  const b = v128.load(block, 48);
  const c = v128.load(block, 96);
  const low = f32x4.pmin(a, f32x4.pmin(b, c));
  const high = f32x4.pmax(a, f32x4.pmax(b, c));
  const outside = f32x4.sub(f32x4.pmax(f32x4.sub(low, from), f32x4.sub(from, high)), slack);
  return f32x4.pmax(f32x4.splat(0), outside);
}

/** Which of four triangles may come before the plane through the nearest point so far: one bit each. */
@inline
function nearOnLine(block: usize, c: v128, slack: v128): i32 {
  const x = v128.shuffle<f32>(line, line, 0, 0, 0, 0);
  const y = v128.shuffle<f32>(line, line, 1, 1, 1, 1);
  const z = v128.shuffle<f32>(line, line, 2, 2, 2, 2);
  const least = f32x4.pmin(
    along(block, x, y, z),
    f32x4.pmin(along(block + 48, x, y, z), along(block + 96, x, y, z)),
  );
  const gap = f32x4.sub(f32x4.add(least, f32x4.splat(sum(f32x4.mul(line, c)))), slack);
  const away = v128.and(f32x4.gt(gap, f32x4.splat(0)), f32x4.ge(f32x4.mul(gap, gap), f32x4.splat(above)));
  return i32x4.bitmask(away) ^ 15;
}

@inline
function along(block: usize, x: v128, y: v128, z: v128): v128 {
  return f32x4.add(
    f32x4.add(f32x4.mul(v128.load(block), x), f32x4.mul(v128.load(block, 16), y)),
    f32x4.mul(v128.load(block, 32), z),
  );
}

/** Measures a triangle exactly; true if it is the nearest so far. */
function tryTriangle(i: i32): bool {
  const x = load<f64>(POSE);
  const y = load<f64>(POSE, 8);
  const z = load<f64>(POSE, 16);
  nearestOnTriangle(triangles + TRIANGLE_SIZE * i, x, y, z);
  if (squared >= load<f64>(BEST)) return false;
  setBest(squared);
  store<i32>(TRIANGLE_A, i);
  store<f64>(POINTS, nearX);
  store<f64>(POINTS, nearY, 8);
  store<f64>(POINTS, nearZ, 16);
  const share = squared > 0 ? 1 / sqrt(squared) : 0;
  line = vector((nearX - x) * share, (nearY - y) * share, (nearZ - z) * share);
  return true;
}

function setBest(best: f64): void {
  store<f64>(BEST, best);
  above = <f32>best;
  if (<f64>above < best) above = reinterpret<f32>(reinterpret<u32>(above) + 1);
}

/** The method is that of pointTriangle.ts, step by step. */
function nearestOnTriangle(t: usize, x: f64, y: f64, z: f64): void {
  const ax = load<f64>(t);
  const ay = load<f64>(t, 8);
  const az = load<f64>(t, 16);
  const ux = load<f64>(t, 24) - ax;
  const uy = load<f64>(t, 32) - ay;
  const uz = load<f64>(t, 40) - az;
  const vx = load<f64>(t, 48) - ax;
  const vy = load<f64>(t, 56) - ay;
  const vz = load<f64>(t, 64) - az;
  const wx = x - ax;
  const wy = y - ay;
  const wz = z - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  const onU = nx * (wy * vz - wz * vy) + ny * (wz * vx - wx * vz) + nz * (wx * vy - wy * vx);
  const onV = nx * (uy * wz - uz * wy) + ny * (uz * wx - ux * wz) + nz * (ux * wy - uy * wx);
  if (nn > 0 && onU >= 0 && onV >= 0 && onU + onV <= nn) {
    nearX = ax + (ux * onU + vx * onV) / nn;
    nearY = ay + (uy * onU + vy * onV) / nn;
    nearZ = az + (uz * onU + vz * onV) / nn;
    squared = (nearX - x) * (nearX - x) + (nearY - y) * (nearY - y) + (nearZ - z) * (nearZ - z);
    return;
  }
  squared = Infinity;
  for (let corner: usize = 0; corner < 72; corner += 24) {
    // the nearest point is on an edge that the projection is beyond
    if (nn > 0 && (corner === 0 ? onV >= 0 : corner === 24 ? onU + onV <= nn : onU >= 0)) continue;
    const p = t + corner;
    const q = corner === 48 ? t : p + 24;
    const sx = load<f64>(p);
    const sy = load<f64>(p, 8);
    const sz = load<f64>(p, 16);
    const ex = load<f64>(q) - sx;
    const ey = load<f64>(q, 8) - sy;
    const ez = load<f64>(q, 16) - sz;
    const way = ex * (x - sx) + ey * (y - sy) + ez * (z - sz);
    const ee = ex * ex + ey * ey + ez * ez;
    const share = way <= 0 ? 0 : way >= ee ? 1 : way / ee;
    const px = sx + ex * share;
    const py = sy + ey * share;
    const pz = sz + ez * share;
    const apart = (px - x) * (px - x) + (py - y) * (py - y) + (pz - z) * (pz - z);
    if (apart >= squared) continue;
    squared = apart;
    nearX = px;
    nearY = py;
    nearZ = pz;
  }
}
