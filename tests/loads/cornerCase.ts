import { type Corner, compileCorner, solveCorner } from "../../src/kinematics/corner.ts";
import type { CornerLoads, TorquePath, WheelLoad } from "../../src/loads/forces.ts";
import { standCorner } from "../../src/loads/stand.ts";
import type { Pose } from "../../src/maths/pose.ts";
import { add, cross, length, mirror, scale, subtract, type Vec3, ZERO } from "../../src/maths/vec3.ts";
import type { Member, Scene, Side } from "../../src/scene/scene.ts";
import { bar, corner, damper, shaft, wheel } from "../kinematics/corners.ts";
import { randomMembers, randomOf } from "../kinematics/random.ts";

export const MIXES = [...randomMembers(randomOf(1)).keys()];

export interface RandomCase {
  readonly scene: Scene;
  readonly corner: Corner;
  readonly carrier: Pose;
  readonly load: WheelLoad;
  readonly loads: CornerLoads | null;
}

const PATHS: readonly TorquePath[] = ["carrier", "shaft", "free"];

/** One corner of the mix under one load at one travel on one side, all of it drawn from the seed; null: it binds before that travel. */
export function randomCase(seed: number, mix: string): RandomCase | null {
  const random = randomOf(seed);
  const members = randomMembers(random).get(mix)!;
  const near = (x: number, y: number, z: number, by = 60): Vec3 => [
    x + by * (random() - 0.5),
    y + by * (random() - 0.5),
    z + by * (random() - 0.5),
  ];
  const on = random() < 0.5 ? "carrier" : members[Math.floor(random() * members.length)]!.id;
  const ridesOn = members.find(({ id }) => id === on);
  const foot = ridesOn ? placeOn(ridesOn, random) : near(-40, 600, 235);
  const scene = corner(members, wheel(near(0, 740, 300), 2 * (random() - 0.5), 4 * (random() - 0.5)), {
    sides: [random() < 0.5 ? "left" : "right"],
    damper: damper(near(-15, 548, 640), add(foot, near(0, 0, 0, 20)), on),
    antiRollBar: bar(near(-300, 350, 250), [0, 1, 0], near(-120, 470, 310), near(-110, 480, 200), on),
    driveshaft: shaft(near(25, 235, 345), [0, 1, 0], near(0, 668, 300, 20), { at: near(15, -190, 350) }),
  });
  const side: Side = scene.sides[0]!;
  const compiled = compileCorner(scene, side);
  const { status, pose } = solveCorner(compiled, 30 * (random() - 0.5));
  if (status !== "solved") return null;
  const stand = standCorner(compiled, pose);
  const load: WheelLoad = {
    force_N: [12_000 * (random() - 0.5), 12_000 * (random() - 0.5), 12_000 * random()],
    torque: PATHS[Math.floor(random() * 3)]!,
    dropLink_N: random() < 0.5 ? 0 : 4000 * (random() - 0.5),
  };
  return { scene, corner: compiled, carrier: pose, load, loads: stand?.balance(load) ?? null };
}

/** A place between a member's joints, away from the one on the chassis. */
function placeOn(member: Member, random: () => number): Vec3 {
  const share = 0.4 + 0.4 * random();
  switch (member.kind) {
    case "link":
      return mixed(member.inboard, member.outboard, share);
    case "wishbone":
      return mixed(mixed(member.front, member.rear, 0.3 + 0.4 * random()), member.outboard, share);
    case "strut":
      return member.bottom;
    case "ball":
      return [-40, 600, 235];
    case "hinge":
      return [20, 590, 280];
  }
}

function mixed(a: Vec3, b: Vec3, share: number): Vec3 {
  return add(scale(a, 1 - share), scale(b, share));
}

/**
 * What is left over of the equilibrium of every body, added up from the joints alone: worst force, N, and worst moment
 * about the car's origin as a force at 1 m, N. The hub and all that moves as one with it is one body, the damper another.
 */
export function leftOverOf({ scene, corner: { side }, load, loads, carrier }: RandomCase): {
  force_N: number;
  turn_N: number;
} {
  const hub = new Set([
    "carrier",
    ...scene.members.flatMap(({ id, kind }) => (/link|wishbone/.test(kind) ? [] : [id])),
  ]);
  const nameOf = (part: string) => (hub.has(part) ? "hub" : part.startsWith("damper-") ? "damper" : part);
  const sums = new Map<string, { force: Vec3; moment: Vec3 }>();
  const act = (part: string, at: Vec3, force: Vec3, couple: Vec3) => {
    const before = sums.get(nameOf(part)) ?? { force: ZERO, moment: ZERO };
    sums.set(nameOf(part), {
      force: add(before.force, force),
      moment: add(before.moment, add(couple, cross(at, force))),
    });
  };
  for (const { between, at, force_N, moment_Nmm } of loads!.joints) {
    act(between[1], at, force_N, moment_Nmm);
    act(between[0], at, scale(force_N, -1), scale(moment_Nmm, -1));
  }
  const ground = side === "left" ? load.force_N : mirror(load.force_N);
  const { at } = loads!.ground;
  act("hub", at, ground, load.torque === "free" ? spinCouple(scene, side, carrier, at, ground) : ZERO);
  let force_N = 0;
  let turn_N = 0;
  for (const [name, { force, moment }] of sums) {
    if (name === "chassis" || name === "powertrain") continue;
    force_N = Math.max(force_N, length(force));
    turn_N = Math.max(turn_N, length(moment) / 1000);
  }
  return { force_N, turn_N };
}

/** The couple that keeps a free wheel's part of the moment about its spin axis from the hub. */
function spinCouple(scene: Scene, side: Side, carrier: Pose, at: Vec3, force: Vec3): Vec3 {
  const { centre, toe_deg, camber_deg } = scene.wheel;
  const [t, c] = [(toe_deg * Math.PI) / 180, (camber_deg * Math.PI) / 180];
  const turned = (d: Vec3): Vec3 =>
    [0, 4, 8].map((row) => [0, 1, 2].reduce((sum, k) => sum + carrier[row + k]! * d[k]!, 0)) as unknown as Vec3;
  const put = (v: Vec3) => (side === "left" ? v : mirror(v));
  const spin = put(turned([Math.sin(t) * Math.cos(c), Math.cos(t) * Math.cos(c), -Math.sin(c)]));
  const hub = put(add(turned(centre), [carrier[3]!, carrier[7]!, carrier[11]!]));
  const moment = cross(subtract(at, hub), force);
  return scale(spin, -(moment[0] * spin[0] + moment[1] * spin[1] + moment[2] * spin[2]));
}
