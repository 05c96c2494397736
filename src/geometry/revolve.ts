import type { Vec3 } from "../maths/vec3.ts";
import { type Frame, pointIn } from "./frame.ts";

/** A point of a profile: distance from the axis and height along it, mm. */
export type ProfilePoint = readonly [radial: number, axial: number];

/**
 * The profile to turn in flat steps of 2·halfStep so that the result holds everything the true profile sweeps. Between
 * two steps a flat face comes nearer to the axis by cos(halfStep): sides that face away from the axis are moved out by
 * its inverse; sides that face the axis already err away from the material and stay. A corner between the two is
 * where their lines meet. Profiles are closed and run either way round.
 */
export function profileOutside(profile: readonly ProfilePoint[], halfStep_rad: number): ProfilePoint[] {
  const n = profile.length;
  const stretch = 1 / Math.cos(halfStep_rad);
  const turn = Math.sign(signedArea(profile));
  // the outward normal's radial part is the side's axial run, for a counter-clockwise profile in (radial, axial)
  const facesAway = profile.map(([, axial], i) => {
    const run = (profile[(i + 1) % n]![1] - axial) * turn;
    return run > 1e-9;
  });
  return profile.map((point, i) => {
    const before = facesAway[(i + n - 1) % n]!;
    const after = facesAway[i]!;
    if (before === after) return before ? stretched(point, stretch) : point;
    const [away, still] = before
      ? [profile[(i + n - 1) % n]!, profile[(i + 1) % n]!]
      : [profile[(i + 1) % n]!, profile[(i + n - 1) % n]!];
    return meet(stretched(point, stretch), stretched(away, stretch), point, still);
  });
}

export function signedArea(profile: readonly ProfilePoint[]): number {
  let twice = 0;
  for (const [i, a] of profile.entries()) {
    const b = profile[(i + 1) % profile.length]!;
    twice += a[0] * b[1] - b[0] * a[1];
  }
  return twice / 2;
}

/** The profile at `angle_rad` about the frame's z, from its x. */
export function profileRing(frame: Frame, profile: readonly ProfilePoint[], angle_rad: number): Vec3[] {
  const c = Math.cos(angle_rad);
  const s = Math.sin(angle_rad);
  return profile.map(([radial, axial]) => pointIn(frame, radial * c, radial * s, axial));
}

function stretched([radial, axial]: ProfilePoint, factor: number): ProfilePoint {
  return [radial * factor, axial];
}

/** Where the line through a1, a2 meets that through b1, b2; lines closer to parallel than 1e-9 keep a1. */
function meet(a1: ProfilePoint, a2: ProfilePoint, b1: ProfilePoint, b2: ProfilePoint): ProfilePoint {
  const [ax, ay] = [a2[0] - a1[0], a2[1] - a1[1]];
  const [bx, by] = [b2[0] - b1[0], b2[1] - b1[1]];
  const across = ax * by - ay * bx;
  if (Math.abs(across) < 1e-9 * Math.hypot(ax, ay) * Math.hypot(bx, by)) return a1;
  const t = ((b1[0] - a1[0]) * by - (b1[1] - a1[1]) * bx) / across;
  return [a1[0] + ax * t, a1[1] + ay * t];
}
