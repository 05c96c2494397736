import { type Corner, compileCorner } from "../../src/kinematics/corner.ts";
import { mountPoses } from "../../src/kinematics/mounts.ts";
import { type Readings, readCorner } from "../../src/kinematics/readings.ts";
import { shaftDesign } from "../../src/kinematics/shaft.ts";
import { applyPose, composePoses, invertPose, mirrorPose, type Pose, poseOfTrack } from "../../src/maths/pose.ts";
import { distance, mirror, type Vec3 } from "../../src/maths/vec3.ts";
import type { Member, Powertrain, Scene, ShaftInner } from "../../src/scene/scene.ts";
import type { Dice } from "./dice.ts";
import type { RunCorner } from "./motion.ts";

const SAME_mm = 1e-7;
/** Readings in mm, degrees and mm a mm. */
const SAME_READING = 1e-6;

/** The car seen in a mirror: powertrain and inner shaft joints change sides, the corner is its own image. */
function mirroredCar(scene: Scene): Scene {
  const { driveshaft, powertrain } = scene;
  const inner = ({ at, axis, ...rest }: ShaftInner): ShaftInner => ({ ...rest, at: mirror(at), axis: mirror(axis) });
  // what turns about an axis turns the other way about the axis' image
  const image: Powertrain = {
    place: powertrain.place && {
      shift_mm: mirror(powertrain.place.shift_mm),
      turn_deg: [-powertrain.place.turn_deg[0], powertrain.place.turn_deg[1], -powertrain.place.turn_deg[2]],
      about: mirror(powertrain.place.about),
    },
    poses: powertrain.poses.map((pose) => ({
      ...pose,
      about: mirror(pose.about),
      axis: mirror(pose.axis),
      angle_deg: -pose.angle_deg,
      shift_mm: mirror(pose.shift_mm),
    })),
  };
  return {
    ...scene,
    powertrain: image,
    driveshaft: driveshaft && {
      ...driveshaft,
      inner: { left: inner(driveshaft.inner.right), right: inner(driveshaft.inner.left) },
    },
  };
}

/** The left corner against the right one of the car's mirror image, every mount and reading. Tells what differs. */
export function faultsOfMirror({ corner, run }: RunCorner): string[] {
  const other = compileCorner(mirroredCar(corner.scene), "right");
  return differences(run.carrier, corner, (carrier, poseId, told) => {
    const faults: string[] = [];
    const image = mountPoses(other, carrier, poseId);
    for (const [mount, pose] of mountPoses(corner, carrier, poseId)) {
      const seen = mirrorPose(image.get(mount)!);
      for (const p of probesOf(corner, other, mount)) {
        const off_mm = distance(applyPose(pose, p.here), applyPose(seen, p.there));
        if (!(off_mm < SAME_mm)) faults.push(`${mount} is ${off_mm} mm from its image ${told}`);
      }
    }
    const [one, its] = [readCorner(corner, carrier, poseId), readCorner(other, carrier, poseId)];
    for (const key of Object.keys(one) as (keyof Readings)[]) {
      if (!isSame(one[key], its[key])) faults.push(`${key} is ${one[key]} and ${its[key]} in the mirror ${told}`);
    }
    return faults;
  });
}

/** Points of a mount as drawn. A shaft's design line is its side's own, so that only its ends can be compared. */
function probesOf(corner: Corner, other: Corner, mount: string): { here: Vec3; there: Vec3 }[] {
  if (mount === "driveshaft") {
    const [here, there] = [shaftDesign(corner.scene, "left")!, shaftDesign(other.scene, "right")!];
    return [
      { here: here.inner, there: there.inner },
      { here: here.outer, there: there.outer },
    ];
  }
  return PROBES.map((p) => ({ here: p, there: p }));
}

const PROBES: readonly Vec3[] = [
  [0, 700, 300],
  [150, 500, 300],
  [0, 500, 500],
];

/** The whole car moved and turned about the vertical: everything goes with it and nothing else changes. Tells what does. */
export function faultsOfRigidMotion({ corner, run }: RunCorner, dice: Dice): string[] {
  const yaw = dice.between(-0.4, 0.4);
  const by = dice.near([0, 0, 0], 200);
  const whole = Float64Array.of(
    ...[Math.cos(yaw), -Math.sin(yaw), 0, by[0]],
    ...[Math.sin(yaw), Math.cos(yaw), 0, by[1]],
    ...[0, 0, 1, 0],
  );
  const back = invertPose(whole);
  const other = compileCorner(movedCar(corner.scene, whole, yaw), "left");
  const turned = (yaw * 180) / Math.PI;
  return differences(run.carrier, corner, (carrier, poseId, told, travel_mm) => {
    const faults: string[] = [];
    const there = new Float64Array(12);
    other.solver.reset();
    if (!other.solver.moveTo(travel_mm)) return [`moved as a whole it does not get there ${told}`];
    other.solver.writePose(there);
    const its = mountPoses(other, there, poseId);
    for (const [mount, pose] of mountPoses(corner, carrier, poseId)) {
      if (mount === "chassis") continue;
      const seen = composePoses(back, composePoses(its.get(mount)!, whole));
      for (const p of PROBES) {
        const off_mm = distance(applyPose(pose, p), applyPose(seen, p));
        if (!(off_mm < SAME_mm)) faults.push(`${mount} is ${off_mm} mm off when all is moved ${told}`);
      }
    }
    const [one, moved] = [readCorner(corner, carrier, poseId), readCorner(other, there, poseId)];
    for (const key of KEPT) {
      if (!isSame(one[key], moved[key])) faults.push(`${key} is ${one[key]}, moved as a whole ${moved[key]} ${told}`);
    }
    if (!isSame(one.toe_deg - turned, moved.toe_deg))
      faults.push(`toe is ${one.toe_deg}, turned ${moved.toe_deg} ${told}`);
    return faults;
  });
}

/** Readings that do not hang on the car's own axes and centre plane. */
const KEPT = ["camber_deg", "damper_mm", "damperRatio", "shaft_mm", "innerAngle_deg", "outerAngle_deg"] as const;

function movedCar(scene: Scene, whole: Pose, yaw: number): Scene {
  const at = (p: Vec3): Vec3 => applyPose(whole, p);
  const along = (d: Vec3): Vec3 =>
    applyPose(
      Float64Array.from(whole, (value, i) => (i % 4 === 3 ? 0 : value)),
      d,
    );
  const { wheel, damper, antiRollBar: bar, driveshaft, powertrain } = scene;
  const inner = (each: ShaftInner): ShaftInner => ({ ...each, at: at(each.at), axis: along(each.axis) });
  return {
    ...scene,
    wheel: { ...wheel, centre: at(wheel.centre), toe_deg: wheel.toe_deg - (yaw * 180) / Math.PI },
    members: scene.members.map((member): Member => moved(member, at, along)),
    damper: damper && { ...damper, top: at(damper.top), topMounted: at(damper.topMounted), bottom: at(damper.bottom) },
    antiRollBar: bar && {
      ...bar,
      pivot: at(bar.pivot),
      pivotMounted: at(bar.pivotMounted),
      axis: along(bar.axis),
      arm: at(bar.arm),
      pickup: at(bar.pickup),
    },
    driveshaft: driveshaft && {
      ...driveshaft,
      outer: at(driveshaft.outer),
      inner: { left: inner(driveshaft.inner.left), right: inner(driveshaft.inner.right) },
    },
    powertrain: {
      // its turn is told about the car's axes
      place: null,
      poses: powertrain.poses.map((pose) => ({
        ...pose,
        about: at(pose.about),
        axis: along(pose.axis),
        shift_mm: along(pose.shift_mm),
      })),
    },
  };
}

function moved(member: Member, at: (p: Vec3) => Vec3, along: (d: Vec3) => Vec3): Member {
  switch (member.kind) {
    case "ball":
      return { ...member, at: at(member.at), atMounted: at(member.atMounted) };
    case "strut":
      return { ...member, top: at(member.top), topMounted: at(member.topMounted), bottom: at(member.bottom) };
    case "link":
      return {
        ...member,
        inboard: at(member.inboard),
        inboardMounted: at(member.inboardMounted),
        outboard: at(member.outboard),
        bushAxis: member.bushAxis && along(member.bushAxis),
      };
    default: {
      const line = {
        front: at(member.front),
        rear: at(member.rear),
        frontMounted: at(member.frontMounted),
        rearMounted: at(member.rearMounted),
      };
      return member.kind === "hinge" ? { ...member, ...line } : { ...member, ...line, outboard: at(member.outboard) };
    }
  }
}

/** What `between` finds wrong low and high in the travel, clear of any lock at its ends, in the last of the powertrain's poses. */
function differences(
  carriers: Float64Array,
  { scene }: Corner,
  between: (carrier: Pose, poseId: string, told: string, travel_mm: number) => string[],
): string[] {
  const last = scene.powertrain.poses.at(-1)!.id;
  const count = carriers.length / 12;
  const inside = [Math.floor(count / 4), Math.floor((3 * count) / 4)].filter((knot) => knot > 0 && knot < count - 1);
  return inside.flatMap((knot) => {
    const carrier = poseOfTrack(carriers, knot);
    const travel_mm = applyPose(carrier, scene.wheel.centre)[2] - scene.wheel.centre[2];
    return between(carrier, last, `at ${travel_mm} mm, ${last}`, travel_mm);
  });
}

function isSame(one: number | null, other: number | null): boolean {
  if (one === null || other === null) return one === other;
  return (
    Math.abs(one - other) <= SAME_READING * Math.max(1, Math.abs(one)) || (Number.isNaN(one) && Number.isNaN(other))
  );
}
