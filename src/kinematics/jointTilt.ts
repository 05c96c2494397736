import { applyPose, isSamePose, POSE_SIZE, type Pose, turnByPose } from "../maths/pose.ts";
import { cross, dot, length, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { partOfJoint } from "../scene/jointNames.ts";
import type { JointFit, LinkMember } from "../scene/scene.ts";
import { barState } from "./antiRollBar.ts";
import type { Corner } from "./corner.ts";

const DEGREES = 180 / Math.PI;

/** One joint at any carrier pose. Both are 0 as drawn, but for a rod end's tilt on a rod that is not drawn square to its bolt. */
export interface JointReader {
  /**
   * Angle between the housing and where it would sit square on its bolt or stud, 0 to 180. For a part that may spin about
   * its own line (a link between ball joints, a damper half, a drop link) the least that any spin leaves.
   */
  tilt_deg(carrier: Pose): number;
  /** Turn about the bolt's own axis from as drawn, right hand. */
  twist_deg(carrier: Pose): number;
}

/** A link between two rod ends at one carrier pose: how their bolts have turned against each other about the link. */
export interface LinkTwist {
  /** From as drawn; the two rod ends share it as the link spins. */
  readonly twist_deg: number;
  /** The most that both can share before each is at its limit. */
  readonly room_deg: number;
}

/** How one joint of the corner reads, in the left frame: either side's readings are the same. */
export function jointReader(corner: Corner, fit: JointFit): JointReader {
  const place = placeOf(corner, fit.joint);
  return "lineAt" in place ? rodReader(place, fit) : bodyReader(place, fit);
}

/** The unit vector along the joint's bolt or stud at a carrier pose, left frame. */
export function boltReader(corner: Corner, { joint, axis }: JointFit): (carrier: Pose) => Vec3 {
  const { bracketAt } = placeOf(corner, joint);
  return (carrier) => turnByPose(bracketAt(carrier), axis);
}

/** A part of which only the direction is certain: it may spin about its own line. */
interface Rod {
  readonly drawn: Vec3;
  lineAt(carrier: Pose): Vec3;
  /** Pose of what holds the bolt. */
  bracketAt(carrier: Pose): Pose;
}

interface Held {
  bodyAt(carrier: Pose): Pose;
  bracketAt(carrier: Pose): Pose;
}

const STILL = Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0);
const chassis = (): Pose => STILL;

/** The bolt sits in the chassis at inboard ends, in the bar at its arm, else in what the part's outboard end is fixed to. */
function placeOf(corner: Corner, joint: string): Rod | Held {
  const { scene } = corner;
  const poseOn = (on: string) => posesOn(corner, on);
  const part = partOfJoint(joint);
  const end = joint.slice(part.length + 1);
  const { damper, antiRollBar: bar } = scene;
  if (part === "damper" && damper) {
    const bottom = poseOn(damper.on);
    return {
      drawn: normalise(subtract(damper.bottom, damper.top)),
      lineAt: (carrier) => normalise(subtract(applyPose(bottom(carrier), damper.bottom), damper.topMounted)),
      bracketAt: end === "top" ? chassis : bottom,
    };
  }
  if (part === "bar" && bar) {
    // where the drop link does not reach, the travel has ended
    const barAt = (carrier: Pose): Pose => barState(corner, carrier)?.bar ?? STILL;
    if (end === "pivot") return { bodyAt: barAt, bracketAt: chassis };
    const pickup = poseOn(bar.on);
    return {
      drawn: normalise(subtract(bar.pickup, bar.arm)),
      lineAt: (carrier) =>
        normalise(subtract(applyPose(pickup(carrier), bar.pickup), applyPose(barAt(carrier), bar.arm))),
      bracketAt: end === "arm" ? barAt : pickup,
    };
  }
  const member = scene.members.find(({ id }) => id === part);
  if (!member) throw new Error(`no part holds the joint ${joint}`);
  const bracketAt = end === "outboard" ? poseOn("carrier") : chassis;
  // a bushed link is held against spinning: all of its turn is at the other end
  if (member.kind === "link" && (!member.bushAxis || end === "inboard")) return { ...linkLine(member), bracketAt };
  return { bodyAt: poseOn(member.id), bracketAt };
}

const known = new WeakMap<Corner, Map<string, (carrier: Pose) => Pose>>();

/** The poses of what rides on a mount; the last one is kept, as its joints ask in turn for the same. */
function posesOn(corner: Corner, on: string): (carrier: Pose) => Pose {
  const mounts = known.get(corner) ?? new Map<string, (carrier: Pose) => Pose>();
  known.set(corner, mounts);
  const before = mounts.get(on);
  if (before) return before;
  const rider = corner.rider(on);
  let asked: Pose | null = null;
  let pose: Pose = STILL;
  const poseAt = (carrier: Pose): Pose => {
    if (asked && isSamePose(asked, carrier)) return pose;
    asked = carrier.slice();
    pose = rider.pose(carrier, new Float64Array(POSE_SIZE));
    return pose;
  };
  mounts.set(on, poseAt);
  return poseAt;
}

function linkLine({ inboard, inboardMounted, outboard }: LinkMember): Pick<Rod, "drawn" | "lineAt"> {
  return {
    drawn: normalise(subtract(outboard, inboard)),
    lineAt: (carrier) => normalise(subtract(applyPose(carrier, outboard), inboardMounted)),
  };
}

/**
 * A rod end's housing is square to its rod, so the bolt leans by what is missing to 90° between rod and bolt; other joints
 * are made to the angle at which they are drawn.
 */
function rodReader({ drawn, lineAt, bracketAt }: Rod, { kind, axis }: JointFit): JointReader {
  const made_deg = kind === "rod end" ? 90 : angle_deg(drawn, axis);
  const inBracket = (carrier: Pose) => turnedBack(bracketAt(carrier), lineAt(carrier));
  return {
    tilt_deg: (carrier) => Math.abs(angle_deg(inBracket(carrier), axis) - made_deg),
    twist_deg: (carrier) => turnAbout_deg(drawn, inBracket(carrier), axis),
  };
}

/**
 * Of a part whose whole pose is certain: with R its turn against the bracket, the tilt is the angle between R·b and b, the
 * twist the turn about b that is left when R is split into a twist about b and a swing square to it (by quaternions).
 */
function bodyReader({ bodyAt, bracketAt }: Held, { axis }: JointFit): JointReader {
  return {
    tilt_deg: (carrier) => angle_deg(turnByPose(bodyAt(carrier), axis), turnByPose(bracketAt(carrier), axis)),
    twist_deg(carrier) {
      const [bracket, body] = [bracketAt(carrier), bodyAt(carrier)];
      const [x, y, z] = UNITS.map((unit) => turnedBack(bracket, turnByPose(body, unit))) as [Vec3, Vec3, Vec3];
      const vector: Vec3 = [y[2] - z[1], z[0] - x[2], x[1] - y[0]];
      return 2 * Math.atan2(dot(vector, axis), 1 + x[0] + y[1] + z[2]) * DEGREES;
    },
  };
}

const UNITS: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/**
 * How the bolts of a link's two rod ends turn against each other about the link; null for a link with other joints, with a
 * bush that holds it, or without limits at both ends. A rod end whose bolt leans by t takes a spin φ of the link as a tilt
 * whose cosine is cos t · cos φ, so that at its limit L it leaves φ = arccos(cos L / cos t).
 */
export function linkTwistReader(
  corner: Corner,
  member: LinkMember,
  fits: readonly JointFit[],
): ((carrier: Pose) => LinkTwist) | null {
  if (member.bushAxis) return null;
  const [inner, outer] = ["inboard", "outboard"].map((end) =>
    fits.find(
      ({ joint, kind, tilt_deg }) => joint === `${member.id}.${end}` && kind === "rod end" && tilt_deg !== null,
    ),
  );
  if (!inner || !outer) return null;
  const reads = [jointReader(corner, inner), jointReader(corner, outer)];
  const { drawn, lineAt } = linkLine(member);
  const asDrawn = turnAbout_deg(inner.axis, outer.axis, drawn);
  return (carrier) => {
    const turned = turnAbout_deg(inner.axis, turnByPose(carrier, outer.axis), lineAt(carrier)) - asDrawn;
    // a bolt has no front: half a turn is none
    const twist_deg = turned - 180 * Math.round(turned / 180);
    const room_deg = [inner, outer].reduce((sum, { tilt_deg, crooked_deg }, i) => {
      return sum + spinLeft_deg(tilt_deg! - crooked_deg, reads[i]!.tilt_deg(carrier));
    }, 0);
    return { twist_deg, room_deg };
  };
}

function spinLeft_deg(limit_deg: number, tilt_deg: number): number {
  if (tilt_deg >= limit_deg) return 0;
  return Math.acos(Math.cos(limit_deg / DEGREES) / Math.cos(tilt_deg / DEGREES)) * DEGREES;
}

function turnedBack(pose: Pose, [x, y, z]: Vec3): Vec3 {
  return [
    pose[0]! * x + pose[4]! * y + pose[8]! * z,
    pose[1]! * x + pose[5]! * y + pose[9]! * z,
    pose[2]! * x + pose[6]! * y + pose[10]! * z,
  ];
}

function angle_deg(a: Vec3, b: Vec3): number {
  return Math.atan2(length(cross(a, b)), dot(a, b)) * DEGREES;
}

/** Right-hand turn about the axis from one direction to another, as seen along it; 0 where one lies along it. */
function turnAbout_deg(from: Vec3, to: Vec3, axis: Vec3): number {
  const [a, b] = [from, to].map((v) => subtract(v, scale(axis, dot(v, axis)))) as [Vec3, Vec3];
  return Math.atan2(dot(cross(a, b), axis), dot(a, b)) * DEGREES;
}
