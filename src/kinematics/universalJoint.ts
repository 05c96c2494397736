import { add, cross, dot, normalise, scale, squareTo, type Vec3 } from "../maths/vec3.ts";

/** How evenly a shaft with single universal joints turns the wheel. */
export interface Unevenness {
  /** Fastest and slowest wheel over the speed at the differential. */
  readonly fastest: number;
  readonly slowest: number;
}

/**
 * Most by which the driven end of one joint bent by an angle runs ahead or behind: arctan((1 − cos β)/(2 √cos β)), from the
 * joint's relation tan out = tan in / cos β (any textbook of mechanisms), degrees.
 */
export function greatestLag_deg(angle_deg: number): number {
  const cosine = Math.cos((angle_deg * Math.PI) / 180);
  return (Math.atan((1 - cosine) / (2 * Math.sqrt(cosine))) * 180) / Math.PI;
}

/** Positions of the input fork that are looked at in its half turn: the extremes are flat there, found to 1e-4 of themselves and better. */
const POSITIONS = 720;

/**
 * Wheel speed over differential speed through a turn, the shaft's ends crosses or true joints. A cross keeps its two pins
 * square: with u on the driving fork (axis a) and v on the driven one (axis s), u·v = 0 gives the ratio of speeds
 * −((a × u)·v)/((s × v)·u). Its extremes for one joint are 1/cos β and cos β. Two crosses: the shaft's forks stand in
 * one plane. All unit vectors; axes are taken the way that the shaft runs.
 */
export function unevenness(
  innerAxis: Vec3,
  line: Vec3,
  spin: Vec3,
  isCross: { readonly inner: boolean; readonly outer: boolean },
): Unevenness {
  const [input, output] = [sameWay(innerAxis, line), sameWay(spin, line)];
  let [fastest, slowest] = [1, 1];
  if (!isCross.inner && !isCross.outer) return { fastest, slowest };
  fastest = 0;
  slowest = Number.POSITIVE_INFINITY;
  const first = isCross.inner ? input : line;
  // from the joint's own plane, so that a single joint's extremes are met
  const start = startOf(first, isCross.inner ? line : output);
  const side = cross(first, start);
  for (let i = 0; i < POSITIONS; i++) {
    const turn = (Math.PI * i) / POSITIONS;
    const u = add(scale(start, Math.cos(turn)), scale(side, Math.sin(turn)));
    let ratio = 1;
    let fork = u;
    if (isCross.inner) {
      fork = normalise(cross(line, u));
      ratio *= speedRatio(input, u, line, fork);
    }
    if (isCross.outer) {
      const driven = normalise(cross(output, fork));
      ratio *= speedRatio(line, fork, output, driven);
    }
    fastest = Math.max(fastest, ratio);
    slowest = Math.min(slowest, ratio);
  }
  return { fastest, slowest };
}

function speedRatio(a: Vec3, u: Vec3, s: Vec3, v: Vec3): number {
  return -dot(cross(a, u), v) / dot(cross(s, v), u);
}

function startOf(axis: Vec3, other: Vec3): Vec3 {
  const square = cross(axis, other);
  return Math.hypot(...square) < 1e-12 ? squareTo(axis) : normalise(square);
}

function sameWay(axis: Vec3, line: Vec3): Vec3 {
  return dot(axis, line) < 0 ? scale(axis, -1) : axis;
}
