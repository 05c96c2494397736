import { eigenOfSymmetric } from "../maths/eigen.ts";
import { applyPose, POSE_SIZE, type Pose, turnByPose } from "../maths/pose.ts";
import { principalAxes, sumOfOuter } from "../maths/sym3.ts";
import { add, distance, length, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";

/** One place picked on the scan, mm, in the scan's own axes, and where it is in the car. */
export interface PointPair {
  readonly scan: Vec3;
  readonly car: Vec3;
}

export interface Registration {
  /** Takes the scan into the car. */
  readonly pose: Pose;
  /** How far each placed point is from where it should be, mm. */
  readonly residuals_mm: readonly number[];
  readonly rms_mm: number;
  /** Numbers of the pairs that go badly with all the others. */
  readonly suspects: readonly number[];
  /** Distances between the points in the car over those on the scan; 1 where the scan has its true size. */
  readonly stretch: number;
}

/** Points whose spread off their line is less than this share of their spread along it do not say how the scan is turned. */
const LEAST_WIDTH = 0.03;
/** A pair is a suspect when the others agree this many times better with each other than with it, */
const SUSPECT_RATIO = 5;
/** and it is off by more than a hand that picks on a scan is: common practice, no source. */
const SUSPECT_mm = 5;

/**
 * The rigid motion that brings the scan's points nearest to the car's (least sum of squares), in closed form: B. K. P. Horn,
 * "Closed-form solution of absolute orientation using unit quaternions", J. Opt. Soc. Am. A 4 (1987) 629, section 4: the
 * quaternion is the eigenvector of the largest eigenvalue of a symmetric 4×4 matrix of sums of products.
 * Throws InputError `scan-pairs` for fewer than three pairs, points in one place and points in a line.
 */
export function registerPairs(pairs: readonly PointPair[]): Registration {
  refuseWeak(pairs);
  const pose = bestPose(pairs);
  const residuals_mm = residualsOf(pose, pairs);
  return {
    pose,
    residuals_mm,
    rms_mm: rms(residuals_mm),
    suspects: suspectsOf(pairs, residuals_mm),
    stretch: spread(pairs.map(({ car }) => car)) / spread(pairs.map(({ scan }) => scan)),
  };
}

export function residualsOf(pose: Pose, pairs: readonly PointPair[]): number[] {
  return pairs.map(({ scan, car }) => distance(applyPose(pose, scan), car));
}

export function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}

function bestPose(pairs: readonly PointPair[]): Pose {
  const fromMiddle = middle(pairs.map(({ scan }) => scan));
  const toMiddle = middle(pairs.map(({ car }) => car));
  const s = [0, 1, 2].map(() => [0, 0, 0]);
  for (const { scan, car } of pairs) {
    const [l, r] = [subtract(scan, fromMiddle), subtract(car, toMiddle)];
    for (const i of [0, 1, 2] as const) for (const j of [0, 1, 2] as const) s[i]![j]! += l[i] * r[j];
  }
  const [[xx, xy, xz], [yx, yy, yz], [zx, zy, zz]] = s as unknown as readonly [Sums, Sums, Sums];
  const { vectors } = eigenOfSymmetric([
    [xx + yy + zz, yz - zy, zx - xz, xy - yx],
    [yz - zy, xx - yy - zz, xy + yx, zx + xz],
    [zx - xz, xy + yx, -xx + yy - zz, yz + zy],
    [xy - yx, zx + xz, yz + zy, -xx - yy + zz],
  ]);
  const pose = poseOfQuaternion(vectors[0]!);
  const shift = subtract(toMiddle, turnByPose(pose, fromMiddle));
  for (const k of [0, 1, 2] as const) pose[4 * k + 3] = shift[k];
  return pose;
}

type Sums = readonly [number, number, number];

function poseOfQuaternion(quaternion: readonly number[]): Pose {
  const size = Math.hypot(...quaternion);
  const [w, x, y, z] = quaternion.map((part) => part / size) as [number, number, number, number];
  const pose = new Float64Array(POSE_SIZE);
  pose.set([1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)], 0);
  pose.set([2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)], 4);
  pose.set([2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)], 8);
  return pose;
}

function refuseWeak(pairs: readonly PointPair[]): void {
  if (pairs.length < 3) {
    const count = pairs.length === 1 ? "there is 1 pair" : `there are ${pairs.length} pairs`;
    throw new InputError("scan-pairs", {}, count, "three pairs of points at least, not in one line");
  }
  for (const [of, where] of [
    ["scan", "on the scan"],
    ["car", "in the car"],
  ] as const) {
    const points = pairs.map((pair) => pair[of]);
    const about = middle(points);
    const { values } = principalAxes(sumOfOuter(points.map((p) => subtract(p, about))));
    if (!(values[0] > 0)) {
      throw new InputError("scan-pairs", {}, `the points ${where} are all in one place`, "points far from each other");
    }
    if (values[1] < LEAST_WIDTH ** 2 * values[0]) {
      const wrong = `the points ${where} lie nearly in one line, about which the scan could still turn`;
      throw new InputError("scan-pairs", {}, wrong, "one point well off that line: take another for one of them");
    }
  }
}

/**
 * With four pairs or more each is held against the place that the others give. Three always nearly agree once they are placed:
 * of them a pair is told whose distances to both others are wrong while theirs to each other is right.
 */
function suspectsOf(pairs: readonly PointPair[], residuals_mm: readonly number[]): number[] {
  if (Math.max(...residuals_mm) < SUSPECT_mm / 3) return [];
  if (pairs.length === 3) return oddCorner(pairs);
  const found = pairs.map((_, i) => {
    const others = pairs.filter((_, j) => j !== i);
    try {
      refuseWeak(others);
    } catch (error) {
      // the others do not hold the scan without it
      if (error instanceof InputError) return { off: 0, rest: Number.POSITIVE_INFINITY };
      throw error;
    }
    const pose = bestPose(others);
    return { off: residualsOf(pose, [pairs[i]!])[0]!, rest: Math.max(...residualsOf(pose, others)) };
  });
  const least = Math.min(...found.map(({ rest }) => rest));
  return found.flatMap(({ off, rest }, i) =>
    off > SUSPECT_mm && off > SUSPECT_RATIO * rest && rest <= 2 * least ? [i] : [],
  );
}

function oddCorner(pairs: readonly PointPair[]): number[] {
  const wrong = (i: number, j: number) =>
    Math.abs(distance(pairs[i]!.scan, pairs[j]!.scan) - distance(pairs[i]!.car, pairs[j]!.car));
  return [0, 1, 2].filter((i) => {
    const [j, k] = [(i + 1) % 3, (i + 2) % 3];
    const own = Math.min(wrong(i, j), wrong(i, k));
    return own > SUSPECT_mm && own > SUSPECT_RATIO * wrong(j, k);
  });
}

function middle(points: readonly Vec3[]): Vec3 {
  return scale(
    points.reduce((sum, p) => add(sum, p), [0, 0, 0] as Vec3),
    1 / points.length,
  );
}

function spread(points: readonly Vec3[]): number {
  const about = middle(points);
  return Math.sqrt(points.reduce((sum, p) => sum + length(subtract(p, about)) ** 2, 0));
}
