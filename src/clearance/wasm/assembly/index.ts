import { bound, spread } from "./bound";
import { bestAbove, placeFrame, setLimit, turnFrame } from "./frame";
import {
  BEST,
  DIRECTION,
  LIMIT,
  NODE_PAIRS,
  NODE_RADIUS,
  NODE_RIGHT,
  NODE_SIZE,
  STACK_ENTRIES,
  TREE_LANES,
  TREE_NODES,
  TREE_TRIANGLES,
  TRIANGLE_A,
  TRIANGLE_B,
  TRIANGLE_PAIRS,
} from "./layout";
import { openTrees, testHint, testLeaves } from "./leaf";

export { exchange, heapStart, leafTriangles, stackEntries } from "./layout";
export { nearestPoint } from "./point";
export { sortOn, sortStart } from "./sort";

const STACK_A: usize = memory.data(4 * STACK_ENTRIES, 16);
const STACK_B: usize = memory.data(4 * STACK_ENTRIES, 16);
const STACK_BOUND: usize = memory.data(4 * STACK_ENTRIES, 16);

// Where a descent goes on: its nodes, and how many entries it has kept.
let rootA: usize = 0;
let rootB: usize = 0;
let nodeA: usize = 0;
let nodeB: usize = 0;
let kept: usize = 0;

const FARTHER: i32 = 0;
const FOUND: i32 = 1;
const UNFINISHED: i32 = 2;

/**
 * Smallest distance between two trees (the addresses of their headers, neither empty) as distance.ts defines it: pose,
 * limit, leeway, and the hint's direction and triangles are taken from the exchange block, where squared distance, points,
 * triangles, direction and counts are left. 1 if the distance is below the limit; 0 if not, then triangle A is −1; 2 if it
 * has looked at about `most` pairs of nodes and triangles and is not done: then `resume` goes on.
 */
export function distance(treeA: usize, treeB: usize, most: i32): i32 {
  openTrees(
    load<usize>(treeA, TREE_TRIANGLES),
    load<usize>(treeA, TREE_LANES),
    load<usize>(treeB, TREE_TRIANGLES),
    load<usize>(treeB, TREE_LANES),
  );
  const limit = load<f64>(LIMIT);
  placeFrame();
  setLimit(limit * limit);
  turnFrame(load<f64>(DIRECTION), load<f64>(DIRECTION, 8), load<f64>(DIRECTION, 16));
  const hintA = load<i32>(TRIANGLE_A);
  const hintB = load<i32>(TRIANGLE_B);
  store<i32>(TRIANGLE_A, -1);
  store<i32>(NODE_PAIRS, 0);
  store<i32>(TRIANGLE_PAIRS, 0);
  if (hintA >= 0 && hintB >= 0) testHint(hintA, hintB);
  if (load<f64>(BEST) === 0) return FOUND;
  rootA = load<usize>(treeA, TREE_NODES);
  rootB = load<usize>(treeB, TREE_NODES);
  nodeA = rootA;
  nodeB = rootB;
  kept = 0;
  store<i32>(NODE_PAIRS, 1);
  if (bound(nodeA, nodeB) === Infinity) return load<i32>(TRIANGLE_A) >= 0 ? FOUND : FARTHER;
  return resume(most);
}

/** Goes on with the distance that was not done; nothing else may have been asked between. */
export function resume(most: i32): i32 {
  if (!descend(most)) return UNFINISHED;
  return load<i32>(TRIANGLE_A) >= 0 ? FOUND : FARTHER;
}

function close(pairs: i32): bool {
  store<i32>(NODE_PAIRS, pairs);
  return true;
}

/** Branch and bound over pairs of nodes, nearest pair first. False if it has looked at enough pairs for now. */
function descend(most: i32): bool {
  let pairs = load<i32>(NODE_PAIRS);
  const stop = pairs + load<i32>(TRIANGLE_PAIRS) + most;
  let top = kept;
  let a = nodeA;
  let b = nodeB;
  while (true) {
    if (pairs + load<i32>(TRIANGLE_PAIRS) >= stop) {
      nodeA = a;
      nodeB = b;
      kept = top;
      store<i32>(NODE_PAIRS, pairs);
      return false;
    }
    const secondA: usize = load<u32>(a, NODE_RIGHT);
    const secondB: usize = load<u32>(b, NODE_RIGHT);
    let descended = false;
    if (secondA === 0 && secondB === 0) {
      testLeaves(a, b);
      if (load<f64>(BEST) === 0) return close(pairs);
    } else {
      const splitA =
        secondB === 0 || (secondA !== 0 && load<f64>(a, NODE_RADIUS) >= load<f64>(b, NODE_RADIUS));
      const nearA = splitA ? a + NODE_SIZE : a;
      const nearB = splitA ? b : b + NODE_SIZE;
      const farA = splitA ? rootA + NODE_SIZE * secondA : a;
      const farB = splitA ? b : rootB + NODE_SIZE * secondB;
      pairs += 2;
      const first = bound(nearA, nearB);
      const firstSpread = spread;
      const second = bound(farA, farB);
      if (first === Infinity && second === Infinity) {
        // both are dropped
      } else if (first < second || (first === second && firstSpread <= spread)) {
        if (second < Infinity) {
          store<usize>(STACK_A + top, farA);
          store<usize>(STACK_B + top, farB);
          store<f32>(STACK_BOUND + top, second);
          top += 4;
        }
        descended = first < Infinity;
        a = nearA;
        b = nearB;
      } else {
        if (first < Infinity) {
          store<usize>(STACK_A + top, nearA);
          store<usize>(STACK_B + top, nearB);
          store<f32>(STACK_BOUND + top, first);
          top += 4;
        }
        descended = true;
        a = farA;
        b = farB;
      }
    }
    if (descended) continue;
    do {
      if (top === 0) return close(pairs);
      top -= 4;
    } while (load<f32>(STACK_BOUND + top) >= bestAbove);
    a = load<usize>(STACK_A + top);
    b = load<usize>(STACK_B + top);
  }
}
