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

const STACK_A: usize = memory.data(4 * STACK_ENTRIES, 16);
const STACK_B: usize = memory.data(4 * STACK_ENTRIES, 16);
const STACK_BOUND: usize = memory.data(4 * STACK_ENTRIES, 16);

/**
 * Smallest distance between two trees (the addresses of their headers, neither empty) as distance.ts defines it: pose,
 * limit, leeway, and the hint's direction and triangles are taken from the exchange block, where squared distance, points,
 * triangles, direction and counts are left. Whether the distance is below the limit; if not, triangle A is −1.
 */
export function distance(treeA: usize, treeB: usize): bool {
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
  if (load<f64>(BEST) > 0) {
    store<i32>(NODE_PAIRS, descend(load<usize>(treeA, TREE_NODES), load<usize>(treeB, TREE_NODES)));
  }
  return load<i32>(TRIANGLE_A) >= 0;
}

/** Branch and bound over pairs of nodes, nearest pair first. How many pairs were bounded. */
function descend(rootA: usize, rootB: usize): i32 {
  let pairs = 1;
  let top: usize = 0;
  let nodeA = rootA;
  let nodeB = rootB;
  if (bound(nodeA, nodeB) === Infinity) return pairs;
  while (true) {
    const secondA: usize = load<u32>(nodeA, NODE_RIGHT);
    const secondB: usize = load<u32>(nodeB, NODE_RIGHT);
    let descended = false;
    if (secondA === 0 && secondB === 0) {
      testLeaves(nodeA, nodeB);
      if (load<f64>(BEST) === 0) return pairs;
    } else {
      const splitA =
        secondB === 0 || (secondA !== 0 && load<f64>(nodeA, NODE_RADIUS) >= load<f64>(nodeB, NODE_RADIUS));
      const nearA = splitA ? nodeA + NODE_SIZE : nodeA;
      const nearB = splitA ? nodeB : nodeB + NODE_SIZE;
      const farA = splitA ? rootA + NODE_SIZE * secondA : nodeA;
      const farB = splitA ? nodeB : rootB + NODE_SIZE * secondB;
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
        nodeA = nearA;
        nodeB = nearB;
      } else {
        if (first < Infinity) {
          store<usize>(STACK_A + top, nearA);
          store<usize>(STACK_B + top, nearB);
          store<f32>(STACK_BOUND + top, first);
          top += 4;
        }
        descended = true;
        nodeA = farA;
        nodeB = farB;
      }
    }
    if (descended) continue;
    do {
      if (top === 0) return pairs;
      top -= 4;
    } while (load<f32>(STACK_BOUND + top) >= bestAbove);
    nodeA = load<usize>(STACK_A + top);
    nodeB = load<usize>(STACK_B + top);
  }
}
