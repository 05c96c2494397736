import { Pacer, type Poll } from "../maths/poll.ts";
import { invertPose, type Pose, turnByPose } from "../maths/pose.ts";
import { cross, normalise, subtract, type Vec3 } from "../maths/vec3.ts";
import {
  type ConvexOverlap,
  type ConvexPiece,
  convexPieceOf,
  createConvexOverlap,
  createConvexQuery,
} from "./convex.ts";
import { createSampledDepth, type SampledDepth } from "./depthSampled.ts";
import { createWitness, type DistanceQuery } from "./distance.ts";
import { createDistanceQuery } from "./kernelChoice.ts";
import type { CollisionTree } from "./tree.ts";

/** How far two bodies overlap. Belongs to the caller. */
export interface OverlapDepth {
  /** Smallest translation that parts them (of the worst pair of convex pieces), or the deepest point found; 0: they only touch. */
  depth_mm: number;
  /** convex: exact over convex pieces; inside: as convex or sampled, one wholly inside the other; sampled: deepest point at 2 mm spacing. */
  measure: "convex" | "inside" | "sampled";
  /** Unit vector, A's design axes: moving A by the depth along it parts the two (the worst pieces of them). */
  readonly partingOfA: Float64Array;
  /** Deepest points on A's and B's surface, A's design axes: pointB − pointA = depth · partingOfA. */
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
}

export interface DepthQuery {
  /** For bodies whose surfaces cross (`crosses`) or of which one is inside the other. */
  overlapDepth(relative: Pose, crosses: boolean, out: OverlapDepth): void;
}

export function createOverlapDepth(): OverlapDepth {
  return { ...createConvexOverlap(), measure: "convex" };
}

/**
 * Surfaces that cross where no sample is found inside (both bodies open, or a scratch finer than the samples): how deep is
 * not known, but that they overlap is.
 */
const LEAST_SAMPLED_mm = 0.01;

/** Depth over all pairs of convex pieces; by samples of the surfaces where one of the bodies has no pieces. */
export function createDepthQuery(a: CollisionTree, b: CollisionTree, poll?: Poll): DepthQuery {
  return new BodyDepth(a, b, poll);
}

/** Boxes of pieces to compare before polling, and how many a measurement of two pieces counts for. */
const STRETCH = 20_000;
const MEASURED = 1000;

class BodyDepth implements DepthQuery {
  private readonly a: CollisionTree;
  private readonly b: CollisionTree;
  private readonly piecesOfA: readonly ConvexPiece[] | null;
  private readonly piecesOfB: readonly ConvexPiece[] | null;
  private readonly convex = createConvexQuery();
  private readonly overlap = createConvexOverlap();
  private readonly back = new Float64Array(12);
  private sampled: SampledDepth | null = null;
  private distance: DistanceQuery | null = null;
  private readonly witness = createWitness();
  private readonly poll: Poll | undefined;
  private readonly pacer: Pacer;

  constructor(a: CollisionTree, b: CollisionTree, poll: Poll | undefined) {
    this.a = a;
    this.b = b;
    this.poll = poll;
    this.pacer = new Pacer(poll, STRETCH);
    this.piecesOfA = a.solid.convexPieces?.map(convexPieceOf) ?? null;
    this.piecesOfB = b.solid.convexPieces?.map(convexPieceOf) ?? null;
  }

  overlapDepth(relative: Pose, crosses: boolean, out: OverlapDepth): void {
    const { piecesOfA, piecesOfB } = this;
    if (piecesOfA && piecesOfB) {
      this.overPieces(piecesOfA, piecesOfB, relative, out);
      out.measure = crosses ? "convex" : "inside";
      return;
    }
    this.sampled ??= createSampledDepth([this.a], [this.b], this.a, this.b, this.poll);
    this.sampled.deepest(relative, invertPose(relative, this.back), out);
    if (out.depth_mm === 0) this.takeCrossing(relative, LEAST_SAMPLED_mm, out);
    out.measure = crosses ? "sampled" : "inside";
  }

  /** Some point where the surfaces meet, and the way out along the normal of B's surface there. */
  private takeCrossing(relative: Pose, depth_mm: number, out: OverlapDepth): void {
    const { b, witness } = this;
    this.distance ??= createDistanceQuery(this.a, b, this.poll);
    this.distance.distance(relative, witness);
    const [x, y, z] = turnByPose(relative, normalOf(b, witness.triangleB));
    out.partingOfA.set([x, y, z]);
    out.pointA.set(witness.pointA);
    out.depth_mm = depth_mm;
    for (let k = 0; k < 3; k++) out.pointB[k] = out.pointA[k]! + out.depth_mm * out.partingOfA[k]!;
  }

  private overPieces(
    piecesOfA: readonly ConvexPiece[],
    piecesOfB: readonly ConvexPiece[],
    relative: Pose,
    out: OverlapDepth,
  ): void {
    const { overlap, convex, pacer } = this;
    out.depth_mm = 0;
    let found = false;
    for (const pieceB of piecesOfB) {
      for (const pieceA of piecesOfA) {
        pacer.spend(1);
        if (!mayOverlap(pieceA, pieceB, relative)) continue;
        pacer.spend(MEASURED);
        if (!convex.penetration(pieceA, pieceB, relative, overlap, found ? out.depth_mm : 0)) continue;
        if (found && overlap.depth_mm <= out.depth_mm) continue;
        found = true;
        take(overlap, out);
      }
    }
    if (!found && !this.nearestPieces(piecesOfA, piecesOfB, relative, out)) this.takeCrossing(relative, 0, out);
  }

  /** Surfaces that only touch, to rounding: depth 0, and how to open them further. False if no two pieces are apart at all. */
  private nearestPieces(
    piecesOfA: readonly ConvexPiece[],
    piecesOfB: readonly ConvexPiece[],
    relative: Pose,
    out: OverlapDepth,
  ): boolean {
    const { overlap, convex, pacer } = this;
    let nearest = Number.POSITIVE_INFINITY;
    for (const pieceB of piecesOfB) {
      for (const pieceA of piecesOfA) {
        pacer.spend(MEASURED);
        const distance = convex.distance(pieceA, pieceB, relative, overlap);
        if (distance >= nearest || distance === 0) continue;
        nearest = distance;
        take(overlap, out);
      }
    }
    return nearest < Number.POSITIVE_INFINITY;
  }
}

function normalOf(tree: CollisionTree, triangle: number): Vec3 {
  const corner = (k: number): Vec3 => {
    const at = 9 * triangle + 3 * k;
    return [tree.triangles[at]!, tree.triangles[at + 1]!, tree.triangles[at + 2]!];
  };
  return normalise(cross(subtract(corner(1), corner(0)), subtract(corner(2), corner(0))));
}

function take(overlap: ConvexOverlap, out: OverlapDepth): void {
  out.depth_mm = overlap.depth_mm;
  out.partingOfA.set(overlap.partingOfA);
  out.pointA.set(overlap.pointA);
  out.pointB.set(overlap.pointB);
}

/** Whether B's box, turned into an upright box of A's axes, reaches A's box. */
function mayOverlap(a: ConvexPiece, b: ConvexPiece, relative: Pose): boolean {
  for (let row = 0; row < 3; row++) {
    const x = relative[4 * row]!;
    const y = relative[4 * row + 1]!;
    const z = relative[4 * row + 2]!;
    const between = x * b.centre[0]! + y * b.centre[1]! + z * b.centre[2]! + relative[4 * row + 3]! - a.centre[row]!;
    const reach = a.half[row]! + Math.abs(x) * b.half[0]! + Math.abs(y) * b.half[1]! + Math.abs(z) * b.half[2]!;
    if (Math.abs(between) > reach + 1e-9) return false;
  }
  return true;
}
