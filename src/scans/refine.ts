import { eigenOfSymmetric } from "../maths/eigen.ts";
import { applyPose, composePoses, leastTurnPose, type Pose, rotationPose, turnByPose } from "../maths/pose.ts";
import { add, cross, dot, length, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { fitPlane, middleOf, rootMeanSquare } from "./fitPlane.ts";

/** A flat picked on the scan (points of it, mm, the scan's axes) that must lie in a plane of the car. */
export interface PlaneMatch {
  readonly kind: "plane";
  readonly points: readonly Vec3[];
  readonly at: Vec3;
  /** Unit normal, either way round. */
  readonly normal: Vec3;
}

/** The axis of a round picked on the scan (two points of it) that must lie in a line of the car. */
export interface AxisMatch {
  readonly kind: "axis";
  readonly points: readonly [Vec3, Vec3];
  readonly at: Vec3;
  /** Unit vector, either way round. */
  readonly axis: Vec3;
}

export type SurfaceMatch = PlaneMatch | AxisMatch;

export interface Refinement {
  readonly pose: Pose;
  /** Of each match: root mean square and greatest distance from where its points should be, mm. */
  readonly fits: readonly { readonly rms_mm: number; readonly worst_mm: number }[];
  /** How many of the six ways a body can move these surfaces hold; in the others it stays where it was. */
  readonly held: number;
}

/** Ways to move that change the distances by less than this share of what the best held one does are left alone. */
const LEAST_HOLD = 0.01;
const MOST_ROUNDS = 50;
/** Linear turns end nowhere for a surface that stands square to where it must lie: one tilted by more is turned there first. */
const MOST_LINEAR_TILT_RAD = Math.PI / 4;

/**
 * From a placed scan to the nearest place in which its picked surfaces lie where they should, each match counting alike:
 * least squares of distances along the normals, the turn made linear in each round (Y. Chen, G. Medioni, "Object modelling by
 * registration of multiple range images", Image Vis. Comput. 10 (1992) 145; K.-L. Low, "Linear least-squares optimization for
 * point-to-plane ICP surface registration", 2004). What the surfaces do not hold takes the step of least length: none.
 */
export function refinePlace(from: Pose, matches: readonly SurfaceMatch[]): Refinement {
  let pose = turnedTowards(from, matches);
  let held = 0;
  const all = matches.flatMap(({ points }) => points.map((p) => applyPose(pose, p)));
  const middle = all.length > 0 ? middleOf(all) : ([0, 0, 0] as const);
  const reach = rootMeanSquare(all.map((p) => length(subtract(p, middle)))) || 1;
  for (let round = 0; round < MOST_ROUNDS && matches.length > 0; round++) {
    const step = stepOf(pose, matches, middle, reach);
    held = step.held;
    const angle = length(step.turn);
    const turned = rotationPose(angle > 0 ? normalise(step.turn) : [1, 0, 0], angle, middle);
    for (const k of [0, 1, 2] as const) turned[4 * k + 3]! += step.shift[k];
    pose = composePoses(turned, pose);
    if (Math.hypot(angle * reach, length(step.shift)) < 1e-10) break;
  }
  const fits = matches.map((match) => {
    const off = distancesOf(pose, match).map(({ off_mm }) => off_mm);
    // an axis point is off by both its parts
    const sizes =
      match.kind === "plane" ? off.map(Math.abs) : [0, 1].map((i) => Math.hypot(off[2 * i]!, off[2 * i + 1]!));
    return { rms_mm: rootMeanSquare(sizes), worst_mm: Math.max(...sizes) };
  });
  return { pose, fits, held };
}

/**
 * The place from which linear steps find the rest: the first surface that is far off turned by the least turn about its
 * middle, each later one about the way the first one faces.
 */
function turnedTowards(from: Pose, matches: readonly SurfaceMatch[]): Pose {
  let pose = from;
  let faced: Vec3 | null = null;
  for (const match of matches) {
    const target = match.kind === "plane" ? match.normal : match.axis;
    const way = turnByPose(pose, wayOf(match));
    const [has, wanted] = [way, target].map((v) => (faced ? subtract(v, scale(faced, dot(v, faced))) : v)) as [
      Vec3,
      Vec3,
    ];
    const alike = dot(has, wanted) / (length(has) * length(wanted));
    if (Math.abs(alike) < Math.cos(MOST_LINEAR_TILT_RAD)) {
      const toward = scale(wanted, alike < 0 ? -1 : 1);
      pose = composePoses(leastTurnPose(has, toward, applyPose(pose, middleOf(match.points))), pose);
    }
    faced ??= target;
  }
  return pose;
}

/** Which way a picked surface faces, or runs, in the scan's axes: unit vector, either way round. */
function wayOf(match: SurfaceMatch): Vec3 {
  return match.kind === "plane" ? fitPlane(match.points).normal : normalise(subtract(match.points[1], match.points[0]));
}

interface Off {
  readonly at: Vec3;
  /** Unit vector along which the distance counts. */
  readonly along: Vec3;
  readonly off_mm: number;
}

function distancesOf(pose: Pose, match: SurfaceMatch): Off[] {
  if (match.kind === "plane") {
    return match.points.map((point) => {
      const at = applyPose(pose, point);
      return { at, along: match.normal, off_mm: dot(subtract(at, match.at), match.normal) };
    });
  }
  const across = normalise(cross(match.axis, Math.abs(match.axis[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]));
  return match.points.flatMap((point) => {
    const at = applyPose(pose, point);
    return [across, cross(match.axis, across)].map((along) => ({
      at,
      along,
      off_mm: dot(subtract(at, match.at), along),
    }));
  });
}

/** Turns count by how far they move a point at `reach`, so that they and shifts are alike. */
function stepOf(pose: Pose, matches: readonly SurfaceMatch[], middle: Vec3, reach: number) {
  const matrix = Array.from({ length: 6 }, () => new Array<number>(6).fill(0));
  const right = new Array<number>(6).fill(0);
  for (const match of matches) {
    const offs = distancesOf(pose, match);
    for (const { at, along, off_mm } of offs) {
      const row = [...scale(cross(subtract(at, middle), along), 1 / reach), ...along];
      for (let i = 0; i < 6; i++) {
        right[i]! -= (row[i]! * off_mm) / offs.length;
        for (let j = 0; j < 6; j++) matrix[i]![j]! += (row[i]! * row[j]!) / offs.length;
      }
    }
  }
  const { values, vectors } = eigenOfSymmetric(matrix);
  const step = new Array<number>(6).fill(0);
  const isHeld = values.map((value) => value > LEAST_HOLD ** 2 * values[0]!);
  for (const [i, vector] of vectors.entries()) {
    if (!isHeld[i]) continue;
    const along = vector.reduce((sum, part, k) => sum + part * right[k]!, 0) / values[i]!;
    for (let k = 0; k < 6; k++) step[k]! += along * vector[k]!;
  }
  return {
    turn: scale([step[0]!, step[1]!, step[2]!], 1 / reach),
    shift: [step[3]!, step[4]!, step[5]!] as Vec3,
    held: isHeld.filter(Boolean).length,
  };
}

/** The match of a fitted axis: two points of it, as far from each other as the round is long. */
export function axisPoints(at: Vec3, axis: Vec3, length_mm: number): [Vec3, Vec3] {
  return [add(at, scale(axis, -length_mm / 2)), add(at, scale(axis, length_mm / 2))];
}
