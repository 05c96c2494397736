import { BEST_LINE, bestAbove, between, intoA, intoB, slackOf, turnedHalf } from "./frame";
import { combine, sum, sums } from "./lanes";
import { NODE_HALF, NODE_HIGH, NODE_LOW, NODE_RADIUS, NODE_X, NODE_Y, NODE_Z } from "./layout";

/** Squared distance of the centres of the two nodes bounded last. */
export let spread: f32 = 0;

/** A remainder this short (squared) has no sure direction left in float32. */
const SHORTEST: f32 = 1e-30;

/**
 * Lower bound on the squared distance between what two nodes hold, mm², as distanceBound.ts defines it; Infinity once it
 * reaches the best so far. In float32, less what rounding may have added.
 */
export function bound(nodeA: usize, nodeB: usize): f32 {
  const best = bestAbove;
  const c = between(nodeA, nodeB);
  const halfA = v128.load(nodeA, NODE_HALF);
  const halfB = v128.load(nodeB, NODE_HALF);
  const slack = slackOf(c, halfA, halfB);
  const apart = f32x4.pmax(
    f32x4.splat(0),
    f32x4.sub(f32x4.abs(c), f32x4.add(f32x4.add(halfA, slack), turnedHalf(halfB))),
  );
  let squared = sum(f32x4.mul(apart, apart));
  if (squared >= best) return Infinity;

  let u = v128.load(BEST_LINE);
  let w = v128.load(BEST_LINE, 16);
  let gap = sum(f32x4.sub(lanesOfGap(nodeA, ofNode(nodeA, u), nodeB, ofNode(nodeB, w), u, c), slack));
  if (gap > 0 && gap * gap > squared) {
    squared = gap * gap;
    if (squared >= best) return Infinity;
  }

  // From the larger fitted box to the other's centre: in the box's own axes, what is left when the part within is taken off.
  const fromA = load<f64>(nodeA, NODE_RADIUS) >= load<f64>(nodeB, NODE_RADIUS);
  const node = fromA ? nodeA : nodeB;
  const along = ofNode(node, fromA ? c : f32x4.neg(intoB(c)));
  let left = f32x4.sub(
    along,
    f32x4.pmax(v128.load(node, NODE_LOW), f32x4.pmin(v128.load(node, NODE_HIGH), along)),
  );
  const size = sum(f32x4.mul(left, left));
  if (size > SHORTEST) {
    left = f32x4.mul(left, f32x4.splat((fromA ? <f32>1 : <f32>-1) / sqrt(size)));
    const line = sums(
      f32x4.mul(left, v128.load(node, NODE_X)),
      f32x4.mul(left, v128.load(node, NODE_Y)),
      f32x4.mul(left, v128.load(node, NODE_Z)),
    );
    if (fromA) {
      u = line;
      w = intoB(u);
      gap = sum(f32x4.sub(lanesOfGap(nodeA, left, nodeB, ofNode(nodeB, w), u, c), slack));
    } else {
      w = line;
      u = intoA(w);
      gap = sum(f32x4.sub(lanesOfGap(nodeA, ofNode(nodeA, u), nodeB, left, u, c), slack));
    }
    if (gap > 0 && gap * gap > squared) {
      squared = gap * gap;
      if (squared >= best) return Infinity;
    }
  }
  spread = sum(f32x4.mul(c, c));
  return squared;
}

/** A direction in the axes of a node's fitted box. */
@inline
function ofNode(node: usize, direction: v128): v128 {
  return combine(direction, v128.load(node, NODE_X), v128.load(node, NODE_Y), v128.load(node, NODE_Z));
}

/** From centre to centre along u, less how far each fitted box reaches towards the other: the sum of the lanes. */
@inline
function lanesOfGap(nodeA: usize, ofA: v128, nodeB: usize, ofB: v128, u: v128, c: v128): v128 {
  const reachA = f32x4.pmax(f32x4.mul(ofA, v128.load(nodeA, NODE_LOW)), f32x4.mul(ofA, v128.load(nodeA, NODE_HIGH)));
  const reachB = f32x4.pmin(f32x4.mul(ofB, v128.load(nodeB, NODE_LOW)), f32x4.mul(ofB, v128.load(nodeB, NODE_HIGH)));
  return f32x4.add(f32x4.mul(u, c), f32x4.sub(reachB, reachA));
}
