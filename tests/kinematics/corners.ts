import type { Vec3 } from "../../src/maths/vec3.ts";
import { NO_LOADS } from "../../src/scene/loadRecords.ts";
import type {
  AntiRollBar,
  BallMember,
  Damper,
  Driveshaft,
  HingeMember,
  LinkMember,
  Member,
  Powertrain,
  Scene,
  ShaftInner,
  StrutMember,
  Wheel,
  WishboneMember,
} from "../../src/scene/scene.ts";
import { NO_SERVICE } from "../../src/scene/serviceRecords.ts";

const base = { stock: "made", body: undefined, diameter_mm: 30 } as const;

export const ball = (id: string, at: Vec3, atMounted: Vec3 = at): BallMember => ({
  ...base,
  id,
  kind: "ball",
  at,
  atMounted,
});

export const link = (
  id: string,
  inboard: Vec3,
  outboard: Vec3,
  inboardMounted: Vec3 = inboard,
  bushAxis: Vec3 | null = null,
): LinkMember => ({ ...base, id, kind: "link", inboard, outboard, inboardMounted, bushAxis });

export const wishbone = (
  id: string,
  front: Vec3,
  rear: Vec3,
  outboard: Vec3,
  frontMounted: Vec3 = front,
  rearMounted: Vec3 = rear,
): WishboneMember => ({ ...base, id, kind: "wishbone", front, rear, outboard, frontMounted, rearMounted });

export const hinge = (
  id: string,
  front: Vec3,
  rear: Vec3,
  frontMounted: Vec3 = front,
  rearMounted: Vec3 = rear,
): HingeMember => ({ ...base, id, kind: "hinge", front, rear, frontMounted, rearMounted });

export const strut = (id: string, top: Vec3, bottom: Vec3, topMounted: Vec3 = top): StrutMember => ({
  ...base,
  id,
  kind: "strut",
  top,
  bottom,
  topMounted,
});

export const wheel = (centre: Vec3, toe_deg = 0, camber_deg = 0): Wheel => ({
  centre,
  tyre: "205/55R16",
  rimWidth_in: 7,
  rimOffset_mm: 42,
  toe_deg,
  camber_deg,
});

export const damper = (top: Vec3, bottom: Vec3, on = "carrier"): Damper => ({
  top,
  topMounted: top,
  bottom,
  on,
  closed_mm: 300,
  open_mm: 440,
  body_mm: 50,
  spring_mm: null,
  springRate_N_per_mm: null,
  springFree_mm: null,
  springSolid_mm: null,
  springAtRide_mm: null,
  stopTouches_mm: null,
  stopSolid_mm: null,
  strapTight_mm: null,
});

export const shaft = (inner: Vec3, axis: Vec3, outer: Vec3, right?: Partial<ShaftInner>): Driveshaft => {
  const left: ShaftInner = { at: inner, axis, shortest_mm: null, longest_mm: null, bar_mm: null, angleLimit_deg: null };
  const mirrored: ShaftInner = {
    ...left,
    at: [inner[0], -inner[1], inner[2]],
    axis: [axis[0], -axis[1], axis[2]],
    ...right,
  };
  return {
    outer,
    diameter_mm: 26,
    outerAngleLimit_deg: null,
    innerJoint: "constant velocity",
    outerJoint: "constant velocity",
    inner: { left, right: mirrored },
  };
};

export const bar = (pivot: Vec3, axis: Vec3, arm: Vec3, pickup: Vec3, on = "carrier"): AntiRollBar => ({
  pivot,
  pivotMounted: pivot,
  axis,
  arm,
  pickup,
  on,
  diameter_mm: 20,
});

export const rest: Powertrain = {
  place: null,
  poses: [{ id: "rest", about: [0, 0, 0], axis: [0, 1, 0], angle_deg: 0, shift_mm: [0, 0, 0], within_mm: null }],
};

/** A resolved scene made by hand: members and wheel, and what else a test needs. */
export function corner(members: readonly Member[], ofWheel: Wheel, more: Partial<Scene> = {}): Scene {
  return {
    title: "corner",
    notes: "",
    sides: ["left", "right"],
    points: new Map(),
    datums: [],
    wheel: ofWheel,
    travel: { bump_mm: 80, droop_mm: 70, step_mm: 5 },
    members,
    damper: null,
    antiRollBar: null,
    driveshaft: null,
    powertrain: rest,
    joints: [],
    give: [],
    vehicle: null,
    loads: NO_LOADS,
    service: NO_SERVICE,
    bodies: [],
    tessellation_mm: 0.1,
    clearances: { default_mm: 10, jointRadius_mm: 40, rules: [], accept: [] },
    ...more,
  };
}
