import { poseOfMotion } from "../clearance/motion.ts";
import type { Corner } from "../kinematics/corner.ts";
import { type MountWriter, mountWriter } from "../kinematics/mounts.ts";
import type { TravelRun } from "../kinematics/travel.ts";
import { composePoses, invertPose, POSE_SIZE, type Pose, poseOfTrack } from "../maths/pose.ts";

/** Between knots nothing on the corner may stray farther from the screw through them: a twentieth of what a gap is told to, mm. */
const STRAY_mm = 0.005;
/** Nearer than this two knots are not brought: what is left of a lock then is a way of some micrometres in travel. */
const CLOSEST_mm = 1 / 1024;
/** How far from the wheel's centre parts of a corner lie, mm: along, inboard, up. */
const REACH_mm = [400, 500, 400] as const;

interface Knot {
  readonly travel_mm: number;
  readonly carrier: Pose;
  /** Of all mounts, one after the other. */
  readonly poses: Float64Array;
}

/**
 * The run with knots added where they are too far apart: near a lock of the members or of the bar's drop link parts go many times as far
 * as the wheel rises, and the screw from knot to knot would leave them beside their way. Elsewhere, and so in most scenes, the run is
 * given back as it is.
 */
export function withCloserKnots(corner: Corner, run: TravelRun): TravelRun {
  const { travel_mm } = run;
  if (travel_mm.length < 3) return run;
  const writer = mountWriter(corner, "rest");
  const marks = marksOf(corner);
  const bends = bendsOf(run, writer, marks);
  if (!bends.some((bend_mm) => bend_mm > STRAY_mm)) return run;
  const knotAt = (travel: number, carrier: Pose): Knot => {
    const poses = new Float64Array(writer.order.length * POSE_SIZE);
    writer.write(carrier, poses);
    return { travel_mm: travel, carrier, poses };
  };
  const between = (from: Knot, to: Knot): Knot[] => {
    if (to.travel_mm - from.travel_mm < 2 * CLOSEST_mm) return [];
    const travel = (from.travel_mm + to.travel_mm) / 2;
    const middle = knotAt(travel, corner.solver.solve(travel).pose);
    if (strayAt(from, to, middle, marks) <= STRAY_mm) return [];
    return [...between(from, middle), middle, ...between(middle, to)];
  };
  const all: Knot[] = [];
  for (let i = 0; i < travel_mm.length; i++) {
    const knot = knotAt(travel_mm[i]!, poseOfTrack(run.carrier, i));
    const before = all.at(-1);
    if (before && bends[i - 1]! > STRAY_mm) all.push(...between(before, knot));
    all.push(knot);
  }
  if (all.length === travel_mm.length) return run;
  const carrier = new Float64Array(all.length * POSE_SIZE);
  for (const [i, knot] of all.entries()) carrier.set(knot.carrier, i * POSE_SIZE);
  return { ...run, travel_mm: Float64Array.from(all, (knot) => knot.travel_mm), carrier };
}

/** The wheel's centre and three places round it as the side has them, 3 numbers each: what moves none of these far moves no part far. */
function marksOf({ scene, side }: Corner): Float64Array {
  const [x, leftY, z] = scene.wheel.centre;
  const [along, inboard, up] = REACH_mm;
  const y = side === "left" ? leftY : -leftY;
  return Float64Array.of(x, y, z, x + along, y, z, x, y - Math.sign(y) * inboard, z, x, y, z + up);
}

/** Where the marks are if they ride on the mount `index` of `poses`. */
function place(poses: Float64Array, index: number, marks: Float64Array, out: Float64Array): void {
  const from = index * POSE_SIZE;
  for (let k = 0; k < marks.length; k += 3) {
    const [x, y, z] = [marks[k]!, marks[k + 1]!, marks[k + 2]!];
    for (let d = 0; d < 3; d++) {
      const row = from + 4 * d;
      out[k + d] = poses[row]! * x + poses[row + 1]! * y + poses[row + 2]! * z + poses[row + 3]!;
    }
  }
}

/** How far a mark on any mount is from its place where it rides the screw from one knot to the other, mm. */
function strayAt(from: Knot, to: Knot, middle: Knot, marks: Float64Array): number {
  const [there, here] = [new Float64Array(marks.length), new Float64Array(marks.length)];
  const travel_mm = Float64Array.of(from.travel_mm, to.travel_mm);
  const pair = new Float64Array(2 * POSE_SIZE);
  const pose = new Float64Array(POSE_SIZE);
  let most_mm = 0;
  for (let mount = 0; mount * POSE_SIZE < middle.poses.length; mount++) {
    pair.set(poseOfTrack(from.poses, mount), 0);
    pair.set(poseOfTrack(to.poses, mount), POSE_SIZE);
    place(poseOfMotion({ travel_mm, poses: pair }, middle.travel_mm, pose), 0, marks, there);
    place(middle.poses, mount, marks, here);
    most_mm = Math.max(most_mm, farthest(there, here));
  }
  return most_mm;
}

/**
 * How far each stretch between two knots may stray from its screw, mm: an eighth of how far a mark is from where the step before would
 * have taken it once more (for a parabola), here twice that, for near a lock the steps change faster. Stretches of another length than
 * their neighbour's are not told by it: Infinity.
 */
function bendsOf({ travel_mm, carrier }: TravelRun, writer: MountWriter, marks: Float64Array): Float64Array {
  const mounts = writer.order.length;
  const [before, here, after] = [0, 1, 2].map(() => new Float64Array(mounts * POSE_SIZE)) as Poses;
  const [back, step, again] = [0, 1, 2].map(() => new Float64Array(POSE_SIZE)) as Poses;
  const [went, wouldGo] = [new Float64Array(marks.length), new Float64Array(marks.length)];
  const bends = new Float64Array(travel_mm.length - 1);
  for (let i = 0; i < travel_mm.length; i++) {
    before.set(here);
    here.set(after);
    writer.write(poseOfTrack(carrier, i), after);
    if (i < 2) continue;
    let most_mm = Number.POSITIVE_INFINITY;
    if (Math.abs(travel_mm[i]! - 2 * travel_mm[i - 1]! + travel_mm[i - 2]!) < 1e-9) {
      most_mm = 0;
      for (let mount = 0; mount < mounts; mount++) {
        const at = poseOfTrack(here, mount);
        composePoses(at, invertPose(poseOfTrack(before, mount), back), step);
        composePoses(step, at, again);
        place(again, 0, marks, wouldGo);
        place(after, mount, marks, went);
        most_mm = Math.max(most_mm, farthest(went, wouldGo));
      }
    }
    bends[i - 2] = Math.max(bends[i - 2]!, most_mm / 4);
    bends[i - 1] = most_mm / 4;
  }
  return bends;
}

type Poses = [Float64Array, Float64Array, Float64Array];

/** The largest distance between places of the same mark, mm. */
function farthest(these: Float64Array, those: Float64Array): number {
  let most = 0;
  for (let k = 0; k < these.length; k += 3) {
    const [x, y, z] = [these[k]! - those[k]!, these[k + 1]! - those[k + 1]!, these[k + 2]! - those[k + 2]!];
    most = Math.max(most, x * x + y * y + z * z);
  }
  return Math.sqrt(most);
}
