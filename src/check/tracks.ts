import type { Motion } from "../clearance/types.ts";
import { type Corner, compileCorner } from "../kinematics/corner.ts";
import { mountWriter } from "../kinematics/mounts.ts";
import { powertrainPose } from "../kinematics/powertrain.ts";
import { innerJoint, writeShaftPose } from "../kinematics/shaft.ts";
import { runTravel, type TravelRun } from "../kinematics/travel.ts";
import { identityPose, mirrorPose, POSE_SIZE, poseOfTrack } from "../maths/pose.ts";
import type { PowertrainPose, Scene, Side } from "../scene/scene.ts";
import { withCloserKnots } from "./closerKnots.ts";
import type { CheckShelf } from "./shelf.ts";

/** Knots of a motion, where it is not near a lock: an arm of 100 mm strays 0.00125 mm from the chord between two of them. */
export const KNOT_MM = 1;

/** One side run through its travel: what curves, limits and the sweep read. */
export interface SideRun {
  readonly side: Side;
  readonly corner: Corner;
  readonly run: TravelRun;
}

export function runSide(scene: Scene, side: Side): SideRun {
  const corner = compileCorner(scene, side);
  const run = runTravel(corner, { ...scene.travel, step_mm: Math.min(KNOT_MM, scene.travel.step_mm) });
  return { side, corner, run: withCloserKnots(corner, run) };
}

/** Every side of the scene. The carrier is solved in the left frame for either, so that one run serves both. */
export function runSides(scene: Scene): SideRun[] {
  const [first, ...others] = scene.sides;
  if (first === undefined) return [];
  const ran = runSide(scene, first);
  return [ran, ...others.map((side): SideRun => ({ side, corner: compileCorner(scene, side), run: ran.run }))];
}

/** Motions by mount in one powertrain pose, car coordinates. */
export type Tracks = ReadonlyMap<string, Motion>;

/** Every mount of every side that no powertrain pose moves, through the travel it reaches. */
export function ridingTracks(runs: readonly SideRun[], shelf: CheckShelf): Map<Side, Tracks> {
  const bySide = new Map<Side, Tracks>();
  const [first] = runs;
  if (!first) return bySide;
  const ridden = rideAlong(first);
  for (const { side } of runs) {
    const tracks = new Map<string, Motion>();
    for (const [mount, motion] of ridden) {
      tracks.set(mount, shelf.sameMotion(`${side} ${mount}`, side === first.side ? motion : mirrored(motion)));
    }
    bySide.set(side, tracks);
  }
  return bySide;
}

function rideAlong({ corner, run: { travel_mm, carrier } }: SideRun): [string, Motion][] {
  const writer = mountWriter(corner, "rest");
  const motions = writer.order.map(() => new Float64Array(travel_mm.length * POSE_SIZE));
  const poses = new Float64Array(writer.order.length * POSE_SIZE);
  for (let knot = 0; knot < travel_mm.length; knot++) {
    writer.write(poseOfTrack(carrier, knot), poses);
    for (let mount = 0; mount < motions.length; mount++) {
      const motion = motions[mount]!;
      for (let k = 0; k < POSE_SIZE; k++) motion[knot * POSE_SIZE + k] = poses[mount * POSE_SIZE + k]!;
    }
  }
  return writer.order
    .map((mount, i): [string, Motion] => [mount, { travel_mm, poses: motions[i]! }])
    .filter(([mount]) => mount !== "chassis" && !isMovedByPose(mount));
}

/** Whether the mount's motion is another in every powertrain pose. */
export function isMovedByPose(mount: string): boolean {
  return mount === "powertrain" || mount === "driveshaft";
}

const CHASSIS = still(identityPose());

/** Every mount of one side in the powertrain pose `poseId`; `riding` as ridingTracks has it for that side. */
export function tracksOf(sideRun: SideRun, riding: Tracks, poseId: string, shelf: CheckShelf): Tracks {
  const { scene } = sideRun.corner;
  const tracks = new Map(riding).set("chassis", CHASSIS);
  tracks.set("powertrain", shelf.sameMotion(`powertrain in ${poseId}`, powertrainMotion(scene, poseId)));
  if (scene.driveshaft) {
    const motion = shaftMotion(sideRun, poseId, 1);
    tracks.set("driveshaft", shelf.sameMotion(`${sideRun.side} driveshaft in ${poseId}`, motion));
  }
  return tracks;
}

/** What mirrorPose does to each number of a pose: here to tracks, without a view for each. */
const IMAGE_SIGNS = mirrorPose(new Float64Array(POSE_SIZE).fill(1));

function mirrored({ travel_mm, poses }: Motion): Motion {
  const image = new Float64Array(poses.length);
  for (let at = 0; at < poses.length; at += POSE_SIZE) {
    for (let k = 0; k < POSE_SIZE; k++) image[at + k] = IMAGE_SIGNS[k]! * poses[at + k]!;
  }
  return { travel_mm, poses: image };
}

function still(pose: Float64Array): Motion {
  return { travel_mm: Float64Array.of(0), poses: pose };
}

/** The powertrain at a share of its way from rest to a pose. */
export function powertrainMotion(scene: Scene, poseId: string, share = 1): Motion {
  return still(powertrainPose(scene, poseId, share));
}

/** The driveshaft of one side through the travel it reaches, the powertrain at a share of its way from rest to a pose. */
export function shaftMotion({ side, corner, run }: SideRun, poseId: string, share: number): Motion {
  const { scene } = corner;
  const { driveshaft } = scene;
  if (!driveshaft) throw new Error("the scene has no driveshaft");
  const inner = innerJoint(driveshaft, side, powertrainPose(scene, poseId, share)).at;
  const poses = new Float64Array(run.carrier.length);
  for (let knot = 0; knot < run.travel_mm.length; knot++) {
    const pose = poseOfTrack(poses, knot);
    writeShaftPose(driveshaft, inner, poseOfTrack(run.carrier, knot), pose);
    if (side === "right") mirrorPose(pose, pose);
  }
  return { travel_mm: run.travel_mm, poses };
}

/** Travel within [from, to] in which the pose is credible; null where there is none. */
export function credibleRange(pose: PowertrainPose, from_mm: number, to_mm: number): [number, number] | null {
  const [from, to] = pose.within_mm ?? [from_mm, to_mm];
  const range: [number, number] = [Math.max(from, from_mm), Math.min(to, to_mm)];
  return range[0] <= range[1] ? range : null;
}
