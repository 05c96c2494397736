import { curveTravels } from "../../check/curves.ts";
import { limitsOf } from "../../check/limits.ts";
import type { LimitVerdict } from "../../check/result.ts";
import type { SideRun } from "../../check/tracks.ts";
import { solveCorner } from "../../kinematics/corner.ts";
import { listJoints } from "../../kinematics/joints.ts";
import { jointReader, linkTwistReader } from "../../kinematics/jointTilt.ts";
import { partOfJoint } from "../../scene/jointNames.ts";
import type { JointFit, Scene, Side } from "../../scene/scene.ts";

/** A value and the wheel height that brings it. */
export interface AtTravel {
  readonly value: number;
  readonly travel_mm: number;
}

export interface JointStudy {
  readonly joint: string;
  /** What the scene tells of it; null: nothing. */
  readonly fit: JointFit | null;
  /** As drawn, at ride height; the greatest over the travel with the bracket straight. Null: its axis is not told. */
  readonly tiltAtRide_deg: number | null;
  readonly tilt_deg: AtTravel | null;
  /** Greatest turn about the bolt either way from as drawn. */
  readonly twist_deg: AtTravel | null;
}

/** A link between two rod ends: the turn of its bolts against each other, and the room that both ends leave for it. */
export interface LinkStudy {
  readonly member: string;
  readonly twist_deg: AtTravel;
  readonly room_deg: number;
}

export interface JointsStudy {
  readonly side: Side;
  readonly joints: readonly JointStudy[];
  readonly links: readonly LinkStudy[];
  /** Verdicts of the check on tilt and twist, crooked brackets counted. */
  readonly limits: readonly LimitVerdict[];
}

/** Every ball, rod end and bush of one side through its travel. The driveshaft's joints are its own study's. */
export function jointsStudy(scene: Scene, sideRun: SideRun): JointsStudy {
  const { corner, run } = sideRun;
  const travels = curveTravels(scene.travel, run);
  const carriers = travels.map((travel_mm) => solveCorner(corner, travel_mm).pose);
  const ride = travels.indexOf(0);
  const worst = (values: readonly number[]): AtTravel => {
    const sizes = values.map(Math.abs);
    const i = sizes.indexOf(Math.max(...sizes));
    return { value: values[i]!, travel_mm: travels[i]! };
  };
  const joints = listJoints(scene)
    .filter(({ id }) => partOfJoint(id) !== "driveshaft")
    .map(({ id }): JointStudy => {
      const fit = scene.joints.find(({ joint }) => joint === id) ?? null;
      if (!fit) return { joint: id, fit, tiltAtRide_deg: null, tilt_deg: null, twist_deg: null };
      const read = jointReader(corner, fit);
      const tilts = carriers.map((carrier) => read.tilt_deg(carrier));
      return {
        joint: id,
        fit,
        tiltAtRide_deg: tilts[ride]!,
        tilt_deg: worst(tilts),
        twist_deg: worst(carriers.map((carrier) => read.twist_deg(carrier))),
      };
    });
  const links = scene.members.flatMap((member): LinkStudy[] => {
    const read = member.kind === "link" ? linkTwistReader(corner, member, scene.joints) : null;
    if (!read) return [];
    const readings = carriers.map(read);
    const twist_deg = worst(readings.map((reading) => reading.twist_deg));
    return [{ member: member.id, twist_deg, room_deg: readings[travels.indexOf(twist_deg.travel_mm)]!.room_deg }];
  });
  return {
    side: corner.side,
    joints,
    links,
    limits: limitsOf(scene, sideRun, scene.powertrain.poses).filter(
      ({ what }) => what === "joint-tilt" || what === "joint-twist",
    ),
  };
}
