import { barState } from "../kinematics/antiRollBar.ts";
import type { Corner } from "../kinematics/corner.ts";
import { powertrainPose } from "../kinematics/powertrain.ts";
import { groundContact, spinAxis } from "../kinematics/readings.ts";
import { innerJoint } from "../kinematics/shaft.ts";
import { applyPose, POSE_SIZE, type Pose, turnByPose } from "../maths/pose.ts";
import { add, cross, dot, length, mirror, normalise, scale, subtract, type Vec3, ZERO } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import type { Scene } from "../scene/scene.ts";
import type { CornerLoads, JointLoad, MemberLoad, PointForce, ShaftLoad, WheelLoad } from "./forces.ts";
import { LeftOver } from "./residual.ts";
import { type ShaftForces, shaftForces } from "./shaftForces.ts";
import { SIX, SixEquations } from "./sixEquations.ts";
import { type Concluded, joint, momentAbout, type Support, supportOf } from "./supports.ts";

/** Moments are weighed as forces at this distance, so that the six equations are of one size. */
const REACH_mm = 300;
const DEGREES = 180 / Math.PI;

/** A corner standing in one state, ready to be loaded. */
export interface CornerStand {
  /** Everything that the parts pass under one load. */
  balance(load: WheelLoad): CornerLoads;
}

/**
 * The equilibrium of one corner in one state: the hub with wheel and all that is one with it (six equations), each link
 * and wishbone by itself, damper, driveshaft and drop link. Five freedoms that the members take and the damper's force
 * make six unknowns: it is statically determinate, whatever the parts' stiffness. Static: no inertia but that of a wheel
 * that spins free; the parts' own weight is left out: a wheel that is
 * pushed up leans on damper and spring by that much less, one that hangs pulls by that much more.
 *
 * Null where the damper has no lever on the wheel (or the corner locks), and the six equations are singular. Throws
 * InputError "missing-id" for a scene without damper. `carrierLeft`: a pose of this corner in the left frame; `share`: how far
 * the powertrain has got from rest (0) to its pose (1).
 */
export function standCorner(
  corner: Corner,
  carrierLeft: Pose,
  powertrainPoseId = "rest",
  share = 1,
): CornerStand | null {
  const { scene, side } = corner;
  const { damper, wheel, driveshaft } = scene;
  if (!damper)
    throw new InputError(
      "missing-id",
      { path: "damper" },
      "nothing holds the wheel up: the scene has no damper",
      "a damper, whose place tells where spring and stop push",
    );
  const centre = applyPose(carrierLeft, wheel.centre);
  const spin = turnByPose(carrierLeft, spinAxis(wheel));
  const contact = groundContact(wheel, centre, spin);
  const supports = scene.members.map((member) => supportOf(member, carrierLeft));
  const riding = (on: string, point: Vec3) =>
    applyPose(corner.rider(on).pose(carrierLeft, new Float64Array(POSE_SIZE)), point);

  const damperFoot = riding(damper.on, damper.bottom);
  const damperPush = { at: damperFoot, force_N: normalise(subtract(damperFoot, damper.topMounted)) };
  const equations = equationsOf(supports, onCarrier(supports, damper.on, damperPush), centre);
  if (!equations) return null;

  const inner = driveshaft && innerJoint(driveshaft, side, powertrainPose(scene, powertrainPoseId, share));
  const outer = driveshaft && applyPose(carrierLeft, driveshaft.outer);
  const shaft = inner && outer && shaftForces({ inner: inner.at, innerAxis: inner.axis, outer, spin });
  const leftOver = new LeftOver(scene);
  const firsts = supports.map((_, i) => supports.slice(0, i).reduce((sum, { units }) => sum + units.length, 0));
  const cuts = cutsOf(scene, carrierLeft);
  const right = new Float64Array(SIX);
  const amounts = new Float64Array(SIX);

  return {
    balance(load) {
      const ground = { at: contact, force_N: load.force_N };
      const torque = spinTorque(load, ground);
      const bar = load.dropLink_N === 0 ? null : dropLinkForce(corner, carrierLeft, load.dropLink_N, riding);
      const external: PointForce[] = [ground];
      if (bar) external.push(...onCarrier(supports, scene.antiRollBar!.on, bar.onPickup));
      if (torque.shaft) external.push({ at: outer!, force_N: torque.shaft.onHub });
      right.fill(0);
      for (const force of external) addForce(right, force, centre, -1);
      for (let k = 0; k < 3; k++) right[k + 3]! -= torque.couple[k]! / REACH_mm;
      equations.solve(right, amounts);

      const damper_N = amounts[5]!;
      const push = { at: damperFoot, force_N: scale(damperPush.force_N, damper_N) };
      const joints: JointLoad[] = [];
      const members = supports.map((support, i) => {
        const loads = [
          ...(damper.on === support.id ? [push] : []),
          ...(bar && scene.antiRollBar!.on === support.id ? [bar.onPickup] : []),
        ];
        const concluded = support.conclude(amounts, firsts[i]!, loads);
        joints.push(...concluded.joints);
        return withCuts(concluded, cuts);
      });
      joints.push(
        joint("damper.top", "chassis", "damper-upper", damper.topMounted, push.force_N),
        joint("damper.bottom", "damper-lower", damper.on, damperFoot, push.force_N),
      );
      if (torque.shaft) joints.push(...shaftJoints(torque.shaft, torque.couple));
      if (bar) joints.push(...bar.joints);
      // a torque that no shaft of the scene takes away leaves along the spin axis
      const held = torque.shaft ? ZERO : torque.couple;
      const loads: CornerLoads = {
        side,
        ground,
        joints,
        members,
        damper_N,
        shaft: torque.load,
        ...leftOver.of(joints, ground, held, centre),
      };
      return side === "left" ? loads : mirrored(loads);
    },
  };

  /** What takes the ground's moment about the spin axis, as a couple on the hub; nothing where a brake on the hub does. */
  function spinTorque(load: WheelLoad, ground: PointForce) {
    const about = dot(cross(subtract(contact, centre), ground.force_N), spin);
    if (load.torque === "carrier" || about === 0) return { couple: ZERO, shaft: null, load: null };
    if (load.torque === "free" || !shaft) return { couple: scale(spin, -about), shaft: null, load: null };
    const perTorque = dot(shaft.coupleOnHub, spin) + dot(cross(subtract(outer!, centre), shaft.onHub), spin);
    const torque_Nmm = -about / perTorque;
    return {
      couple: scale(shaft.coupleOnHub, torque_Nmm),
      shaft: scaledShaft(shaft, torque_Nmm),
      load: {
        torque_Nmm,
        inner_deg: shaft.innerAngle * DEGREES,
        outer_deg: shaft.outerAngle * DEGREES,
      } satisfies ShaftLoad,
    };
  }

  function shaftJoints({ onHub, coupleOnShaft }: ShaftForces, couple: Vec3): JointLoad[] {
    return [
      joint("driveshaft.inner", "powertrain", "driveshaft", inner!.at, onHub, coupleOnShaft),
      joint("driveshaft.outer", "driveshaft", "carrier", outer!, onHub, couple),
    ];
  }
}

interface Cut {
  readonly member: string;
  readonly name: string;
  readonly at: Vec3;
}

/** Where the scene cuts arms that are one with the hub, at this pose; each member's in the order of the scene. */
function cutsOf(scene: Scene, carrier: Pose): Cut[] {
  const counts = new Map<string, number>();
  return scene.loads.tubes.flatMap(({ member, cut }) => {
    if (!cut) return [];
    const count = (counts.get(member) ?? 0) + 1;
    counts.set(member, count);
    return [{ member, name: `cut ${count}`, at: applyPose(carrier, cut) }];
  });
}

/** At a cut an arm carries what its mounts on the chassis bring: all of their force as a pull, and their moment about the cut. */
function withCuts({ joints, load }: Concluded, cuts: readonly Cut[]): MemberLoad {
  const own = cuts.filter(({ member }) => member === load.id);
  if (own.length === 0) return load;
  const sections = own.map(({ name, at }) => ({
    name,
    axial_N: length(joints.reduce((sum, { force_N }) => add(sum, force_N), ZERO)),
    bending_Nmm: length(momentAbout(at, joints)),
    length_mm: 0,
  }));
  return { ...load, sections };
}

function scaledShaft(shaft: ShaftForces, torque_Nmm: number): ShaftForces {
  return {
    ...shaft,
    onHub: scale(shaft.onHub, torque_Nmm),
    coupleOnHub: scale(shaft.coupleOnHub, torque_Nmm),
    coupleOnShaft: scale(shaft.coupleOnShaft, torque_Nmm),
  };
}

/** Forces on the carrier that come of a force on the part `on`: itself, or what the member passes on. */
function onCarrier(supports: readonly Support[], on: string, force: PointForce): PointForce[] {
  const member = supports.find(({ id, isCarrier }) => id === on && !isCarrier);
  return member ? [{ at: member.passedAt, force_N: member.passedOn([force]) }] : [force];
}

/** The six equations of the carrier about the wheel centre: columns of the members' units, then of the damper. */
function equationsOf(supports: readonly Support[], damper: readonly PointForce[], centre: Vec3): SixEquations | null {
  const matrix = new Float64Array(SIX * SIX);
  const column = new Float64Array(SIX);
  let at = 0;
  const put = (forces: readonly PointForce[]) => {
    column.fill(0);
    for (const force of forces) addForce(column, force, centre, 1);
    for (let row = 0; row < SIX; row++) matrix[row * SIX + at] = column[row]!;
    at++;
  };
  for (const { units } of supports) for (const unit of units) put([unit]);
  put(damper);
  const equations = new SixEquations();
  return equations.factor(matrix) ? equations : null;
}

function addForce(out: Float64Array, { at, force_N }: PointForce, about: Vec3, sign: number): void {
  const x = at[0] - about[0];
  const y = at[1] - about[1];
  const z = at[2] - about[2];
  const share = sign / REACH_mm;
  out[0]! += sign * force_N[0];
  out[1]! += sign * force_N[1];
  out[2]! += sign * force_N[2];
  out[3]! += share * (y * force_N[2] - z * force_N[1]);
  out[4]! += share * (z * force_N[0] - x * force_N[2]);
  out[5]! += share * (x * force_N[1] - y * force_N[0]);
}

/** The drop link pulls its pickup towards the bar's arm, and the arm the other way; the bar's pivot takes the rest. */
function dropLinkForce(corner: Corner, carrier: Pose, tension_N: number, riding: (on: string, p: Vec3) => Vec3) {
  const bar = corner.scene.antiRollBar;
  const state = barState(corner, carrier);
  if (!bar || !state) return null;
  const pickup = riding(bar.on, bar.pickup);
  const arm = applyPose(state.bar, bar.arm);
  const force_N = scale(normalise(subtract(arm, pickup)), tension_N);
  return {
    onPickup: { at: pickup, force_N },
    joints: [
      joint("bar.pivot", "chassis", "bar", bar.pivotMounted, force_N, cross(subtract(arm, bar.pivotMounted), force_N)),
      joint("bar.arm", "bar", "bar-link", arm, force_N),
      joint("bar.pickup", "bar-link", bar.on, pickup, force_N),
    ],
  };
}

/** The same on the right side: forces as seen in the mirror, couples as axial vectors. */
function mirrored(loads: CornerLoads): CornerLoads {
  return {
    ...loads,
    ground: { at: mirror(loads.ground.at), force_N: mirror(loads.ground.force_N) },
    joints: loads.joints.map((load) => ({
      ...load,
      at: mirror(load.at),
      force_N: mirror(load.force_N),
      moment_Nmm: scale(mirror(load.moment_Nmm), -1),
    })),
  };
}
