import { extentOfSolid } from "../../check/extents.ts";
import { excuser } from "../../check/plan.ts";
import { type Extent, extentOf } from "../../clearance/bound.ts";
import type { Ball } from "../../clearance/excuse.ts";
import { RIM_mm } from "../../clearance/excuseCut.ts";
import { type CollisionTree, createPointQuery, createSurfacePoint, type PointQuery } from "../../clearance/kernel.ts";
import type { JointExcuse } from "../../clearance/types.ts";
import { buildSolid } from "../../geometry/buildSolid.ts";
import { contentKey } from "../../geometry/content.ts";
import type { ShapeContext } from "../../geometry/context.ts";
import { applyPose, identityPose, invertPose, mirrorPose, type Pose } from "../../maths/pose.ts";
import { distance, scale, type Vec3 } from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { leafOf, shapesByName } from "./leaves.ts";
import { contextOf, mirroredPiece, type Piece, type PieceSolid, writeFollow } from "./pieces.ts";

/** One place of the points: what is drawn for it, and where joints excuse surface. */
export class DrawnPlace {
  private readonly shapes = new Map<Side, ReturnType<typeof shapesByName>>();
  private readonly excusers = new Map<Side, ReturnType<typeof excuser>>();
  private readonly solids = new Map<string, PieceSolid>();
  private readonly scene: Scene;

  constructor(scene: Scene) {
    this.scene = scene;
  }

  /** The shape of a piece that follows; null for others. */
  shapeOf({ follow, side }: Piece) {
    if (!follow) return null;
    let shapes = this.shapes.get(side);
    if (!shapes) {
      shapes = shapesByName(this.scene, side);
      this.shapes.set(side, shapes);
    }
    const shape = shapes.get(follow.name);
    if (!shape) throw new Error(`nothing is drawn as ${follow.name}`);
    const leaf = leafOf(shape, follow, this.scene.tessellation_mm);
    if (!leaf) {
      const wrong = "the bends of a tube leave no straight between them";
      throw new InputError("wrong-value", { path: follow.name }, wrong, "longer legs or a smaller bend_mm");
    }
    return leaf;
  }

  /** A piece that is drawn anew; what is alike on both sides is drawn once. */
  solidOf(piece: Piece, context: ShapeContext): PieceSolid {
    const shape = this.shapeOf(piece)!;
    const own = contextOf(piece.follow, context);
    const content = contentKey(shape, own);
    const drawn = this.solids.get(content) ?? { content, solid: buildSolid(shape, own) };
    this.solids.set(content, drawn);
    return piece.isMirrored ? mirroredPiece(drawn) : drawn;
  }

  /** From where a piece is drawn for the points as they are to where it would be drawn here, car axes of its side. */
  writeFollow(piece: Piece, out: Pose): void {
    if (piece.follow) writeFollow(piece.follow, this.shapeOf(piece)!, out);
    else out.set(identityPose());
    if (piece.isMirrored) mirrorPose(out, out);
  }

  excusesOf(side: Side, first: string, second: string): JointExcuse[] {
    let excuses = this.excusers.get(side);
    if (!excuses) {
      excuses = excuser(this.scene, side);
      this.excusers.set(side, excuses);
    }
    return excuses(first, second);
  }

  /** The balls of a pair of pieces, each in the piece's own axes. */
  ballsOf(side: Side, a: Piece, b: Piece): { readonly ofA: Ball[]; readonly ofB: Ball[] } {
    const excuses = this.excusesOf(side, a.mount, b.mount);
    if (excuses.length === 0) return { ofA: [], ofB: [] };
    const own = (piece: Piece, centre: "centreInA" | "centreInB"): Ball[] => {
      const pose = identityPose();
      this.writeFollow(piece, pose);
      const back = invertPose(pose);
      return excuses.map((excuse) => ({ centre: applyPose(back, excuse[centre]), radius_mm: excuse.radius_mm }));
    };
    return { ofA: own(a, "centreInA"), ofB: own(b, "centreInB") };
  }
}

/** What joints excuse of a pair of pieces, of all places at once. */
export interface SteadyExcuses {
  /** Wherever the points are. */
  readonly excuses: readonly JointExcuse[];
  /** Whether that is all they excuse; otherwise they excuse more, other surface in other places. */
  readonly isAll: boolean;
  /** More than in any place; null where that is not known of a piece that is drawn anew. */
  readonly ample: readonly JointExcuse[] | null;
}

/** A ball there touches nothing. */
const NOWHERE: Vec3 = [1e7, 1e7, 1e7];
/** A centre that strays no farther stays, mm. */
const STAYS_mm = 1e-7;
/** Between the places looked at a centre may stray a little farther: most go straight, ends of bars on an arc. */
const ARC = 1.05;

/**
 * Of every ball the part that it has in all places, about the middle of its centres; balls that reach no surface in any of them do
 * not matter. Less surface is excused than in any one place, so clearances are never told too large; `ample` excuses more than any
 * one place, so that clearances are never told too small.
 */
export function steadyExcuses(
  side: Side,
  a: Piece,
  b: Piece,
  places: readonly DrawnPlace[],
  treeOf: (piece: Piece) => CollisionTree,
): SteadyExcuses {
  const balls = places.map((place) => place.ballsOf(side, a, b));
  const ofA = steadyBalls(
    a,
    balls.map((each) => each.ofA),
    treeOf,
  );
  const ofB = steadyBalls(
    b,
    balls.map((each) => each.ofB),
    treeOf,
  );
  const isRedrawn = [a, b].some(({ follow }) => follow?.held === "redraw");
  return {
    excuses: excusesOf(ofA.balls, ofB.balls),
    isAll: ofA.isAll && ofB.isAll,
    ample: isRedrawn ? null : excusesOf(ofA.ample, ofB.ample),
  };
}

function excusesOf(ofA: readonly Ball[], ofB: readonly Ball[]): JointExcuse[] {
  return [
    ...ofA.map(({ centre, radius_mm }) => ({ centreInA: centre, centreInB: NOWHERE, radius_mm })),
    ...ofB.map(({ centre, radius_mm }) => ({ centreInA: NOWHERE, centreInB: centre, radius_mm })),
  ];
}

function steadyBalls(
  piece: Piece,
  places: readonly (readonly Ball[])[],
  treeOf: (piece: Piece) => CollisionTree,
): { balls: Ball[]; ample: Ball[]; isAll: boolean } {
  const balls: Ball[] = [];
  const ample: Ball[] = [];
  let isAll = true;
  const isRedrawn = piece.follow?.held === "redraw";
  const box = isRedrawn ? piece.follow!.within : extentOfSolid(piece.body.solid);
  for (const [i, ball] of (places[0] ?? []).entries()) {
    const centres = places.map((each) => each[i]!.centre);
    const { radius_mm } = ball;
    const strays = Math.max(...centres.map((centre) => distance(centre, ball.centre)));
    if (box && boxGap(box, centres) > radius_mm + ARC) continue;
    if (strays <= STAYS_mm) {
      balls.push(ball);
      ample.push({ ...ball, radius_mm: radius_mm + RIM_mm });
      continue;
    }
    if (!isRedrawn && !mayReach(createPointQuery(treeOf(piece)), extentOf(centres.flat()), radius_mm, ARC)) continue;
    isAll = false;
    const centre = scale(
      centres.reduce<Vec3>((sum, each) => [sum[0] + each[0], sum[1] + each[1], sum[2] + each[2]], [0, 0, 0]),
      1 / centres.length,
    );
    const strays_mm = ARC * Math.max(...centres.map((each) => distance(each, centre)));
    ample.push({ centre, radius_mm: radius_mm + strays_mm + RIM_mm });
    if (radius_mm > strays_mm && !isRedrawn) balls.push({ centre, radius_mm: radius_mm - strays_mm });
  }
  return { balls, ample, isAll };
}

/** A ball whose centre is known no better than this is taken to reach the surface, mm. */
const FINEST_mm = 1;

/** Whether a ball of that radius reaches the surface from any centre in the box, or comes within `spare_mm` of it. */
function mayReach(points: PointQuery, box: Extent, radius_mm: number, spare_mm: number): boolean {
  const [x, y, z] = [0, 1, 2].map((k) => (box[k]! + box[k + 3]!) / 2) as [number, number, number];
  const around_mm = Math.hypot(...[0, 1, 2].map((k) => (box[k + 3]! - box[k]!) / 2));
  const nearest = createSurfacePoint();
  if (!points.nearest(x, y, z, radius_mm + spare_mm + around_mm, nearest)) return false;
  if (nearest.distance_mm < radius_mm + spare_mm || around_mm < FINEST_mm) return true;
  const widest = [0, 1, 2].reduce((best, k) => (box[k + 3]! - box[k]! > box[best + 3]! - box[best]! ? k : best), 0);
  return [0, 3].some((end) => {
    const half = box.slice();
    half[widest + 3 - end] = [x, y, z][widest]!;
    return mayReach(points, half, radius_mm, spare_mm);
  });
}

/** Of a box from the box of points. */
function boxGap(box: Extent, points: readonly Vec3[]): number {
  let squared = 0;
  for (let axis = 0; axis < 3; axis++) {
    const values = points.map((point) => point[axis]!);
    squared += Math.max(0, box[axis]! - Math.max(...values), Math.min(...values) - box[axis + 3]!) ** 2;
  }
  return Math.sqrt(squared);
}
