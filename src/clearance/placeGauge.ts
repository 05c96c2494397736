import { invertPose, POSE_SIZE, type Pose } from "../maths/pose.ts";
import {
  type CollisionTree,
  type ContainmentQuery,
  createContainmentQuery,
  createDepthQuery,
  createDistanceQuery,
  createInsideQuery,
  createOverlapDepth,
  createPointQuery,
  createSampledDepth,
  createSurfacePoint,
  createWitness,
  type DepthQuery,
  type InsideQuery,
  type Leeway,
  type PointQuery,
  type Witness,
} from "./kernel.ts";
import { createSurfaceDistance, type Surface, triangleCountOf } from "./surface.ts";
import type { ClippedBody } from "./sweepShelf.ts";

/** What one look at one pair in one state told. Belongs to the caller, who hands it in again. */
export interface PlaceLook {
  /** Signed clearance, if it was measured; NaN if not, and only its bounds are known. */
  clearance_mm: number;
  /** The true signed clearance lies between these; they differ where it was not measured or a depth is not exact. */
  least_mm: number;
  most_mm: number;
  /** The bodies are apart; neither gets into the other before the relative pose has moved some point by this, mm. */
  apartFor_mm: number;
  /** That holds for the whole bodies, whatever joints excuse of them. */
  ofWhole: boolean;
}

/** Measures one pair, no farther than is asked, at one relative pose after another; it remembers nothing from one to the next. */
export interface PlaceGauge {
  /**
   * Whether a change of every gap by no more than d changes the signed clearance by no more than d. Not so where a joint
   * excuses surface: what counts may get in through what does not, and is then deep at once.
   */
  readonly isSteady: boolean;
  /**
   * The signed clearance (distance of the surfaces; while the bodies overlap, minus the depth) if it is below
   * `wanted.below_mm`; if not, a lower bound of it, more or less as far above that as `wanted.ahead_mm`. `witness` is the
   * hint and takes the nearest triangles. `apartFor_mm` above 0: the caller knows that the bodies are apart, unless their
   * surfaces cross, and for how much longer.
   */
  look(relative: Pose, witness: Witness, wanted: Wanted, apartFor_mm: number, out: PlaceLook): void;
  /** Makes what it measures with, if that is not made yet: before a look, as triangles of a hint may be numbered otherwise then. */
  ready(): void;
  /** What is told of the next poses does not hang on those before. */
  forget(): void;
}

/** How closely a clearance is to be measured. */
export interface Wanted {
  /** 0 or more. */
  below_mm: number;
  ahead_mm: number;
  /** False: how deep two bodies overlap does not matter, only that they do. */
  depth: boolean;
}

export function createPlaceLook(): PlaceLook {
  return { clearance_mm: 0, least_mm: 0, most_mm: 0, apartFor_mm: 0, ofWhole: false };
}

/** Null where there is nothing to measure: one of the two has no surface that counts. */
export function createPlaceGauge(a: ClippedBody, b: ClippedBody): PlaceGauge | null {
  if (triangleCountOf(a.counted) === 0 || triangleCountOf(b.counted) === 0) return null;
  return a.farthest === null && b.farthest === null
    ? new WholeGauge(a.whole.tree, b.whole.tree)
    : new ExcusedGauge(a, b);
}

/**
 * Of two bodies that share a joint, whose surface that counts is cut out only where they come near each other at all: while
 * the whole bodies are apart, what counts of them is no nearer.
 */
export function createGuardedGauge(a: CollisionTree, b: CollisionTree, cut: () => PlaceGauge | null): PlaceGauge {
  return new GuardedGauge(new WholeGauge(a, b), cut);
}

/** One that is made once it is asked: of the pairs of a body that is drawn anew most are too far apart to be measured. */
export function createDeferredGauge(isSteady: boolean, make: () => PlaceGauge | null): PlaceGauge {
  return new DeferredGauge(isSteady, make);
}

/** Of a distance above what matters so much is given up, which saves most of the work of finding it. */
const AHEAD_SHARE = 0.5;
/** So far a distance is looked for, in what it is measured ahead. */
const AHEAD_REACH = 4;
/** Depth over convex pieces is known to this share of it, and to so many mm (convex.ts). */
const CONVEX_SHARE = 1e-6;
const CONVEX_mm = 1e-7;
/** What a sampled depth may fall short of the deepest point (depthDeepest.ts). */
const SAMPLED_SHARE = 0.1;
const SAMPLED_LEAST_mm = 0.05;
const SAMPLED_MOST_mm = 1.15;
/** What a crossing counts of which no sample is inside, mm (depth.ts). */
const UNSAMPLED_mm = 0.01;

class WholeGauge implements PlaceGauge {
  readonly isSteady = true;
  private readonly a: CollisionTree;
  private readonly b: CollisionTree;
  private readonly distance;
  private readonly leeway: Leeway = { floor_mm: 0, share: AHEAD_SHARE };
  private readonly sampled: boolean;
  // most pairs are known to be apart, and never overlap
  private containment: ContainmentQuery | null = null;
  private depth: DepthQuery | null = null;
  private readonly overlap = createOverlapDepth();

  constructor(a: CollisionTree, b: CollisionTree) {
    this.a = a;
    this.b = b;
    this.distance = createDistanceQuery(a, b);
    this.sampled = a.solid.convexPieces === null || b.solid.convexPieces === null;
  }

  look(relative: Pose, witness: Witness, wanted: Wanted, apartFor_mm: number, out: PlaceLook): void {
    this.leeway.floor_mm = wanted.below_mm;
    const reach = wanted.below_mm + AHEAD_REACH * wanted.ahead_mm;
    const found = this.distance.distance(relative, witness, reach, this.leeway);
    const crosses = found && witness.distance_mm <= 0;
    if (!crosses && (apartFor_mm > 0 || this.areOutside(relative))) {
      tellApart(witness, wanted, found, out);
      out.apartFor_mm = out.least_mm;
      return;
    }
    if (!wanted.depth) {
      tellUndepthed(out);
      return;
    }
    if (this.sampled) {
      tellSampled(sampledDepth([this.a], [this.b], this.a, this.b, relative), out);
      return;
    }
    this.depth ??= createDepthQuery(this.a, this.b);
    this.depth.overlapDepth(relative, crosses, this.overlap);
    const { depth_mm } = this.overlap;
    tellOverlap(depth_mm, depth_mm * CONVEX_SHARE + CONVEX_mm, out);
  }

  private areOutside(relative: Pose): boolean {
    this.containment ??= createContainmentQuery(this.a, this.b);
    return this.containment.containment(relative) === "none";
  }

  ready(): void {}

  forget(): void {}
}

/** Stands for no distance at all: nothing of the one body counts, mm. */
const NOWHERE_NEAR_mm = 1e9;

class GuardedGauge implements PlaceGauge {
  readonly isSteady = false;
  private readonly whole: WholeGauge;
  private readonly counted: PlaceGauge;
  private isNear = false;
  private readonly witness = createWitness();
  private readonly wanted: Wanted = { below_mm: 0, ahead_mm: 0, depth: false };

  constructor(whole: WholeGauge, cut: () => PlaceGauge | null) {
    this.whole = whole;
    this.counted = new DeferredGauge(false, cut);
  }

  look(relative: Pose, witness: Witness, wanted: Wanted, apartFor_mm: number, out: PlaceLook): void {
    out.ofWhole = !this.isNear && this.areApart(relative, wanted, out);
    if (out.ofWhole) return;
    this.isNear = true;
    this.counted.look(relative, witness, wanted, apartFor_mm, out);
  }

  private areApart(relative: Pose, { below_mm, ahead_mm }: Wanted, out: PlaceLook): boolean {
    const { witness, wanted } = this;
    wanted.below_mm = below_mm;
    wanted.ahead_mm = ahead_mm;
    witness.triangleA = -1;
    witness.triangleB = -1;
    witness.direction.fill(0);
    this.whole.look(relative, witness, wanted, 0, out);
    if (!Number.isNaN(out.clearance_mm) || !(out.least_mm > 0)) return false;
    // what counts may be farther away than the whole
    out.most_mm = Number.POSITIVE_INFINITY;
    return true;
  }

  ready(): void {}

  forget(): void {
    this.isNear = false;
  }
}

class DeferredGauge implements PlaceGauge {
  readonly isSteady: boolean;
  private readonly make: () => PlaceGauge | null;
  /** Undefined: not made yet. */
  private made: PlaceGauge | null | undefined;

  constructor(isSteady: boolean, make: () => PlaceGauge | null) {
    this.isSteady = isSteady;
    this.make = make;
  }

  ready(): void {
    if (this.made === undefined) this.made = this.make();
  }

  look(relative: Pose, witness: Witness, wanted: Wanted, apartFor_mm: number, out: PlaceLook): void {
    this.ready();
    if (this.made) this.made.look(relative, witness, wanted, apartFor_mm, out);
    else tellNothingNear(out);
  }

  forget(): void {
    this.made?.forget();
  }
}

/** Bodies that share a joint, as pairStateExcused.ts has it. */
class ExcusedGauge implements PlaceGauge {
  readonly isSteady = false;
  private readonly a: ClippedBody;
  private readonly b: ClippedBody;
  private readonly distance;
  private readonly leeway: Leeway = { floor_mm: 0, share: AHEAD_SHARE };
  private readonly ofAInB: CornersInside;
  private readonly ofBInA: CornersInside;
  private readonly inverse = new Float64Array(POSE_SIZE);

  constructor(a: ClippedBody, b: ClippedBody) {
    this.a = a;
    this.b = b;
    this.distance = createSurfaceDistance(a.counted, b.counted);
    this.ofAInB = new CornersInside(a, b.whole.tree);
    this.ofBInA = new CornersInside(b, a.whole.tree);
  }

  look(relative: Pose, witness: Witness, wanted: Wanted, apartFor_mm: number, out: PlaceLook): void {
    this.leeway.floor_mm = wanted.below_mm;
    const reach = wanted.below_mm + AHEAD_REACH * wanted.ahead_mm;
    const found = this.distance.distance(relative, witness, reach, this.leeway);
    let apart = !(found && witness.distance_mm <= 0);
    let apartFor = apartFor_mm;
    if (apart && !(apartFor > 0)) {
      invertPose(relative, this.inverse);
      apartFor = Math.min(this.ofAInB.clearOf(this.inverse), this.ofBInA.clearOf(relative));
      apart = apartFor >= 0;
    }
    if (apart) {
      tellApart(witness, wanted, found, out);
      out.apartFor_mm = apartFor;
      return;
    }
    if (!wanted.depth) {
      tellUndepthed(out);
      return;
    }
    const { a, b } = this;
    tellSampled(sampledDepth(a.counted, b.counted, a.whole.tree, b.whole.tree, relative), out);
  }

  ready(): void {}

  forget(): void {}
}

/** One corner of each connected piece of the surface of a body that counts, against another body's whole solid. */
class CornersInside {
  private readonly corners: Float64Array;
  private readonly inside: InsideQuery;
  private readonly points: PointQuery;
  private readonly nearest = createSurfacePoint();

  constructor({ farthest, whole }: ClippedBody, other: CollisionTree) {
    this.corners = farthest ?? firstCorners(whole.tree);
    this.inside = createInsideQuery(other);
    this.points = createPointQuery(other);
  }

  /** Distance of the nearest of them to the other's surface; −1 if any is inside. */
  clearOf(pose: Pose): number {
    const { corners, nearest } = this;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < corners.length; i += 3) {
      const px = corners[i]!;
      const py = corners[i + 1]!;
      const pz = corners[i + 2]!;
      const x = pose[0]! * px + pose[1]! * py + pose[2]! * pz + pose[3]!;
      const y = pose[4]! * px + pose[5]! * py + pose[6]! * pz + pose[7]!;
      const z = pose[8]! * px + pose[9]! * py + pose[10]! * pz + pose[11]!;
      if (this.inside.isInside(x, y, z)) return -1;
      if (this.points.nearest(x, y, z, least, nearest)) least = nearest.distance_mm;
    }
    return least;
  }
}

function firstCorners({ solid }: CollisionTree): Float64Array {
  const { positions, indices } = solid;
  const shells = solid.shells.filter(({ triangleCount }) => triangleCount > 0);
  const corners = new Float64Array(3 * shells.length);
  shells.forEach(({ firstTriangle }, shell) => {
    const vertex = indices[3 * firstTriangle]!;
    for (let k = 0; k < 3; k++) corners[3 * shell + k] = positions[3 * vertex + k]!;
  });
  return corners;
}

/** A search made anew each time: one that starts where it was deepest last tells a little more or less, by what it saw before. */
function sampledDepth(
  surfaceA: Surface,
  surfaceB: Surface,
  bodyA: CollisionTree,
  bodyB: CollisionTree,
  relative: Pose,
): number {
  const overlap = createOverlapDepth();
  createSampledDepth(surfaceA, surfaceB, bodyA, bodyB).deepest(relative, invertPose(relative), overlap);
  return overlap.depth_mm > 0 ? overlap.depth_mm : UNSAMPLED_mm;
}

function tellApart({ distance_mm, least_mm }: Witness, { below_mm }: Wanted, found: boolean, out: PlaceLook): void {
  out.clearance_mm = found && distance_mm <= below_mm ? distance_mm : Number.NaN;
  out.least_mm = least_mm;
  out.most_mm = found ? distance_mm : Number.POSITIVE_INFINITY;
}

function tellNothingNear(out: PlaceLook): void {
  out.clearance_mm = Number.NaN;
  out.least_mm = NOWHERE_NEAR_mm;
  out.most_mm = Number.POSITIVE_INFINITY;
  out.apartFor_mm = NOWHERE_NEAR_mm;
}

function tellUndepthed(out: PlaceLook): void {
  out.clearance_mm = Number.NaN;
  out.least_mm = Number.NEGATIVE_INFINITY;
  out.most_mm = 0;
  out.apartFor_mm = 0;
}

function tellSampled(depth_mm: number, out: PlaceLook): void {
  tellOverlap(depth_mm, Math.min(SAMPLED_MOST_mm, Math.max(SAMPLED_LEAST_mm, SAMPLED_SHARE * depth_mm)), out);
}

function tellOverlap(depth_mm: number, short_mm: number, out: PlaceLook): void {
  // −0 would read as a sign
  out.clearance_mm = depth_mm > 0 ? -depth_mm : 0;
  out.least_mm = out.clearance_mm - short_mm;
  out.most_mm = out.clearance_mm;
  out.apartFor_mm = 0;
}
