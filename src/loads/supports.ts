import { applyPose, type Pose, turnByPose } from "../maths/pose.ts";
import {
  add,
  cross,
  distance,
  dot,
  mix,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
  ZERO,
} from "../maths/vec3.ts";
import type { HingeMember, LinkMember, Member, StrutMember, WishboneMember } from "../scene/scene.ts";
import { bendingAlong } from "./bending.ts";
import type { JointLoad, MemberLoad, MemberSection, PointForce } from "./forces.ts";

/** What a member does to its joints once its amounts are known. */
export interface Concluded {
  readonly joints: readonly JointLoad[];
  readonly load: MemberLoad;
}

/**
 * How one member holds the carrier in one state (left frame). Its reactions on the carrier are `amounts` of its unit
 * forces `units`, as many as the freedoms it takes, and what it passes on of loads that act on the member itself.
 */
export interface Support {
  readonly id: string;
  readonly units: readonly PointForce[];
  /** The part is one with the carrier: loads on it act on the carrier as they are. */
  readonly isCarrier: boolean;
  /** Force on the carrier at `passedAt` from loads on the member, beside its units; linear in the loads. */
  passedOn(loads: readonly PointForce[]): Vec3;
  readonly passedAt: Vec3;
  /** Its own amounts begin at `first`. */
  conclude(amounts: Float64Array, first: number, loads: readonly PointForce[]): Concluded;
}

/** The member with the carrier at this pose. */
export function supportOf(member: Member, carrier: Pose): Support {
  switch (member.kind) {
    case "link":
      return linkSupport(member, carrier);
    case "wishbone":
      return wishboneSupport(member, carrier);
    case "strut":
      return strutSupport(member, carrier);
    case "hinge":
      return hingeSupport(member);
    case "ball":
      return {
        ...oneWithCarrier(member.id),
        units: AXES.map((force_N) => ({ at: member.atMounted, force_N })),
        conclude: (amounts, first) => ({
          joints: [joint(`${member.id}.at`, "chassis", "carrier", member.atMounted, vectorOf(AXES, amounts, first))],
          load: { id: member.id, kind: "ball", sections: [], spin_Nmm: null, thrust_N: null },
        }),
      };
  }
}

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

function oneWithCarrier(id: string): Pick<Support, "id" | "isCarrier" | "passedOn" | "passedAt"> {
  return { id, isCarrier: true, passedAt: ZERO, passedOn: () => ZERO };
}

/**
 * A bar between two ball joints: along it whatever comes; across it what its own loads ask for. With b from the inboard to
 * the outboard joint and M the loads' moment about the inboard one, the force across at the outboard end is (b × M)/b²,
 * less what is left over: M along b, which only a bush can hold.
 */
function linkSupport(member: LinkMember, carrier: Pose): Support {
  const inboard = member.inboardMounted;
  const outboard = applyPose(carrier, member.outboard);
  const bar = subtract(outboard, inboard);
  const length_mm = distance(inboard, outboard);
  const along = normalise(bar);
  const { id } = member;
  const names = [`${id}.inboard`, `${id}.outboard`] as const;
  const passedOn = (loads: readonly PointForce[]): Vec3 => {
    if (loads.length === 0) return ZERO;
    // what the member gets at the outboard end is (c × b)/b² with c = −M square to b; the carrier gets the opposite
    const moment = momentAbout(inboard, loads);
    return scale(cross(moment, bar), 1 / (length_mm * length_mm));
  };
  return {
    id,
    isCarrier: false,
    units: [{ at: outboard, force_N: along }],
    passedAt: outboard,
    passedOn,
    conclude(amounts, first, loads) {
      if (loads.length === 0) {
        const pull_N = -amounts[first]!;
        const force_N = scale(along, -pull_N);
        return {
          joints: [joint(names[0], "chassis", id, inboard, force_N), joint(names[1], id, "carrier", outboard, force_N)],
          load: {
            id,
            kind: "link",
            sections: [{ name: "whole", axial_N: pull_N, bending_Nmm: 0, length_mm }],
            spin_Nmm: 0,
            thrust_N: null,
          },
        };
      }
      const onCarrier = add(scale(along, amounts[first]!), passedOn(loads));
      const onMember = subtract(onCarrier, sumOf(loads));
      const spin_Nmm = -dot(momentAbout(inboard, loads), along);
      const outer_N = -dot(onCarrier, along);
      const inner_N = -dot(onMember, along);
      const forces = [...loads, { at: outboard, force_N: scale(onCarrier, -1) }];
      const sections = bendingAlong(inboard, along, length_mm, forces, null).map(({ name, bending_Nmm }) => ({
        name,
        axial_N: name === "inboard" ? inner_N : outer_N,
        bending_Nmm,
        length_mm,
      }));
      return {
        joints: [
          joint(names[0], "chassis", id, inboard, onMember, scale(along, spin_Nmm)),
          joint(names[1], id, "carrier", outboard, onCarrier),
        ],
        load: { id, kind: "link", sections, spin_Nmm, thrust_N: null },
      };
    },
  };
}

/**
 * A plane arm that turns freely about its inboard line e: at its outboard joint, a distance ρ from the line in the
 * direction r, it takes any force along r and along e; around the line only what balances its own loads.
 */
function wishboneSupport(member: WishboneMember, carrier: Pose): Support {
  const { id, frontMounted: front, rearMounted: rear } = member;
  const outboard = applyPose(carrier, member.outboard);
  const axis = normalise(subtract(front, rear));
  const foot = add(rear, scale(axis, dot(subtract(outboard, rear), axis)));
  const radial = normalise(subtract(outboard, foot));
  const radius_mm = distance(outboard, foot);
  const around = cross(axis, radial);
  const passedOn = (loads: readonly PointForce[]): Vec3 =>
    loads.length === 0 ? ZERO : scale(around, dot(momentAbout(foot, loads), axis) / radius_mm);
  const units = [radial, axis];
  const share = bushShare(front, rear);
  const legs = [wishboneLeg("front", front, rear), wishboneLeg("rear", rear, front)];
  const names = [`${id}.front`, `${id}.rear`, `${id}.outboard`] as const;
  return {
    id,
    isCarrier: false,
    units: units.map((force_N) => ({ at: outboard, force_N })),
    passedAt: outboard,
    passedOn,
    conclude(amounts, first, loads) {
      const onCarrier = add(vectorOf(units, amounts, first), passedOn(loads));
      const all = [...loads, { at: outboard, force_N: scale(onCarrier, -1) }];
      const bushes = share(all);
      const bending_Nmm =
        loads.length === 0
          ? 0
          : Math.max(...bendingAlong(foot, radial, radius_mm, all, axis).map((part) => part.bending_Nmm));
      return {
        joints: [
          joint(names[0], "chassis", id, front, bushes.front_N),
          joint(names[1], "chassis", id, rear, bushes.rear_N),
          joint(names[2], id, "carrier", outboard, onCarrier),
        ],
        load: {
          id,
          kind: "wishbone",
          sections: [legs[0]!(onCarrier, bushes.front_N, bending_Nmm), legs[1]!(onCarrier, bushes.rear_N, bending_Nmm)],
          spin_Nmm: null,
          thrust_N: bushes.thrust_N,
        },
      };
    },
  };

  /**
   * One leg, as in a triangle pinned at its three corners: at the outboard joint the two legs together take the force in
   * the arm's plane; at the bush the leg takes the force square to the inboard line. Where loads act on the arm between,
   * the two differ, and the greater is told.
   */
  function wishboneLeg(name: "front" | "rear", bush: Vec3, otherBush: Vec3) {
    const length_mm = distance(outboard, bush);
    const way = normalise(subtract(outboard, bush));
    const other = normalise(subtract(outboard, otherBush));
    // onCarrier = −(N·way + N'·other) in the plane of radial and axis, solved for N by Cramer's rule
    const [a, b, c, d] = [dot(way, radial), dot(other, radial), dot(way, axis), dot(other, axis)];
    const determinant = a * d - b * c;
    return (onCarrier: Vec3, ofBush: Vec3, bending_Nmm: number): MemberSection => {
      const outer_N = -(dot(onCarrier, radial) * d - dot(onCarrier, axis) * b) / determinant;
      const inner_N = -dot(ofBush, radial) / a;
      return { name, axial_N: Math.abs(inner_N) > Math.abs(outer_N) ? inner_N : outer_N, bending_Nmm, length_mm };
    };
  }
}

/** Two bushes on a line that turn freely about it: square to the line each its own force, along it half the thrust each. */
function hingeSupport(member: HingeMember): Support {
  const { id, frontMounted: front, rearMounted: rear } = member;
  const axis = normalise(subtract(front, rear));
  const across = squareTo(axis);
  const other = cross(axis, across);
  const square = [across, other];
  const names = [`${id}.front`, `${id}.rear`] as const;
  return {
    ...oneWithCarrier(id),
    units: [
      { at: front, force_N: across },
      { at: front, force_N: other },
      { at: rear, force_N: across },
      { at: rear, force_N: other },
      { at: mix(front, rear, 0.5), force_N: axis },
    ],
    conclude(amounts, first) {
      const thrust_N = amounts[first + 4]!;
      const half = scale(axis, thrust_N / 2);
      return {
        joints: [
          joint(names[0], "chassis", "carrier", front, add(vectorOf(square, amounts, first), half)),
          joint(names[1], "chassis", "carrier", rear, add(vectorOf(square, amounts, first + 2), half)),
        ],
        load: { id, kind: "hinge", sections: [], spin_Nmm: null, thrust_N },
      };
    },
  };
}

/** Its top holds the leg square to its own axis, along which it slides; the leg carries that side force as a beam to its foot. */
function strutSupport(member: StrutMember, carrier: Pose): Support {
  const { id, topMounted: top } = member;
  const bottom = applyPose(carrier, member.bottom);
  const axis = turnByPose(carrier, normalise(subtract(member.top, member.bottom)));
  const across = squareTo(axis);
  const units = [across, cross(axis, across)];
  return {
    ...oneWithCarrier(id),
    units: units.map((force_N) => ({ at: top, force_N })),
    conclude(amounts, first) {
      const length_mm = distance(top, bottom);
      const bending_Nmm = Math.hypot(amounts[first]!, amounts[first + 1]!) * length_mm;
      return {
        joints: [joint(`${id}.top`, "chassis", "carrier", top, vectorOf(units, amounts, first))],
        load: {
          id,
          kind: "strut",
          sections: [{ name: "whole", axial_N: 0, bending_Nmm, length_mm }],
          spin_Nmm: null,
          thrust_N: null,
        },
      };
    },
  };
}

/**
 * The forces of two bushes on a part that turns freely about their line: square to the line they balance the loads' force
 * and moment; along it only their sum is known, and each is given half.
 */
function bushShare(front: Vec3, rear: Vec3) {
  const middle = mix(front, rear, 0.5);
  const axis = normalise(subtract(front, rear));
  const half_mm = distance(front, rear) / 2;
  return (loads: readonly PointForce[]) => {
    const [x, y, z] = sumOf(loads);
    // h·e × (F_front − F_rear) = −M, so the difference square to e is (−M × e)/h
    const [dx, dy, dz] = cross(momentAbout(middle, loads), axis);
    return {
      front_N: [(-x - dx / half_mm) / 2, (-y - dy / half_mm) / 2, (-z - dz / half_mm) / 2] as Vec3,
      rear_N: [(-x + dx / half_mm) / 2, (-y + dy / half_mm) / 2, (-z + dz / half_mm) / 2] as Vec3,
      thrust_N: -(x * axis[0] + y * axis[1] + z * axis[2]),
    };
  };
}

export function momentAbout(point: Vec3, loads: readonly PointForce[]): Vec3 {
  let mx = 0;
  let my = 0;
  let mz = 0;
  for (const { at, force_N } of loads) {
    const x = at[0] - point[0];
    const y = at[1] - point[1];
    const z = at[2] - point[2];
    mx += y * force_N[2] - z * force_N[1];
    my += z * force_N[0] - x * force_N[2];
    mz += x * force_N[1] - y * force_N[0];
  }
  return [mx, my, mz];
}

function sumOf(loads: readonly PointForce[]): Vec3 {
  let x = 0;
  let y = 0;
  let z = 0;
  for (const { force_N } of loads) {
    x += force_N[0];
    y += force_N[1];
    z += force_N[2];
  }
  return [x, y, z];
}

/** The sum of as many of each direction as the amounts from `first` on tell. */
function vectorOf(directions: readonly Vec3[], amounts: Float64Array, first: number): Vec3 {
  let x = 0;
  let y = 0;
  let z = 0;
  for (let k = 0; k < directions.length; k++) {
    const amount = amounts[first + k]!;
    const direction = directions[k]!;
    x += amount * direction[0];
    y += amount * direction[1];
    z += amount * direction[2];
  }
  return [x, y, z];
}

export function joint(
  id: string,
  first: string,
  second: string,
  at: Vec3,
  force_N: Vec3,
  moment_Nmm: Vec3 = ZERO,
): JointLoad {
  return { id, between: [first, second], at, force_N, moment_Nmm };
}
