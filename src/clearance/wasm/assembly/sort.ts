import { sum } from "./lanes";

/*
 * Sorts boxes into a binary tree by the surface-area heuristic, binned: I. Wald, On fast construction of SAH-based bounding
 * volume hierarchies, IEEE Symposium on Interactive Ray Tracing (2007).
 */

// A record is a box in float32: low x, y, z, then what names it, which moves with it; high x, y, z, 0.
const RECORD_SIZE: usize = 32;

// A node that comes out: three words, the right child (0: a leaf), its first record and how many. Depth first.
const NODE_SIZE: usize = 12;

const BINS: i32 = 16;
// A bin: low, high, how many.
const BIN_SIZE: usize = 48;
const AXIS_SIZE: usize = BIN_SIZE * BINS;
const BIN: usize = memory.data(BIN_SIZE * BINS * 3, 16);
// For each bin of an axis, area times count of what lies from it on.
const ONWARDS: usize = memory.data(4 * BINS, 16);

// Ranges that wait: first, count, depth, parent (−1: follows it at once); then the extent of twice their boxes' centres.
const RANGE_SIZE: usize = 48;
/** From here on ranges are halved wherever that may be, so that none lies deeper than 20 levels or so below. */
const DEEP: i32 = 40;
const RANGES: usize = memory.data(RANGE_SIZE * 80, 16);

// Of the range that is parted.
const LOW: usize = memory.data(16, 16);
const SCALE: usize = memory.data(16, 16);

let records: usize = 0;
let nodes: usize = 0;
let nodeCount: i32 = 0;
let mostNodes: i32 = 0;
let leafSize: i32 = 0;
let waiting: usize = 0;

/** Takes `count` records, at least one, and room for `most` nodes; leaves of up to `leaf` records are not split. */
export function sortStart(at: usize, count: i32, into: usize, most: i32, leaf: i32): void {
  records = at;
  nodes = into;
  nodeCount = 0;
  mostNodes = most;
  leafSize = leaf;
  waiting = 0;
  let low = f32x4.splat(Infinity);
  let high = f32x4.splat(-Infinity);
  for (let p = at; p < at + RECORD_SIZE * count; p += RECORD_SIZE) {
    const centre = centreOf(p);
    low = f32x4.pmin(low, centre);
    high = f32x4.pmax(high, centre);
  }
  wait(0, count, 0, -1, low, high);
}

/** Goes on until about `most` records have been looked at. How many nodes there are once it is done; 0 before. */
export function sortOn(most: i32): i32 {
  let seen = 0;
  while (waiting > 0) {
    if (seen >= most) return 0;
    waiting -= RANGE_SIZE;
    seen += split(RANGES + waiting);
  }
  return nodeCount;
}

function wait(first: i32, count: i32, depth: i32, parent: i32, low: v128, high: v128): void {
  const range = RANGES + waiting;
  store<i32>(range, first);
  store<i32>(range, count, 4);
  store<i32>(range, depth, 8);
  store<i32>(range, parent, 12);
  v128.store(range, low, 16);
  v128.store(range, high, 32);
  waiting += RANGE_SIZE;
}

/** Makes a node of a range, and ranges of its children. How many records it looked at. */
function split(range: usize): i32 {
  const first = load<i32>(range);
  const count = load<i32>(range, 4);
  const depth = load<i32>(range, 8);
  const parent = load<i32>(range, 12);
  const low = v128.load(range, 16);
  const high = v128.load(range, 32);
  const node = nodeCount++;
  const at = nodes + NODE_SIZE * node;
  if (parent >= 0) store<i32>(nodes + NODE_SIZE * parent, node);
  store<i32>(at, 0);
  store<i32>(at, first, 4);
  store<i32>(at, count, 8);
  // every range that waits becomes a node at least
  if (count <= leafSize || nodeCount + 2 + <i32>(waiting / RANGE_SIZE) > mostNodes) return 1;
  // The last factor keeps the highest centre in the last bin.
  const extent = f32x4.sub(high, low);
  const scale = v128.bitselect(
    f32x4.div(f32x4.splat(<f32>BINS * 0.99999), extent),
    f32x4.splat(0),
    f32x4.gt(extent, f32x4.splat(0)),
  );
  fillBins(first, count, low, scale);
  const plane = depth < DEEP ? bestPlane() : -1;
  if (plane < 0) halve(node, first, count, depth, low, high);
  else part(node, first, count, depth, plane, low, scale);
  return 2 * count;
}

/** Twice the centre of a box; what stands in the fourth lane means nothing. */
@inline
function centreOf(record: usize): v128 {
  return f32x4.add(v128.load(record), v128.load(record, 16));
}

@inline
function binsOf(centre: v128, low: v128, scale: v128): v128 {
  return i32x4.min_s(
    i32x4.trunc_sat_f32x4_s(f32x4.mul(f32x4.sub(centre, low), scale)),
    i32x4.splat(BINS - 1),
  );
}

function fillBins(first: i32, count: i32, low: v128, scale: v128): void {
  for (let bin = BIN; bin < BIN + 3 * AXIS_SIZE; bin += BIN_SIZE) {
    v128.store(bin, f32x4.splat(Infinity));
    v128.store(bin, f32x4.splat(-Infinity), 16);
    store<i32>(bin, 0, 32);
  }
  const end = records + RECORD_SIZE * (first + count);
  for (let p = records + RECORD_SIZE * first; p < end; p += RECORD_SIZE) {
    const lowest = v128.load(p);
    const highest = v128.load(p, 16);
    const bins = binsOf(f32x4.add(lowest, highest), low, scale);
    widen(BIN + BIN_SIZE * i32x4.extract_lane(bins, 0), lowest, highest);
    widen(BIN + AXIS_SIZE + BIN_SIZE * i32x4.extract_lane(bins, 1), lowest, highest);
    widen(BIN + 2 * AXIS_SIZE + BIN_SIZE * i32x4.extract_lane(bins, 2), lowest, highest);
  }
}

@inline
function widen(bin: usize, low: v128, high: v128): void {
  v128.store(bin, f32x4.pmin(v128.load(bin), low));
  v128.store(bin, f32x4.pmax(v128.load(bin, 16), high), 16);
  store<i32>(bin, load<i32>(bin, 32) + 1, 32);
}

/** Half the area of a box. */
@inline
function areaOf(low: v128, high: v128): f32 {
  const size = f32x4.replace_lane(f32x4.sub(high, low), 3, 0);
  return sum(f32x4.mul(size, v128.shuffle<f32>(size, size, 1, 2, 0, 3)));
}

/** The plane between bins for which area times count is least on both sides together: 64·axis + first bin beyond; −1 if there is none. */
function bestPlane(): i32 {
  let best: f32 = Infinity;
  let plane = -1;
  for (let axis = 0; axis < 3; axis++) {
    const bins = BIN + AXIS_SIZE * axis;
    let low = f32x4.splat(Infinity);
    let high = f32x4.splat(-Infinity);
    let count = 0;
    for (let k = BINS - 1; k > 0; k--) {
      const bin = bins + BIN_SIZE * k;
      low = f32x4.pmin(low, v128.load(bin));
      high = f32x4.pmax(high, v128.load(bin, 16));
      count += load<i32>(bin, 32);
      store<f32>(ONWARDS + 4 * k, count === 0 ? -1 : <f32>count * areaOf(low, high));
    }
    low = f32x4.splat(Infinity);
    high = f32x4.splat(-Infinity);
    count = 0;
    for (let k = 0; k < BINS - 1; k++) {
      const bin = bins + BIN_SIZE * k;
      const others = load<f32>(ONWARDS + 4 * (k + 1));
      if (others < 0) break;
      const more = load<i32>(bin, 32);
      if (more === 0) continue;
      low = f32x4.pmin(low, v128.load(bin));
      high = f32x4.pmax(high, v128.load(bin, 16));
      count += more;
      const cost = <f32>count * areaOf(low, high) + others;
      if (cost < best) {
        best = cost;
        plane = 64 * axis + k + 1;
      }
    }
  }
  return plane;
}

/** Brings what lies before the plane to the front. */
function part(node: i32, first: i32, count: i32, depth: i32, plane: i32, low: v128, scale: v128): void {
  const axis: usize = 4 * (plane >> 6);
  const beyond = plane & 63;
  let lowBefore = f32x4.splat(Infinity);
  let highBefore = f32x4.splat(-Infinity);
  let lowAfter = f32x4.splat(Infinity);
  let highAfter = f32x4.splat(-Infinity);
  const start = records + RECORD_SIZE * first;
  let p = start;
  let q = start + RECORD_SIZE * count;
  v128.store(LOW, low);
  v128.store(SCALE, scale);
  const from = load<f32>(LOW + axis);
  const by = load<f32>(SCALE + axis);
  while (true) {
    while (p < q && binOn(p, axis, from, by) < beyond) {
      const centre = centreOf(p);
      lowBefore = f32x4.pmin(lowBefore, centre);
      highBefore = f32x4.pmax(highBefore, centre);
      p += RECORD_SIZE;
    }
    while (p < q && binOn(q - RECORD_SIZE, axis, from, by) >= beyond) {
      q -= RECORD_SIZE;
      const centre = centreOf(q);
      lowAfter = f32x4.pmin(lowAfter, centre);
      highAfter = f32x4.pmax(highAfter, centre);
    }
    if (p === q) break;
    const other = q - RECORD_SIZE;
    const lowest = v128.load(p);
    const highest = v128.load(p, 16);
    v128.store(p, v128.load(other));
    v128.store(p, v128.load(other, 16), 16);
    v128.store(other, lowest);
    v128.store(other, highest, 16);
  }
  const before = <i32>((p - start) / RECORD_SIZE);
  wait(first + before, count - before, depth + 1, node, lowAfter, highAfter);
  wait(first, before, depth + 1, -1, lowBefore, highBefore);
}

/** The bin of a record along one axis, in the same steps as `binsOf` takes. */
@inline
function binOn(record: usize, axis: usize, from: f32, by: f32): i32 {
  const centre = load<f32>(record + axis) + load<f32>(record + axis, 16);
  return min(<i32>((centre - from) * by), BINS - 1);
}

/** Where no plane tells the boxes apart. */
function halve(node: i32, first: i32, count: i32, depth: i32, low: v128, high: v128): void {
  const half = count >> 1;
  wait(first + half, count - half, depth + 1, node, low, high);
  wait(first, half, depth + 1, -1, low, high);
}
