import { applyPose, leastTurnPose, type Pose } from "../maths/pose.ts";
import { add, cross, distance, dot, length, mix, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import type { LinkMember, Member, WishboneMember } from "../scene/scene.ts";
import { circleOf } from "./equations.ts";
import type { CarrierRates } from "./solver.ts";

/** How a body that rides on the corner follows the carrier, in the left frame. */
export interface Rider {
  /** Writes the body's pose (design position → now) for a carrier pose. */
  pose(carrier: Pose, out: Pose): Pose;
  /** Velocity per mm of travel of the body's point drawn at `point`. */
  pointRate(carrier: Pose, rates: CarrierRates, point: Vec3): Vec3;
}

/** What is one with the carrier: the carrier itself, ball, hinge and strut parts. */
export function carrierRider(wheelCentre: Vec3): Rider {
  return {
    pose(carrier, out) {
      out.set(carrier);
      return out;
    },
    pointRate(carrier, rates, point) {
      return carrierPointRate(wheelCentre, carrier, rates, point);
    },
  };
}

/** Throws InputError "wrong-value" for a link whose bush axis lies along it: such a bush does not hold its spin. */
export function memberRider(member: Member, wheelCentre: Vec3, path: string): Rider {
  if (member.kind === "wishbone") return wishboneRider(member, wheelCentre);
  if (member.kind === "link")
    return member.bushAxis
      ? bushedLinkRider(member, member.bushAxis, wheelCentre, path)
      : linkRider(member, wheelCentre);
  return carrierRider(wheelCentre);
}

/** Turns about its inboard line, wherever the outboard joint is. */
function wishboneRider(member: WishboneMember, wheelCentre: Vec3): Rider {
  const { front, rear, frontMounted, rearMounted, outboard } = member;
  const { along_mm } = circleOf(front, rear, outboard);
  const drawnAxis = normalise(subtract(front, rear));
  const axis = normalise(subtract(frontMounted, rearMounted));
  const drawnCentre = add(mix(front, rear, 0.5), scale(drawnAxis, along_mm));
  const centre = add(mix(frontMounted, rearMounted, 0.5), scale(axis, along_mm));
  const drawn = frameOf(drawnAxis, subtract(outboard, drawnCentre));
  return {
    pose(carrier, out) {
      const now = frameOf(axis, subtract(applyPose(carrier, outboard), centre));
      return writeFrameTurn(out, drawn, now, drawnCentre, centre);
    },
    pointRate(carrier, rates, point) {
      const arm = subtract(applyPose(carrier, outboard), centre);
      const acrossRate = scale(carrierPointRate(wheelCentre, carrier, rates, outboard), 1 / length(arm));
      const [, b, c] = inFrame(drawn, subtract(point, drawnCentre));
      return add(scale(acrossRate, b), scale(cross(axis, acrossRate), c));
    },
  };
}

/** Least turn about the inboard end: the link does not spin about its own axis more than its swing makes it. */
function linkRider(member: LinkMember, wheelCentre: Vec3): Rider {
  const { inboard, inboardMounted, outboard } = member;
  const drawn = normalise(subtract(outboard, inboard));
  const length_mm = distance(inboard, outboard);
  return {
    pose(carrier, out) {
      return writeLeastTurn(
        out,
        drawn,
        subtract(applyPose(carrier, outboard), inboardMounted),
        inboard,
        inboardMounted,
      );
    },
    pointRate(carrier, rates, point) {
      const now = normalise(subtract(applyPose(carrier, outboard), inboardMounted));
      const rate = alongRate(now, carrierPointRate(wheelCentre, carrier, rates, outboard), length_mm);
      // R·x = (a0·a) x + v × x + v (v·x)/(1 + a0·a) with v = a0 × a (Rodrigues), differentiated
      const x = subtract(point, inboard);
      const v = cross(drawn, now);
      const vRate = cross(drawn, rate);
      const k = 1 / (1 + dot(drawn, now));
      const cosineRate = dot(drawn, rate);
      const vx = dot(v, x);
      const turning = add(scale(x, cosineRate), cross(vRate, x));
      const stretching = add(scale(vRate, vx * k), scale(v, (dot(vRate, x) - vx * cosineRate * k) * k));
      return add(turning, stretching);
    },
  };
}

/** Points at the outboard end and otherwise keeps its bush axis as near as it can be to the bracket's. */
function bushedLinkRider(member: LinkMember, bushAxis: Vec3, wheelCentre: Vec3, path: string): Rider {
  const { inboard, inboardMounted, outboard } = member;
  const line = subtract(outboard, inboard);
  const length_mm = length(line);
  if (length(cross(normalise(line), bushAxis)) < 0.02) {
    throw new InputError(
      "wrong-value",
      { path: `${path}.bushAxis` },
      `the bush axis of link ${member.id} lies along the link and cannot hold its spin`,
      "an axis across the link, or none for ball joints",
    );
  }
  const drawn = frameOf(normalise(line), bushAxis);
  return {
    pose(carrier, out) {
      const now = frameOf(normalise(subtract(applyPose(carrier, outboard), inboardMounted)), bushAxis);
      return writeFrameTurn(out, drawn, now, inboard, inboardMounted);
    },
    pointRate(carrier, rates, point) {
      const along = normalise(subtract(applyPose(carrier, outboard), inboardMounted));
      const rate = alongRate(along, carrierPointRate(wheelCentre, carrier, rates, outboard), length_mm);
      const lift = dot(bushAxis, along);
      const raw = subtract(bushAxis, scale(along, lift));
      const across = normalise(raw);
      const rawRate = scale(add(scale(along, dot(bushAxis, rate)), scale(rate, lift)), -1);
      const acrossRate = scale(subtract(rawRate, scale(across, dot(across, rawRate))), 1 / length(raw));
      const thirdRate = add(cross(rate, across), cross(along, acrossRate));
      const [a, b, c] = inFrame(drawn, subtract(point, inboard));
      return add(add(scale(rate, a), scale(acrossRate, b)), scale(thirdRate, c));
    },
  };
}

/** Velocity per mm of travel of a carrier point drawn at `point`. */
export function carrierPointRate(wheelCentre: Vec3, carrier: Pose, rates: CarrierRates, point: Vec3): Vec3 {
  const arm = subtract(applyPose(carrier, point), applyPose(carrier, wheelCentre));
  return add(rates.centre, cross(rates.turn, arm));
}

/** Directions nearer to opposite than this (cosine): the closed form below loses its digits there. */
const NEARLY_OPPOSITE = -0.9;

/**
 * Least turn that lays the unit design direction along `now` (of any length), with the point drawn at `held` brought to
 * `heldNow`: R = cos·I + [v] + v·vᵀ/(1 + cos) with v = drawn × now (Rodrigues, by the half angle). Allocates nothing.
 */
export function writeLeastTurn(out: Pose, drawn: Vec3, now: Vec3, held: Vec3, heldNow: Vec3): Pose {
  const [ax, ay, az] = drawn;
  const [nx, ny, nz] = now;
  const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
  const bx = nx / size;
  const by = ny / size;
  const bz = nz / size;
  const cosine = ax * bx + ay * by + az * bz;
  // also where a direction has no length
  if (!(cosine > NEARLY_OPPOSITE)) return writeAnyTurn(out, drawn, now, held, heldNow);
  const vx = ay * bz - az * by;
  const vy = az * bx - ax * bz;
  const vz = ax * by - ay * bx;
  const k = 1 / (1 + cosine);
  const [hx, hy, hz] = held;
  const r00 = cosine + k * vx * vx;
  const r01 = k * vx * vy - vz;
  const r02 = k * vx * vz + vy;
  const r10 = k * vx * vy + vz;
  const r11 = cosine + k * vy * vy;
  const r12 = k * vy * vz - vx;
  const r20 = k * vx * vz - vy;
  const r21 = k * vy * vz + vx;
  const r22 = cosine + k * vz * vz;
  out[0] = r00;
  out[1] = r01;
  out[2] = r02;
  out[3] = heldNow[0] - (r00 * hx + r01 * hy + r02 * hz);
  out[4] = r10;
  out[5] = r11;
  out[6] = r12;
  out[7] = heldNow[1] - (r10 * hx + r11 * hy + r12 * hz);
  out[8] = r20;
  out[9] = r21;
  out[10] = r22;
  out[11] = heldNow[2] - (r20 * hx + r21 * hy + r22 * hz);
  return out;
}

function writeAnyTurn(out: Pose, drawn: Vec3, now: Vec3, held: Vec3, heldNow: Vec3): Pose {
  out.set(leastTurnPose(drawn, now, held));
  for (let row = 0; row < 3; row++) out[row * 4 + 3]! += heldNow[row]! - held[row]!;
  return out;
}

/** Rate of a unit direction from a fixed point to one that moves with `velocity` at `length_mm`. */
function alongRate(along: Vec3, velocity: Vec3, length_mm: number): Vec3 {
  return scale(subtract(velocity, scale(along, dot(along, velocity))), 1 / length_mm);
}

type Frame = readonly [along: Vec3, across: Vec3, third: Vec3];

function frameOf(along: Vec3, towards: Vec3): Frame {
  const across = normalise(subtract(towards, scale(along, dot(along, towards))));
  return [along, across, cross(along, across)];
}

function inFrame(frame: Frame, v: Vec3): Vec3 {
  return [dot(frame[0], v), dot(frame[1], v), dot(frame[2], v)];
}

function writeFrameTurn(out: Pose, drawn: Frame, now: Frame, held: Vec3, heldNow: Vec3): Pose {
  for (let row = 0; row < 3; row++) {
    const at = row * 4;
    let moved = 0;
    for (let column = 0; column < 3; column++) {
      const value =
        now[0][row]! * drawn[0][column]! + now[1][row]! * drawn[1][column]! + now[2][row]! * drawn[2][column]!;
      out[at + column] = value;
      moved += value * held[column]!;
    }
    out[at + 3] = heldNow[row]! - moved;
  }
  return out;
}
