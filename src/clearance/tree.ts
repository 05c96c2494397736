import type { Solid } from "../geometry/solid.ts";
import { Pacer, type Poll } from "../maths/poll.ts";
import { fitBoxes } from "./treeFit.ts";
import { isSameMesh, planTree, type TreePlan } from "./treePlan.ts";
import { isCutAlike, verticesOf } from "./treeRefine.ts";

/** A refitted tree is kept until its boxes have grown by so much, beside the root's, since it was built. */
const LOOSEST = 1.3;

/** Visits to a triangle before polling: some 2 ms. */
const STRETCH = 100_000;

/**
 * A solid's triangles in a binary tree of boxes, in the axes of its design position, all in flat arrays.
 *
 * Nodes are numbered depth first: the left child of an inner node n is n + 1, the right one `right[n]`; `right[n]` is 0 for
 * a leaf. Node n (inner ones too) holds the triangles `first[n]` … `first[n] + count[n] − 1`, numbered in tree order. A
 * tree triangle is a triangle of the solid or, where that has edges over 150 mm, a part of one; parts keep the
 * orientation and share whole edges with their neighbours. A solid without triangles has no nodes.
 */
export interface CollisionTree extends TreePlan {
  readonly solid: Solid;
  /** 6 a node: centre x, y, z and half sizes x, y, z, mm, rounded outwards. */
  readonly boxes: Float64Array;
  /** 15 a node: the axes of a box turned to fit, and its limits (treeFit.ts). */
  readonly fitted: Float64Array;
  /** Half diagonal of each node's box, mm. */
  readonly radius: Float64Array;
  /** 9 a tree triangle: corners a, b, c, mm. */
  readonly triangles: Float64Array;
  /** Area of all upright boxes over that of the root's, which grows with the work of a query: now, and when the tree was built. */
  readonly bulk: number;
  readonly bulkWhenBuilt: number;
}

/** Builds the tree. About 0.6 µs a triangle with the compiled kernel. */
export function buildTree(solid: Solid, poll?: Poll): CollisionTree {
  const pacer = new Pacer(poll, STRETCH);
  const plan = planTree(solid, pacer);
  return fillPlan(plan, solid, verticesOf(solid.positions, plan.halved), null, pacer);
}

/**
 * The tree of a solid that differs from another's only in where its vertices are (a part drawn anew after an edit): sorted
 * as that one's is, in half the time that building takes, with the same parts of long triangles: distances are the same but for the last
 * bits where triangles share the nearest point. Null if the triangles are not the same, would be cut otherwise, or have moved so far that a new tree would be much the better one.
 */
export function refitTree(from: CollisionTree, solid: Solid, poll?: Poll): CollisionTree | null {
  if (!isSameMesh(from.solid, solid)) return null;
  const pacer = new Pacer(poll, STRETCH);
  if (!isCutAlike(solid, from.halved, pacer)) return null;
  const vertices = verticesOf(solid.positions, from.halved);
  const tree = fillPlan(from, solid, vertices, from.bulkWhenBuilt, pacer);
  return tree.bulk > LOOSEST * tree.bulkWhenBuilt ? null : tree;
}

function fillPlan(
  plan: TreePlan,
  solid: Solid,
  vertices: Float64Array,
  bulkWhenBuilt: number | null,
  pacer: Pacer,
): CollisionTree {
  const triangles = placesOf(plan.corners, vertices, pacer);
  const spots = placesOf(plan.spots, vertices, pacer);
  const { boxes, radius, bulk } = boundBoxes(plan, spots, pacer);
  return {
    solid,
    nodeCount: plan.nodeCount,
    triangleCount: plan.triangleCount,
    depth: plan.depth,
    largestLeaf: plan.largestLeaf,
    right: plan.right,
    first: plan.first,
    count: plan.count,
    corners: plan.corners,
    halved: plan.halved,
    original: plan.original,
    shell: plan.shell,
    spots: plan.spots,
    firstSpot: plan.firstSpot,
    endSpot: plan.endSpot,
    boxes,
    fitted: fitBoxes(plan, triangles, spots, boxes, pacer),
    radius,
    triangles,
    bulk,
    bulkWhenBuilt: bulkWhenBuilt ?? bulk,
  };
}

function placesOf(list: Uint32Array, vertices: Float64Array, pacer: Pacer): Float64Array {
  const places = new Float64Array(3 * list.length);
  for (let i = 0, to = 0; i < list.length; i++, to += 3) {
    pacer.spend(1);
    const from = 3 * list[i]!;
    places[to] = vertices[from]!;
    places[to + 1] = vertices[from + 1]!;
    places[to + 2] = vertices[from + 2]!;
  }
  return places;
}

/** Upright boxes around the places of each node's vertices. */
function boundBoxes(
  plan: TreePlan,
  spots: Float64Array,
  pacer: Pacer,
): { boxes: Float64Array; radius: Float64Array; bulk: number } {
  const { nodeCount, right, firstSpot, endSpot } = plan;
  const bounds = new Float64Array(6 * nodeCount);
  const boxes = new Float64Array(6 * nodeCount);
  const radius = new Float64Array(nodeCount);
  let areaOfAll = 0;
  let area = 0;
  // Children have higher numbers than their parents.
  for (let node = nodeCount - 1; node >= 0; node--) {
    const at = 6 * node;
    const second = right[node]!;
    if (second === 0) {
      pacer.spend(endSpot[node]! - firstSpot[node]!);
      boundSpots(spots, firstSpot[node]!, endSpot[node]!, bounds, at);
    } else {
      for (let k = at; k < at + 3; k++) {
        const other = k - at + 6 * second;
        bounds[k] = Math.min(bounds[k + 6]!, bounds[other]!);
        bounds[k + 3] = Math.max(bounds[k + 9]!, bounds[other + 3]!);
      }
    }
    for (let k = at; k < at + 3; k++) {
      const low = bounds[k]!;
      const high = bounds[k + 3]!;
      const centre = (low + high) / 2;
      boxes[k] = centre;
      // four units in the last place outwards, so that rounding of the centre loses no corner
      boxes[k + 3] = Math.max(high - centre, centre - low) + (Math.abs(centre) + high - low) * 1e-15;
    }
    const x = boxes[at + 3]!;
    const y = boxes[at + 4]!;
    const z = boxes[at + 5]!;
    radius[node] = Math.sqrt(x * x + y * y + z * z);
    area = x * y + y * z + z * x;
    areaOfAll += area;
  }
  // the root came last
  return { boxes, radius, bulk: area > 0 ? areaOfAll / area : 0 };
}

function boundSpots(spots: Float64Array, first: number, end: number, bounds: Float64Array, at: number): void {
  let lowX = Number.POSITIVE_INFINITY;
  let lowY = Number.POSITIVE_INFINITY;
  let lowZ = Number.POSITIVE_INFINITY;
  let highX = Number.NEGATIVE_INFINITY;
  let highY = Number.NEGATIVE_INFINITY;
  let highZ = Number.NEGATIVE_INFINITY;
  for (let k = 3 * first; k < 3 * end; k += 3) {
    const x = spots[k]!;
    const y = spots[k + 1]!;
    const z = spots[k + 2]!;
    if (x < lowX) lowX = x;
    if (x > highX) highX = x;
    if (y < lowY) lowY = y;
    if (y > highY) highY = y;
    if (z < lowZ) lowZ = z;
    if (z > highZ) highZ = z;
  }
  bounds[at] = lowX;
  bounds[at + 1] = lowY;
  bounds[at + 2] = lowZ;
  bounds[at + 3] = highX;
  bounds[at + 4] = highY;
  bounds[at + 5] = highZ;
}
