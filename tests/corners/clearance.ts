import type { ManifoldToplevel } from "manifold-3d";
import { type PreparedCheck, prepareCheck } from "../../src/check/check.ts";
import type { ModelBody } from "../../src/check/model.ts";
import type { PlannedPair } from "../../src/check/plan.ts";
import { buildTree } from "../../src/clearance/kernel.ts";
import { poseOfMotion, relativeMotion } from "../../src/clearance/motion.ts";
import { createPairGauge } from "../../src/clearance/pairState.ts";
import { motionsOf, sweepPair } from "../../src/clearance/sweep.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import type { PairSweep, SweepVariant } from "../../src/clearance/types.ts";
import { bounds } from "../../src/geometry/measure.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { mountWriter } from "../../src/kinematics/mounts.ts";
import { applyPose, composePoses, invertPose, type Pose, poseOfTrack } from "../../src/maths/pose.ts";
import { distance, scale, type Vec3 } from "../../src/maths/vec3.ts";
import type { Scene } from "../../src/scene/scene.ts";
import type { Dice } from "./dice.ts";
import { bruteDistance_mm, manifoldOf, movedManifold, SecondGauge } from "./surfaces.ts";

/** Travel is sampled this closely, mm. */
const SAMPLE_mm = 0.1;
const IN_CLASH_mm = 5;
/** Shares of the way to a powertrain pose that are sampled besides both its ends. */
const SHARES = [0.25, 0.5, 0.75, 1] as const;
/** How near to each other the balls around two boxes must come at ride height for the pair to be looked at, mm. */
const NEAR_mm = 60;
/** Where joints leave only a part of a surface, the depth is sampled: such a pair costs seconds if it has many triangles or rocks several ways. */
const MOST_SAMPLED = 600;
const MOST_BRUTE = 2_000;
/** Poses are solved here at every sample, in the sweep on screws between knots of 1 mm: the two differ by less than this, mm. */
const POSES_mm = 0.005;
/** Two ways of measuring the same surfaces, mm. */
const SAME_mm = 1e-3;
/** As sweepPair promises: so shallow an overlap may stay unseen, mm. */
const UNSEEN_mm = 0.1;

export interface ClearanceTally {
  pairs: number;
  clash: number;
  tight: number;
  clear: number;
  /** States measured by the second gauge, and travels of 0.1 mm for which they speak. */
  measured: number;
  sampled: number;
  /** Overlaps of less than 0.1 mm that the sweep does not tell: its promise. */
  grazes: number;
  /** Clearances held to manifold-3d and to all pairs of triangles, depths to manifold-3d, and the largest difference, mm. */
  byManifold: number;
  byBruteForce: number;
  depths: number;
  apart_mm: number;
}

export const noClearance = (): ClearanceTally => ({
  pairs: 0,
  clash: 0,
  tight: 0,
  clear: 0,
  measured: 0,
  sampled: 0,
  grazes: 0,
  byManifold: 0,
  byBruteForce: 0,
  depths: 0,
  apart_mm: 0,
});

export function prepareOneSide(scene: Scene, meshFiles: ReadonlyMap<string, Solid>): PreparedCheck {
  return prepareCheck({ ...scene, sides: scene.sides.slice(0, 1) }, meshFiles);
}

/** So many pairs of a prepared corner that come near each other, drawn by lot. */
export function drawPairs({ pairs }: PreparedCheck, most: number, dice: Dice): PlannedPair[] {
  const found: PlannedPair[] = [];
  const left = pairs.filter(isAffordable);
  while (left.length > 0 && found.length < most) {
    const [pair] = left.splice(dice.below(left.length), 1);
    if (pair && ballGap(pair) < NEAR_mm) found.push(pair);
  }
  return found;
}

function isAffordable({ first, second, sweep }: PlannedPair): boolean {
  const isSampled = sweep.excuses.length > 0 || first.solid.convexPieces === null || second.solid.convexPieces === null;
  const ways = sweep.variants.filter(({ rock }) => rock).length;
  return !isSampled || (ways <= 1 && trianglesOf(first) + trianglesOf(second) <= MOST_SAMPLED);
}

const trianglesOf = ({ solid }: ModelBody): number => solid.indices.length / 3;

function ballGap({ first, second, sweep }: PlannedPair): number {
  const { a, b } = sweep.variants[0]!;
  const middle = (motion: typeof a): Pose => poseOfTrack(motion.poses, Math.floor(motion.travel_mm.length / 2));
  const [one, other] = [ballOf(first.solid), ballOf(second.solid)];
  return distance(applyPose(middle(a), one.centre), applyPose(middle(b), other.centre)) - one.radius - other.radius;
}

function ballOf(solid: Solid): { centre: Vec3; radius: number } {
  const { min, max } = bounds(solid);
  return { centre: [0, 1, 2].map((k) => (min[k]! + max[k]!) / 2) as unknown as Vec3, radius: distance(min, max) / 2 };
}

/** The hub at every 0.1 mm of the travel, and by them all mounts in a powertrain pose at a share of the way to it. */
export class Samples {
  readonly travel_mm: Float64Array;
  readonly #carrier: Float64Array;
  readonly #prepared: PreparedCheck;
  readonly #tracks = new Map<string, Map<string, Float64Array>>();

  constructor(prepared: PreparedCheck) {
    this.#prepared = prepared;
    const [{ corner, run }] = prepared.runs as [PreparedCheck["runs"][number]];
    const count = Math.max(1, Math.ceil((run.to_mm - run.from_mm) / SAMPLE_mm));
    this.travel_mm = Float64Array.from({ length: count + 1 }, (_, i) =>
      i === count ? run.to_mm : run.from_mm + i * SAMPLE_mm,
    );
    this.#carrier = new Float64Array(12 * (count + 1));
    corner.solver.reset();
    const from = this.travel_mm.findIndex((travel) => travel >= 0);
    for (let i = from; i <= count; i++) this.#put(i);
    corner.solver.reset();
    for (let i = from - 1; i >= 0; i--) this.#put(i);
  }

  #put(i: number): void {
    const { solver } = this.#prepared.runs[0]!.corner;
    solver.moveTo(this.travel_mm[i]!);
    solver.writePose(this.#carrier, 12 * i);
  }

  track(mount: string, pose: string, share: number): Float64Array {
    const name = `${pose} ${share}`;
    let tracks = this.#tracks.get(name);
    if (!tracks) {
      const writer = mountWriter(this.#prepared.runs[0]!.corner, pose, share);
      const { length } = this.travel_mm;
      const made = writer.order.map(() => new Float64Array(12 * length));
      const poses = new Float64Array(12 * writer.order.length);
      for (let i = 0; i < length; i++) {
        writer.write(poseOfTrack(this.#carrier, i), poses);
        made.forEach((track, m) => {
          track.set(poses.subarray(12 * m, 12 * m + 12), 12 * i);
        });
      }
      tracks = new Map(writer.order.map((id, m) => [id, made[m]!]));
      this.#tracks.set(name, tracks);
    }
    return tracks.get(mount)!;
  }
}

/** The sweep of a pair against what is sampled. Tells what is wrong. */
export function faultsOfSweep(pair: PlannedPair, samples: Samples, tally: ClearanceTally): string[] {
  const { first, second, sweep } = pair;
  const name = `${first.key} and ${second.key}`;
  const swept = sweepPair(new TreeShelf(), first, second, sweep);
  const gauge = new SecondGauge(first.solid, second.solid, sweep.excuses);
  if (gauge.isEmpty || !Number.isFinite(swept.clearance_mm))
    return gauge.isEmpty === !Number.isFinite(swept.clearance_mm) ? [] : [`${name}: one finds no surface that counts`];
  tally.pairs++;
  tally[swept.clearance_mm < 0 ? "clash" : swept.clearance_mm < sweep.required_mm ? "tight" : "clear"]++;
  const faults: string[] = [];
  for (const variant of sweep.variants) {
    for (const share of variant.rock ? SHARES : [1]) {
      const told = `${name}, ${variant.pose}${share === 1 ? "" : ` at ${share} of the way`}`;
      faults.push(...missed(told, pair, variant, share, swept, gauge, samples, tally));
    }
  }
  faults.push(...invented(name, pair, swept, gauge));
  return faults;
}

/** What samples of one variant find that the sweep does not tell. */
function missed(
  where: string,
  pair: PlannedPair,
  variant: SweepVariant,
  share: number,
  swept: PairSweep,
  gauge: SecondGauge,
  samples: Samples,
  tally: ClearanceTally,
): string[] {
  const { first, second, sweep } = pair;
  const a = samples.track(first.mount, variant.pose, share);
  const b = samples.track(second.mount, variant.pose, share);
  const corners = cornersOf(second.solid);
  const back = new Float64Array(12);
  const relative = (i: number, out: Pose): Pose =>
    composePoses(invertPose(poseOfTrack(a, i), back), poseOfTrack(b, i), out);
  const [pose, next, inverse] = [new Float64Array(12), new Float64Array(12), new Float64Array(12)];
  const { travel_mm } = samples;
  const first_i = travel_mm.findIndex((travel) => travel >= variant.from_mm);
  let least_mm = Number.POSITIVE_INFINITY;
  let at_mm = 0;
  let below_mm = Number.POSITIVE_INFINITY;
  for (let i = first_i; i >= 0 && i < travel_mm.length && travel_mm[i]! <= variant.to_mm; ) {
    relative(i, pose);
    const surface_mm = gauge.distance_mm(pose, below_mm);
    tally.measured++;
    const overlaps = surface_mm === 0 || gauge.isInside(pose, invertPose(pose, inverse));
    const travel = travel_mm[i]!;
    if (
      overlaps &&
      !swept.clashTravel_mm.some(([from, to]) => travel >= from - SAMPLE_mm && travel <= to + SAMPLE_mm)
    ) {
      const depth_mm = depthAt(pair, pose);
      if (depth_mm > UNSEEN_mm + POSES_mm) return [`${where}: ${depth_mm} mm of overlap at ${travel} mm is missed`];
      tally.grazes++;
    }
    const clearance_mm = overlaps ? Math.min(0, swept.clearance_mm) : surface_mm;
    if (clearance_mm < least_mm) [least_mm, at_mm] = [clearance_mm, travel];
    // Nothing meets anything until some corner of b's box has gone as far as the surfaces are apart. Where a clash is told and is one,
    // it need not be seen at every sample.
    const told = overlaps && swept.clashTravel_mm.find(([from, to]) => travel >= from && travel <= to);
    const enough_mm = told ? Math.min(travel + IN_CLASH_mm, told[1] - SAMPLE_mm) : travel;
    let way_mm = 0;
    do {
      i++;
      tally.sampled++;
      if (i >= travel_mm.length) break;
      relative(i, next);
      way_mm += farthest(corners, pose, next);
      pose.set(next);
    } while (way_mm < surface_mm - POSES_mm || travel_mm[i]! < enough_mm);
    below_mm = surface_mm + way_mm + POSES_mm;
  }
  const tolerance_mm = least_mm < sweep.required_mm + 5 ? 0.01 : 0.1;
  if (swept.clearance_mm > least_mm + tolerance_mm + POSES_mm)
    return [`${where}: ${least_mm} mm at ${at_mm} mm, the sweep tells ${swept.clearance_mm}`];
  return [];
}

/** The depth of an overlap as the program measures one state: only asked where a sweep tells of none. */
function depthAt({ first, second, sweep }: PlannedPair, relative: Pose): number {
  if (sweep.excuses.length > 0) return Number.POSITIVE_INFINITY;
  const gauge = createPairGauge(buildTree(first.solid), buildTree(second.solid));
  gauge.measure(relative, false);
  return -gauge.state.clearance_mm;
}

/** Whether the state that the sweep tells is what it says. */
function invented(name: string, { first, second, sweep }: PlannedPair, swept: PairSweep, gauge: SecondGauge): string[] {
  const { travel_mm, pose, share = 1 } = swept.at;
  const variant = sweep.variants.find((each) => each.pose === pose)!;
  const relative = relativeAt(variant, share, travel_mm);
  const surface_mm = gauge.distance_mm(relative);
  const where = `${name} at ${travel_mm} mm, ${pose}, ${share}`;
  if (swept.clearance_mm < 0) {
    const overlaps = surface_mm < SAME_mm || gauge.isInside(relative, invertPose(relative));
    return overlaps
      ? []
      : [`${where}: a clash of ${-swept.clearance_mm} mm is invented, they are ${surface_mm} mm apart`];
  }
  const off_mm = Math.abs(surface_mm - swept.clearance_mm);
  // near a lock parts turn so fast that between two knots each on its own screw goes a little beside the screw of both
  const beside_mm = farthest(cornersOf(second.solid), relative, seenAt(variant, share, travel_mm));
  return off_mm < SAME_mm + Math.max(POSES_mm, beside_mm) && beside_mm < UNSEEN_mm
    ? []
    : [`${where}: told to be ${swept.clearance_mm} mm, they are ${surface_mm} mm (${first.id}, ${second.id})`];
}

function relativeAt(variant: SweepVariant, share: number, travel_mm: number): Pose {
  const { a, b } = motionsOf(variant, share);
  return composePoses(invertPose(poseNear(a, travel_mm)), poseNear(b, travel_mm));
}

/** The second body as the first sees it, on the screw of both. */
function seenAt(variant: SweepVariant, share: number, travel_mm: number): Pose {
  const { a, b } = motionsOf(variant, share);
  const { from_mm, to_mm } = variant;
  return relativeMotion(a, b, from_mm, to_mm).poseAt(travel_mm, new Float64Array(12));
}

/** Between two knots as the sweep has it. */
function poseNear(motion: SweepVariant["a"], travel_mm: number): Pose {
  return poseOfMotion(motion, travel_mm, new Float64Array(12));
}

/** Pairs that neither powertrain nor shaft is part of: the right one's sweep is the left one's in the mirror. */
export function faultsOfSides(scene: Scene, meshFiles: ReadonlyMap<string, Solid>, dice: Dice): string[] {
  const { pairs } = prepareCheck({ ...scene, sides: ["left", "right"] }, meshFiles);
  const isOwn = ({ side, mount }: ModelBody): boolean => side === "left" && !MOVED_BY_POSES.includes(mount);
  const own = pairs.filter((pair) => isOwn(pair.first) && isOwn(pair.second) && isAffordable(pair));
  const near = own.filter((pair) => ballGap(pair) < NEAR_mm);
  if (near.length === 0) return [];
  const left = dice.pick(near);
  const right = pairs.find(
    ({ side, first, second }) =>
      side === "right" && first.key === imageOf(left.first.key) && second.key === imageOf(left.second.key),
  );
  const name = `${left.first.key} and ${left.second.key}`;
  if (!right) return [`${name}: the right has no such pair`];
  const [one, other] = [left, right].map(({ first, second, sweep }) =>
    sweepPair(new TreeShelf(), first, second, sweep),
  );
  const off_mm = Math.abs(one!.clearance_mm - other!.clearance_mm);
  // an overlap's deepest state, and which points of a surface are looked at, may be found on another way
  const allowed_mm =
    one!.clearance_mm >= 0 ? 0.01 : Math.max(one!.measure === "sampled" ? 0.5 : 0.05, 0.05 * -one!.clearance_mm);
  const isSame = one!.clearance_mm === other!.clearance_mm || off_mm <= allowed_mm;
  return isSame ? [] : [`${name}: ${one!.clearance_mm} mm, on the right ${other!.clearance_mm} mm`];
}

const MOVED_BY_POSES: readonly string[] = ["powertrain", "driveshaft"];
const imageOf = (key: string): string => key.replace(/@left$/, "@right");

/** One state of a pair against manifold-3d and all its triangles. Tells what is wrong. */
export function faultsOfState(
  manifold: ManifoldToplevel,
  { first, second, sweep }: PlannedPair,
  dice: Dice,
  tally: ClearanceTally,
): string[] {
  const variant = dice.pick(sweep.variants);
  const travel_mm = dice.between(variant.from_mm, variant.to_mm);
  const relative = relativeAt(variant, variant.rock ? dice.between(0, 1) : 1, travel_mm);
  const gauge = createPairGauge(buildTree(first.solid), buildTree(second.solid));
  gauge.measure(relative, false);
  const { clearance_mm, measure, partingOfA } = gauge.state;
  const where = `${first.key} and ${second.key} at ${travel_mm} mm, ${variant.pose}`;
  const faults: string[] = [];
  const hold = (what: string, wanted_mm: number): void => {
    const off_mm = Math.abs(wanted_mm - Math.max(0, clearance_mm));
    tally.apart_mm = Math.max(tally.apart_mm, off_mm);
    if (!(off_mm < SAME_mm)) faults.push(`${where}: ${clearance_mm} mm, by ${what} ${wanted_mm}`);
  };
  // inside one another surfaces are apart and yet overlap
  if ((clearance_mm > 0 || measure !== "inside") && trianglesOf(first) * trianglesOf(second) <= MOST_BRUTE) {
    tally.byBruteForce++;
    hold("brute force", bruteDistance_mm(first.solid, second.solid, relative));
  }
  const [one, drawn] = [manifoldOf(manifold, first.solid), manifoldOf(manifold, second.solid)];
  if (one && drawn) {
    const other = movedManifold(drawn, relative);
    const common = one.intersect(other);
    const volume_mm3 = common.volume();
    tally.byManifold++;
    if (clearance_mm < -0.01 !== volume_mm3 > 1e-6 && Math.abs(clearance_mm) > 0.01)
      faults.push(`${where}: ${clearance_mm} mm, manifold-3d has ${volume_mm3} mm³ in common`);
    else if (clearance_mm > 0.01) hold("manifold-3d", one.minGap(other, clearance_mm + 1));
    else if (clearance_mm < -0.1 && measure === "convex") {
      tally.depths++;
      // the depth is the least way out of one convex piece from another: any shorter way leaves them in each other
      const ways: Vec3[] = [[partingOfA[0]!, partingOfA[1]!, partingOfA[2]!], dice.leaning([0, 0, 0], 1)];
      for (const way of ways) {
        const by = scale(way, (0.98 * clearance_mm) / Math.hypot(...way));
        const parted = other.translate([by[0], by[1], by[2]]);
        const still = one.intersect(parted);
        if (still.isEmpty()) faults.push(`${where}: told ${-clearance_mm} mm deep, parted by ${Math.hypot(...by)} mm`);
        for (const each of [parted, still]) each.delete();
      }
    }
    for (const each of [other, common]) each.delete();
  }
  one?.delete();
  drawn?.delete();
  return faults;
}

function cornersOf(solid: Solid): Vec3[] {
  const { min, max } = bounds(solid);
  return Array.from({ length: 8 }, (_, c) => [0, 1, 2].map((k) => ((c >> k) & 1 ? max : min)[k]!) as unknown as Vec3);
}

/** A rigid motion moves no point of a box farther than one of its corners. */
function farthest(corners: readonly Vec3[], from: Pose, to: Pose): number {
  let most = 0;
  for (const [x, y, z] of corners) {
    let square = 0;
    for (let row = 0; row < 12; row += 4) {
      const off =
        (to[row]! - from[row]!) * x +
        (to[row + 1]! - from[row + 1]!) * y +
        (to[row + 2]! - from[row + 2]!) * z +
        (to[row + 3]! - from[row + 3]!);
      square += off * off;
    }
    most = Math.max(most, square);
  }
  return Math.sqrt(most);
}
