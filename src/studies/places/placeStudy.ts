import { prepareCheck } from "../../check/check.ts";
import type { CheckShelf } from "../../check/shelf.ts";
import type { TreeShelf } from "../../clearance/sweepShelf.ts";
import type { Solid } from "../../geometry/solid.ts";
import { type Readings, readCorner } from "../../kinematics/readings.ts";
import { poseOfTrack } from "../../maths/pose.ts";
import { scale, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { type Fit, MovedPoints } from "./move.ts";
import { PlaceClearance } from "./placeClearance.ts";
import { isSolved, orRefused, PlaceCorner, type PlaceState } from "./placeCorner.ts";
import { LimitHolders, type PlaceLimits } from "./placeLimits.ts";

/** What places are asked. */
export interface PlaceQuestion {
  readonly document: SceneDocument;
  readonly meshFiles: ReadonlyMap<string, Solid>;
  /** Hard points that move. */
  readonly points: readonly string[];
  readonly fit: Fit;
  readonly limits: PlaceLimits;
  /** Pairs "a/b" of ids and names of the check's limits that do not count. */
  readonly leaveOut: readonly string[];
  /** Places are asked at travels so far apart, mm, and at both ends. */
  readonly travelStep_mm: number;
  /** Margins of this and more are not told apart, mm. */
  readonly marginUpTo_mm: number;
}

/** What checks on the same thread left, which a study begins with instead of making it anew. */
export interface KeptOfChecks {
  readonly shelf?: CheckShelf;
  readonly trees?: TreeShelf;
}

/** Why a place is refused, or a pair or limit by which it can be. */
export type PlaceReason =
  | { readonly kind: "drawn" | "reach" | "binds" }
  | { readonly kind: "limit"; readonly side: Side | "both"; readonly what: string }
  | {
      readonly kind: "clearance";
      readonly side: Side | "both";
      readonly a: string;
      readonly b: string;
      readonly required_mm: number;
    };

/** What is told of one place. */
export interface PlaceVerdict {
  /** −1: it may live here. Otherwise the number of a reason. */
  readonly reason: number;
  /**
   * The least clearance beyond what is required; `marginUpTo_mm` means that or more. Below 0 where a clearance refuses
   * the place, and then at most that. NaN where it is refused before clearances are asked.
   */
  readonly margin_mm: number;
  /** The pair of the least margin, as the number of its reason; −1: none below `marginUpTo_mm`, or not asked. */
  readonly pair: number;
  /** Where: the state of the limit that is passed or of the least margin; −1: at none in particular. */
  readonly state: number;
  /** The value that passes a limit; travel reached for a bind; otherwise NaN. */
  readonly value: number;
}

const UNASKED = { margin_mm: Number.NaN, pair: -1, state: -1, value: Number.NaN } as const;

/** Reasons before those of limits and pairs. */
const FIRST_REASONS = [{ kind: "drawn" }, { kind: "reach" }, { kind: "binds" }] as const;

/**
 * Asks one place of hard points after another whether they may live there: whether the corner goes through its travel, keeps the limits
 * that are asked and the scene's own, and every pair its clearance, in all powertrain poses, on both sides.
 *
 * It is asked at some travels and in the poses themselves. **Between them nothing is proved**; a place that is chosen has to be
 * checked in full.
 */
export class PlaceStudy {
  readonly reasons: readonly PlaceReason[];
  readonly states: readonly PlaceState[];
  /** The whole scene with the points where they are. */
  readonly scene: Scene;
  /** Readings at ride height with the points where they are. */
  readonly now: Readings;
  readonly moved: MovedPoints;
  private readonly question: PlaceQuestion;
  private readonly corner: PlaceCorner;
  private readonly limits: LimitHolders;
  private readonly clearance: PlaceClearance;
  private readonly firstPair: number;

  /**
   * `extremes`: places (how far each point is from where it is) that have all others that will be asked between them. Throws InputError
   * for points and limits that cannot be, and for a corner that does not go through its travel as it is.
   */
  constructor(question: PlaceQuestion, extremes: readonly (readonly Vec3[])[], kept: KeptOfChecks = {}) {
    const { document, meshFiles, points, fit, leaveOut } = question;
    this.question = question;
    this.moved = new MovedPoints(document, points, fit);
    const still = points.map((): Vec3 => [0, 0, 0]);
    this.scene = resolveScene(this.moved.at(still));
    const prepared = prepareCheck(this.scene, meshFiles, kept.shelf);
    this.corner = new PlaceCorner(this.moved, this.scene, question.travelStep_mm);
    this.states = this.corner.states;
    const elsewhere = new PlaceCorner(this.moved, this.scene, question.travelStep_mm);
    const solved = this.corner.solve(still);
    if (!isSolved(solved)) {
      const wrong = `the corner as it is ${solved.why === "binds" ? `binds at ${solved.travel_mm} mm of travel` : "cannot be put together"}`;
      throw new InputError("out-of-reach", { path: "travel" }, wrong, "a travel that it goes through");
    }
    const atRide = solved.carrier.subarray(0);
    this.now = readCorner(solved.corners[0]!, poseOfTrack(atRide, this.corner.travels.indexOf(0)), "rest");
    this.limits = new LimitHolders(solved.corners, this.now, question.limits, leaveOut);
    const probes = points.map((_, i): Vec3 => scale([0.31, -0.47, 0.23], 1 + i / 7));
    this.clearance = new PlaceClearance(this.corner, {
      prepared,
      meshFiles,
      places: [still, probes, ...extremes].map((offsets) => this.corner.sceneAt(offsets)),
      solved,
      elsewhere: elsewhere.solve(probes),
      leaveOut,
      trees: kept.trees,
    });
    this.firstPair = FIRST_REASONS.length + this.limits.limits.length;
    this.reasons = [
      ...FIRST_REASONS,
      ...this.limits.limits.map((limit) => ({ kind: "limit" as const, ...limit })),
      ...this.clearance.pairs.map(({ side, first, second, required_mm }) => ({
        kind: "clearance" as const,
        side,
        a: first.id,
        b: second.id,
        required_mm,
      })),
    ];
  }

  /** What is told of the next places does not hang on those before, to the last bit. */
  forget(): void {
    this.corner.forget();
    this.clearance.forget();
  }

  /** With every point so far from where it is. A place's clearances are asked where all else holds, no further than the first that refuses it. */
  ask(offsets: readonly Vec3[]): PlaceVerdict {
    const solved = this.corner.solve(offsets);
    if (!isSolved(solved)) {
      const reason = FIRST_REASONS.findIndex(({ kind }) => kind === solved.why);
      return { ...UNASKED, reason, value: solved.why === "binds" ? solved.travel_mm : Number.NaN };
    }
    const passed = this.limits.passed(solved, this.states);
    if (passed) {
      return { ...UNASKED, reason: FIRST_REASONS.length + passed.limit, value: passed.value, state: passed.state };
    }
    const worst = orRefused(() =>
      this.clearance.worst(solved, { below_mm: this.question.marginUpTo_mm, above_mm: REFUSED_mm }),
    );
    // a bend that does not fit shows only once it is drawn
    if (!worst) return { ...UNASKED, reason: FIRST_REASONS.findIndex(({ kind }) => kind === "drawn") };
    const { margin_mm, pair, state } = worst;
    const number = pair < 0 ? -1 : this.firstPair + pair;
    return { reason: margin_mm < 0 ? number : -1, margin_mm, pair: number, state, value: Number.NaN };
  }

  /** Writes the margin of every pair at a place, in the order of the clearance reasons; false where there is no corner. */
  margins(offsets: readonly Vec3[], out: Float64Array): boolean {
    const solved = this.corner.solve(offsets);
    if (!isSolved(solved)) return false;
    return (
      orRefused(() => {
        this.clearance.every(solved, out, this.question.marginUpTo_mm);
        return true;
      }) ?? false
    );
  }
}

/** A margin below this refuses a place whatever else there is: the least that is told to be below 0. */
const REFUSED_mm = -1e-9;
