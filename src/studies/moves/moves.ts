import { limitName } from "../../check/limits.ts";
import type { PairVerdict } from "../../check/result.ts";
import type { Solid } from "../../geometry/solid.ts";
import { length, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { listPoints, usersOfPoint } from "../../scene/points.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene } from "../../scene/scene.ts";
import { fullCheck } from "../fullCheck.ts";
import { type Fit, MovedPoints, type PointMove } from "../places/move.ts";
import type { PlaceLimits } from "../places/placeLimits.ts";
import { type PlaceReason, PlaceStudy } from "../places/placeStudy.ts";
import { type MovePrice, priceOf } from "../price.ts";
import { StudyStopped } from "../stopped.ts";
import { type Alteration, altered } from "./alter.ts";
import { ALTERATION_SEARCHES, findAlterations } from "./alterations.ts";
import { AXES, type Clears, smallestAlong, smallestFree, smallestTogether } from "./search.ts";

export interface MovesRequest {
  readonly document: SceneDocument;
  readonly meshFiles: ReadonlyMap<string, Solid>;
  /** The pair "a/b" to clear; null: all that clash or are tight. */
  readonly pair: string | null;
  /** Points that may move; empty: every point at which a part is held to the chassis, and parts may be altered too. */
  readonly points: readonly string[];
  readonly fits: readonly Fit[];
  readonly within_mm: number;
  readonly limits: PlaceLimits;
  readonly travelStep_mm: number;
  /** How many of the smallest are checked in full. */
  readonly proved: number;
}

export interface Move {
  readonly kind: "axis" | "free" | "together";
  readonly fit: Fit;
  readonly moves: readonly PointMove[];
  /** Root of the sum of squares of all moves. */
  readonly way_mm: number;
  /** What it costs; null where the corner was not checked in full. */
  readonly price: MovePrice | null;
}

export interface PricedAlteration {
  readonly alteration: Alteration;
  /** cut: a part is made anew; bolted: every part as it is. */
  readonly fit: Fit;
  /** How far the farthest point of what is altered goes, mm. */
  readonly way_mm: number;
  /** What it costs; null where the corner was not checked in full. */
  readonly price: MovePrice | null;
}

/** A link that is thin enough to clear. */
export interface ThinnerMember {
  readonly member: string;
  readonly diameter_mm: number;
  readonly was_mm: number;
}

export interface MovesResult {
  /** What shall clear, as the whole check tells it now. */
  readonly targets: readonly Pick<
    PairVerdict,
    "side" | "a" | "b" | "clearance_mm" | "required_mm" | "verdict" | "at"
  >[];
  /** Other pairs and limits that do not hold now: they are not asked for. */
  readonly leftOut: readonly string[];
  /** The smallest first. */
  readonly moves: readonly Move[];
  /** Parts made otherwise and the powertrain elsewhere, the smallest first; none where points are named that may move. */
  readonly alterations: readonly PricedAlteration[];
  readonly thinner: readonly ThinnerMember[];
}

/** Free moves start from places so far apart, as a share of the reach. */
const LATTICE_SHARE = 1 / 8;
/** Between the travels that are asked a clearance may be a little less: so much more is asked for, mm. */
const SPARE_mm = 0.15;

/**
 * The smallest moves that clear a pair, or all pairs, while every other pair that hangs on the moved points keeps what it wants and every
 * limit holds: each point by axis and freely, cut to suit or bolted up; where no point alone does, two together. Found at some travels,
 * the smallest ones checked in full. Throws InputError, and StudyStopped.
 */
export function findMoves(
  request: MovesRequest,
  onProgress: (progress: { readonly done: number; readonly total: number }) => void = () => {},
  isCancelled: () => boolean = () => false,
): MovesResult {
  const { document, meshFiles, within_mm } = request;
  const scene = resolveScene(document);
  const now = fullCheck(document, meshFiles, document.title, isCancelled);
  const failing = now.pairs.filter(({ verdict }) => verdict === "clash" || verdict === "tight");
  const targets = targetsOf(request, failing);
  const others = failing.filter((pair) => !targets.some((target) => nameOf(target) === nameOf(pair)));
  const leftOut = [
    ...new Set([...others.map(nameOf), ...now.limits.filter(({ verdict }) => verdict === "clash").map(limitName)]),
  ];
  const points = request.points.length > 0 ? request.points : mountNames(document);
  const found: Omit<Move, "price">[] = [];
  const total = points.length * request.fits.length + (request.points.length > 0 ? 0 : ALTERATION_SEARCHES);
  let done = 0;
  const ask = (names: readonly string[], fit: Fit) => new Asker(request, names, fit, targets, leftOut, isCancelled);
  for (const point of points) {
    for (const fit of request.fits) {
      if (isPossible(document, scene, point, fit)) found.push(...single(ask([point], fit), within_mm));
      onProgress({ done: ++done, total });
    }
  }
  if (found.length === 0 && targets.length > 0) {
    for (const fit of request.fits)
      found.push(
        ...twoTogether(
          points.filter((point) => isPossible(document, scene, point, fit)),
          fit,
          ask,
          within_mm,
        ),
      );
  }
  const sorted = found.sort((a, b) => a.way_mm - b.way_mm || KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind));
  const moves = sorted.map((move, i): Move => {
    if (i >= request.proved) return { ...move, price: null };
    const moved = new MovedPoints(
      document,
      move.moves.map(({ point }) => point),
      move.fit,
    );
    const after = fullCheck(moved.at(move.moves.map(({ by }) => by)), meshFiles, document.title, isCancelled);
    return { ...move, price: priceOf(now, after) };
  });
  let alterations: PricedAlteration[] = [];
  if (request.points.length === 0) {
    const asked = { document, meshFiles, targets, leaveOut: leftOut, within_mm };
    const smallest = findAlterations(asked, () => onProgress({ done: ++done, total }), isCancelled)
      .filter(({ fit }) => request.fits.includes(fit))
      .sort((a, b) => a.way_mm - b.way_mm);
    // of each kind and fit the smallest is checked in full
    const first = new Set<string>();
    alterations = smallest.map((each): PricedAlteration => {
      const name = `${each.alteration.kind} ${each.fit}`;
      if (request.proved === 0 || first.has(name)) return { ...each, price: null };
      first.add(name);
      const after = fullCheck(altered(document, each.alteration), meshFiles, document.title, isCancelled);
      return { ...each, price: priceOf(now, after) };
    });
  }
  return { targets: targets.map(told), leftOut, moves, alterations, thinner: thinnerMembers(document, targets) };
}

const KINDS: readonly Move["kind"][] = ["axis", "free", "together"];

function targetsOf({ pair }: MovesRequest, failing: readonly PairVerdict[]): readonly PairVerdict[] {
  if (pair === null) return failing;
  const names = [pair, pair.split("/").reverse().join("/")];
  const found = failing.filter((each) => names.includes(nameOf(each)));
  if (found.length > 0) return found;
  const known = [...new Set(failing.map(nameOf))].join(", ") || "none: nothing clashes or is tight";
  throw new InputError("missing-id", { path: "pair" }, `"${pair}" neither clashes nor is tight`, known);
}

function told({ side, a, b, clearance_mm, required_mm, verdict, at }: PairVerdict): MovesResult["targets"][number] {
  return { side, a, b, clearance_mm, required_mm, verdict, at };
}

function nameOf({ a, b }: { readonly a: string; readonly b: string }): string {
  return `${a}/${b}`;
}

function mountNames(document: SceneDocument): string[] {
  return listPoints(document)
    .filter(({ isMount }) => isMount)
    .map(({ name }) => name);
}

/** Only what sits on the chassis is bolted up, and only parts that are made are cut: a donor part keeps its shape. */
function isPossible(document: SceneDocument, scene: Scene, point: string, fit: Fit): boolean {
  if (fit === "bolted") return mountNames(document).includes(point);
  const ends = usersOfPoint(document, point).filter(
    ({ user, path }) => user === "member" && !/\.(body|made)\b/.test(path),
  );
  return ends.every(({ id }) => scene.members.some((member) => member.id === id && member.stock === "made"));
}

/** Asks whether moves of some points clear the targets. */
class Asker {
  readonly points: readonly string[];
  readonly fit: Fit;
  /** Whether every target hangs on the points: otherwise no move of them clears all. */
  readonly canClear: boolean;
  private readonly study: PlaceStudy;
  private readonly isCancelled: () => boolean;
  private readonly known = new Map<string, boolean>();

  constructor(
    { document, meshFiles, limits, travelStep_mm, within_mm }: MovesRequest,
    points: readonly string[],
    fit: Fit,
    targets: readonly PairVerdict[],
    leaveOut: readonly string[],
    isCancelled: () => boolean,
  ) {
    this.points = points;
    this.fit = fit;
    this.isCancelled = isCancelled;
    const question = { document, meshFiles, points, fit, limits, leaveOut, travelStep_mm, marginUpTo_mm: SPARE_mm };
    this.study = new PlaceStudy(question, extremesOf(points.length, within_mm));
    const asked = this.study.reasons.filter(isClearance).map(nameOf);
    this.canClear = targets.every((target) => asked.includes(nameOf(target)));
  }

  clears(offsets: readonly Vec3[]): boolean {
    if (this.isCancelled()) throw new StudyStopped();
    const name = offsets.map((offset) => offset.map((value) => value.toFixed(4)).join()).join(" ");
    let known = this.known.get(name);
    if (known === undefined) {
      const { reason, margin_mm } = this.study.ask(offsets);
      known = reason < 0 && margin_mm >= SPARE_mm;
      this.known.set(name, known);
    }
    return known;
  }
}

function isClearance(reason: PlaceReason): reason is Extract<PlaceReason, { kind: "clearance" }> {
  return reason.kind === "clearance";
}

/** Places that have all moves within the reach between them: all points the same way, and each the other way than the rest. */
function extremesOf(count: number, reach_mm: number): Vec3[][] {
  const corners = Array.from({ length: 8 }, (_, c) => [0, 1, 2].map((k) => ((c >> k) & 1 ? 1 : -1)) as unknown as Vec3);
  const others = count > 1 ? [-1, ...Array(count).keys()] : [-1];
  return corners.flatMap((corner) =>
    others.map((other) =>
      Array.from(
        { length: count },
        (_, i) => corner.map((sign) => (i === other ? -reach_mm : reach_mm) * sign) as unknown as Vec3,
      ),
    ),
  );
}

function single(asker: Asker, within_mm: number): Omit<Move, "price">[] {
  if (!asker.canClear) return [];
  const clears: Clears = (by) => asker.clears([by]);
  const made = (kind: Move["kind"], by: Vec3): Omit<Move, "price"> => ({
    kind,
    fit: asker.fit,
    moves: [{ point: asker.points[0]!, by }],
    way_mm: length(by),
  });
  const alongAxes = AXES.map((axis) => smallestAlong(axis, within_mm, clears)).filter((by) => by !== null);
  const shortest = Math.min(within_mm, ...alongAxes.map(length));
  const free = smallestFree(shortest, within_mm * LATTICE_SHARE, clears);
  return [...alongAxes.map((by) => made("axis", by)), ...(free ? [made("free", free)] : [])];
}

function twoTogether(
  points: readonly string[],
  fit: Fit,
  ask: (names: readonly string[], fit: Fit) => Asker,
  within_mm: number,
): Omit<Move, "price">[] {
  let best: Omit<Move, "price"> | null = null;
  for (const [i, first] of points.entries()) {
    for (const second of points.slice(i + 1)) {
      const asker = ask([first, second], fit);
      if (!asker.canClear) continue;
      for (const one of AXES) {
        for (const other of AXES) {
          const found = smallestTogether([one, other], best?.way_mm ?? within_mm, within_mm * LATTICE_SHARE, (a, b) =>
            asker.clears([a, b]),
          );
          if (!found) continue;
          const way_mm = Math.hypot(length(found.first), length(found.second));
          const moves = [
            { point: first, by: found.first },
            { point: second, by: found.second },
          ];
          if (!best || way_mm < best.way_mm) best = { kind: "together", fit, moves, way_mm };
        }
      }
    }
  }
  return best ? [best] : [];
}

/** A plain round link gains half of what it gets thinner: exact. Of links that all targets hang on. */
function thinnerMembers(document: SceneDocument, targets: readonly PairVerdict[]): ThinnerMember[] {
  if (targets.length === 0) return [];
  return document.members.flatMap((member): ThinnerMember[] => {
    if (member.kind !== "link" || member.body !== undefined || member.stock === "donor") return [];
    if (!targets.every(({ a, b }) => a === member.id || b === member.id)) return [];
    const was_mm = member.diameter_mm ?? DEFAULT_DIAMETER_MM;
    const lacking_mm = Math.max(...targets.map(({ clearance_mm, required_mm }) => required_mm - clearance_mm));
    const diameter_mm = was_mm - 2 * lacking_mm;
    // below zero there is no gap to win, only depth: where the link overlaps the depth is not along its radius for sure
    const isTold = diameter_mm > 0 && targets.every(({ clearance_mm }) => clearance_mm >= 0);
    return isTold ? [{ member: member.id, diameter_mm, was_mm }] : [];
  });
}

const DEFAULT_DIAMETER_MM = 30;
