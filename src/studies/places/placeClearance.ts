import type { PreparedCheck } from "../../check/check.ts";
import type { ModelBody } from "../../check/model.ts";
import type { PlannedPair } from "../../check/plan.ts";
import { isMovedByPose } from "../../check/tracks.ts";
import { createWitness } from "../../clearance/kernel.ts";
import { createPlaceGauge, createPlaceLook } from "../../clearance/placeGauge.ts";
import {
  type CarriedBody,
  type PlacePoses,
  PlaceSearch,
  type SearchedPair,
  shelfOfDrawings,
} from "../../clearance/placeSearch.ts";
import { TreeShelf } from "../../clearance/sweepShelf.ts";
import type { SweepBody } from "../../clearance/types.ts";
import type { ShapeContext } from "../../geometry/context.ts";
import type { Solid } from "../../geometry/solid.ts";
import { composePoses, identityPose, invertPose, POSE_SIZE, type Pose, poseOfTrack } from "../../maths/pose.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { leavesOf, shapesByName } from "./leaves.ts";
import { type Piece, splitBody, wholePiece } from "./pieces.ts";
import { isSolved, MountFrames, type PlaceCorner, type SolvedPlace, type Unsolved } from "./placeCorner.ts";
import { DrawnPlace, steadyExcuses } from "./placeJoints.ts";
import { pairsThatMove } from "./placePairs.ts";

/** What is asked of a place. */
export interface MarginLimits {
  /** Margins of this and more are not told apart. */
  readonly below_mm: number;
  /** Margins of this and less are not told apart: the first pair that has one ends the search. */
  readonly above_mm: number;
}

/** The worst pair of a place: clearance less what is required. −1: none below the limit. */
export interface PlaceMargin {
  readonly margin_mm: number;
  readonly pair: number;
  readonly state: number;
}

export interface PlaceScenes {
  /** The whole scene with the points as they are. */
  readonly prepared: PreparedCheck;
  readonly meshFiles: ReadonlyMap<string, Solid>;
  /** Of the parts that follow the points: as they are, then at places that have all others between them. */
  readonly places: readonly Scene[];
  /** The corner as it is and with the points a little elsewhere, which shows what moves; null: all is taken to move. */
  readonly solved: SolvedPlace | Unsolved;
  readonly elsewhere: SolvedPlace | Unsolved;
  readonly leaveOut: readonly string[];
  /** Trees that are made already; what is made further is put there. */
  readonly trees?: TreeShelf | undefined;
}

/** A pair of pieces, and the number of the pair of bodies that they belong to. */
interface PiecePair {
  readonly of: number;
  readonly a: Piece;
  readonly b: Piece;
  readonly side: Side;
  readonly searched: SearchedPair;
  /** What joints excuse in no place more than; null: not known. */
  readonly ample: SearchedPair["excuses"] | null;
}

/**
 * The clearances of all pairs that hang on some hard points, for one place after another, at the travels and powertrain poses of a
 * PlaceCorner, by the definitions of the check. Nothing is proved between those states.
 */
export class PlaceClearance {
  /** The pairs of bodies that are asked. */
  readonly pairs: readonly PlannedPair[];
  private readonly corner: PlaceCorner;
  private readonly context: ShapeContext;
  private readonly pieces: readonly Piece[];
  private readonly mounts: MountFrames;
  private readonly frames = new Map<Piece, number>();
  private readonly following: readonly Piece[];
  private readonly redrawn: readonly Piece[];
  private readonly frameCount: number;
  private readonly poses: Float64Array;
  /** Pairs of which joints excuse the same surface in every place, and the others with what they excuse in all of them. */
  private readonly steady: readonly PiecePair[];
  private readonly loose: readonly PiecePair[];
  private readonly steadySearch: PlaceSearch;
  private readonly looseSearch: PlaceSearch;
  private readonly looseMargins: Float64Array;
  private readonly searchOf: (pairs: readonly PiecePair[], searched?: readonly SearchedPair[]) => PlaceSearch;
  /** Of loose pairs with more excused than in any place, made once asked: what refuses a place by that refuses it. */
  private readonly ampleSearches = new Map<PiecePair, PlaceSearch>();
  /** The loose pair that refused the last place, which likely refuses the next one too; −1: none did. */
  private refusing = -1;
  /** Also of what joints excuse in one place: each clipping is used in that place alone. */
  private readonly drawings = shelfOfDrawings();
  private readonly drawn = new Map<string, SweepBody>();

  constructor(corner: PlaceCorner, scenes: PlaceScenes) {
    const { prepared, meshFiles, solved } = scenes;
    const { scene } = prepared;
    if (!isSolved(solved)) throw new Error("the corner as it is has to be solved first");
    this.corner = corner;
    this.context = { tessellation_mm: scene.tessellation_mm, wheel: scene.wheel, meshFiles };
    this.mounts = new MountFrames(solved);
    const split = splitBodies(scenes, this.context);
    const touched = this.touchedMounts(scenes);
    const moves = (body: ModelBody): boolean =>
      touched.has(mountKey(body.mount, sideOf(body, scene))) || split.get(body.key)!.some(({ follow }) => follow);
    this.pairs = pairsThatMove(prepared, moves, scenes.leaveOut);
    const shelf = scenes.trees ?? new TreeShelf();
    const treeOf = ({ body }: Piece) => shelf.prepare(body).tree;
    const drawnPlaces = scenes.places.map((each) => new DrawnPlace(each));
    const steady: PiecePair[] = [];
    const loose: PiecePair[] = [];
    for (const [of, planned] of this.pairs.entries()) {
      const side = planned.side === "both" ? scene.sides[0]! : planned.side;
      for (const a of split.get(planned.first.key)!) {
        for (const b of split.get(planned.second.key)!) {
          const { excuses, isAll, ample } = steadyExcuses(side, a, b, drawnPlaces, treeOf);
          const { required_mm } = planned.sweep;
          const until =
            isMovedByPose(planned.first.mount) || isMovedByPose(planned.second.mount)
              ? corner.states.length
              : corner.restCount;
          const searched = { a: a.body.key, b: b.body.key, required_mm, excuses, until };
          (isAll ? steady : loose).push({ of, a, b, side, searched, ample });
        }
      }
    }
    this.steady = steady;
    this.loose = loose;
    this.pieces = [...new Set([...steady, ...loose].flatMap(({ a, b }) => [a, b]))];
    this.following = this.pieces.filter(({ follow }) => follow !== null && follow.held !== "redraw");
    this.redrawn = this.pieces.filter(({ follow }) => follow?.held === "redraw");
    for (const [i, piece] of this.following.entries()) this.frames.set(piece, this.mounts.count + i);
    this.frameCount = this.mounts.count + this.following.length;
    this.poses = new Float64Array(POSE_SIZE * this.frameCount * corner.states.length);
    const alike = Int32Array.from(corner.states, ({ travel }) =>
      corner.states.findIndex((one) => one.travel === travel),
    );
    this.searchOf = (pairs, searched = pairs.map((pair) => pair.searched)) => {
      const used = new Set(pairs.flatMap(({ a, b }) => [a, b]));
      const bodies = [...used].map((piece): CarriedBody => ({ body: piece.body, frame: this.frameOf(piece) }));
      return new PlaceSearch(shelf, bodies, searched, this.frameCount, alike, this.drawings);
    };
    this.steadySearch = this.searchOf(steady);
    this.looseSearch = this.searchOf(loose);
    this.looseMargins = new Float64Array(loose.length);
  }

  /** What is told of the next places does not hang on those before, to the last bit. */
  forget(): void {
    this.refusing = -1;
    this.steadySearch.forget();
    this.looseSearch.forget();
    for (const search of this.ampleSearches.values()) search.forget();
  }

  /** The worst pair with the points in a place that was solved just now. */
  worst(solved: SolvedPlace, { below_mm, above_mm }: MarginLimits): PlaceMargin {
    const drawn = new DrawnPlace(solved.scene);
    const place = this.goTo(solved, drawn);
    let worst: PlaceMargin = { margin_mm: below_mm, pair: -1, state: -1 };
    const { refusing } = this;
    this.refusing = -1;
    if (refusing >= 0) {
      const loose = this.loose[refusing]!;
      const exact = this.looseMargin(loose, place, drawn, { below_mm, above_mm });
      if (exact) worst = { ...exact, pair: loose.of };
      if (worst.margin_mm <= above_mm) {
        this.refusing = refusing;
        return worst;
      }
    }
    const { margin_mm, pair, state } = this.steadySearch.worst(place, { below_mm: worst.margin_mm, above_mm });
    if (pair >= 0) worst = { margin_mm, pair: this.steady[pair]!.of, state };
    if (worst.margin_mm <= above_mm) return worst;
    const asked_mm = worst.margin_mm;
    this.askLoose(place, asked_mm);
    for (const [i, loose] of this.loose.entries()) {
      if (i === refusing || !(this.looseMargins[i]! < asked_mm)) continue;
      const exact = this.looseMargin(loose, place, drawn, { below_mm: worst.margin_mm, above_mm });
      if (exact && exact.margin_mm < worst.margin_mm) worst = { ...exact, pair: loose.of };
      if (worst.margin_mm <= above_mm) {
        this.refusing = i;
        return worst;
      }
    }
    return worst;
  }

  /** Writes the margin of every pair of `pairs`; `below_mm` means that or more. */
  every(solved: SolvedPlace, out: Float64Array, below_mm: number): void {
    const drawn = new DrawnPlace(solved.scene);
    const place = this.goTo(solved, drawn);
    out.fill(below_mm);
    const margins = new Float64Array(this.steady.length);
    this.steadySearch.everyMargin(place, margins, { below_mm });
    for (const [i, { of }] of this.steady.entries()) out[of] = Math.min(out[of]!, margins[i]!);
    this.askLoose(place, below_mm);
    for (const [i, loose] of this.loose.entries()) {
      if (!(this.looseMargins[i]! < below_mm)) continue;
      const exact = this.exactMargin(loose, drawn, { below_mm: out[loose.of]!, above_mm: Number.NEGATIVE_INFINITY });
      if (exact) out[loose.of] = Math.min(out[loose.of]!, exact.margin_mm);
    }
  }

  /** Whether a pair can be below that is all that is asked where more may be excused: some upper bound tells it. */
  private askLoose(place: PlacePoses, below_mm: number): void {
    this.looseSearch.everyMargin(place, this.looseMargins, { below_mm, above_mm: below_mm - JUST_mm });
  }

  /** As exactMargin, but that a pair which is bad enough with more excused than in any place is not cut anew. */
  private looseMargin(
    loose: PiecePair,
    place: PlacePoses,
    drawn: DrawnPlace,
    limits: MarginLimits,
  ): { margin_mm: number; state: number } | null {
    const { ample } = loose;
    if (ample && limits.above_mm > Number.NEGATIVE_INFINITY) {
      const search = this.ampleSearches.get(loose) ?? this.searchOf([loose], [{ ...loose.searched, excuses: ample }]);
      this.ampleSearches.set(loose, search);
      const { margin_mm, pair, state } = search.worst(place, limits);
      if (pair >= 0 && margin_mm <= limits.above_mm) return { margin_mm, state };
    }
    return this.exactMargin(loose, drawn, limits);
  }

  /** Measured with what joints excuse in this very place, to the first state that is bad enough. Null: nothing below the limit. */
  private exactMargin(
    { a, b, side, searched }: PiecePair,
    drawn: DrawnPlace,
    { below_mm, above_mm }: MarginLimits,
  ): { margin_mm: number; state: number } | null {
    const { ofA, ofB } = drawn.ballsOf(side, a, b);
    const bodyOf = (piece: Piece) => this.drawn.get(piece.body.key) ?? piece.body;
    const gauge = createPlaceGauge(this.drawings.clip(bodyOf(a), ofA), this.drawings.clip(bodyOf(b), ofB));
    if (!gauge) return null;
    const { required_mm, until = this.corner.states.length } = searched;
    const look = createPlaceLook();
    const witness = createWitness();
    let found: { margin_mm: number; state: number } | null = null;
    let below = below_mm + required_mm;
    const enough = above_mm + required_mm;
    const depth = enough < 0;
    for (let state = 0; state < until && !(below <= enough); state++) {
      const relative = composePoses(invertPose(this.poseAt(a, state)), this.poseAt(b, state));
      gauge.look(relative, witness, { below_mm: Math.max(0, below), ahead_mm: 0, depth }, 0, look);
      const clearance = Number.isNaN(look.clearance_mm) ? look.most_mm : look.clearance_mm;
      if (!(clearance < below)) continue;
      below = clearance;
      found = { margin_mm: clearance - required_mm, state };
    }
    return found;
  }

  private poseAt(piece: Piece, state: number): Pose {
    const frame = this.frameOf(piece);
    return frame === null ? identityPose() : poseOfTrack(this.poses, state * this.frameCount + frame);
  }

  private frameOf(piece: Piece): number | null {
    return this.frames.get(piece) ?? this.mounts.frameOf(piece.mount, piece.side);
  }

  /** Puts every frame in place and draws anew what has to be. */
  private goTo(solved: SolvedPlace, drawn: DrawnPlace): PlacePoses {
    const { poses, frameCount, corner } = this;
    const { states } = corner;
    this.mounts.write(solved, states, frameCount, poses);
    const follow = identityPose();
    for (const piece of this.following) {
      drawn.writeFollow(piece, follow);
      const frame = this.frames.get(piece)!;
      const mount = this.mounts.frameOf(piece.mount, piece.side);
      for (let state = 0; state < states.length; state++) {
        const at = POSE_SIZE * (state * frameCount + frame);
        if (mount === null) poses.set(follow, at);
        else writeComposed(poses, POSE_SIZE * (state * frameCount + mount), follow, at);
      }
    }
    for (const piece of this.redrawn) {
      const { key } = piece.body;
      const body = { key, ...drawn.solidOf(piece, this.context) };
      this.drawn.set(key, body);
      for (const search of [this.steadySearch, this.looseSearch]) if (search.has(key)) search.redraw(body);
    }
    return { poses, first: 0, end: states.length };
  }

  /** Mounts that are elsewhere, at some state, once the points are. */
  private touchedMounts({ solved, elsewhere, prepared }: PlaceScenes): Set<string> {
    const { order, count } = this.mounts;
    const { states } = this.corner;
    const { sides } = prepared.scene;
    const all = sides.flatMap((side) => order.map((mount) => mountKey(mount, side)));
    if (!isSolved(solved) || !isSolved(elsewhere)) return new Set(all);
    const [before, after] = [solved, elsewhere].map((place) => {
      const poses = new Float64Array(POSE_SIZE * count * states.length);
      this.mounts.write(place, states, count, poses);
      return poses;
    }) as [Float64Array, Float64Array];
    return new Set(
      all.filter((_, mount) => {
        for (let state = 0; state < states.length; state++) {
          const at = POSE_SIZE * (state * count + mount);
          for (let k = at; k < at + POSE_SIZE; k++) if (Math.abs(before[k]! - after[k]!) > SAME_POSE) return true;
        }
        return false;
      }),
    );
  }
}

/** Of one track: the pose that follows within the one at `from`, at `to`. */
function writeComposed(poses: Float64Array, from: number, follow: Pose, to: number): void {
  for (let row = 0; row < POSE_SIZE; row += 4) {
    const x = poses[from + row]!;
    const y = poses[from + row + 1]!;
    const z = poses[from + row + 2]!;
    for (let column = 0; column < 4; column++) {
      poses[to + row + column] = x * follow[column]! + y * follow[4 + column]! + z * follow[8 + column]!;
    }
    poses[to + row + 3]! += poses[from + row + 3]!;
  }
}

/** Margins are not told apart more finely. */
const JUST_mm = 1e-9;
/** Rounding of a solved pose: what the solver promises is 1e-9 mm. */
const SAME_POSE = 1e-8;

function mountKey(mount: string, side: Side): string {
  return `${mount}@${side}`;
}

function sideOf({ side }: ModelBody, scene: Scene): Side {
  return side === "both" ? scene.sides[0]! : side;
}

/** Every body in pieces, by its key. */
function splitBodies({ prepared, places }: PlaceScenes, context: ShapeContext): Map<string, Piece[]> {
  const { bodies, scene } = prepared;
  const shapes = new Map(scene.sides.map((side) => [side, places.map((place) => shapesByName(place, side))]));
  return new Map(
    bodies.map((body) => {
      const side = sideOf(body, scene);
      const name = body.key.replace(/@(left|right)$/, "");
      const [base, ...others] = shapes.get(side)!.map((each) => each.get(name));
      const extremes = others.map((shape) => shape!);
      const leaves = base ? leavesOf(base, extremes, context.tessellation_mm) : null;
      if (!leaves) return [body.key, [wholePiece(body, side)]];
      return [body.key, splitBody(body, side, name, leaves, { context, extremes })];
    }),
  );
}
