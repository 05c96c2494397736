import type { ModelBody } from "../../check/model.ts";
import type { Solid } from "../../geometry/solid.ts";
import { applyPose, invertPose, type Pose, turnByPose } from "../../maths/pose.ts";
import { add, cross, length, normalise, scale, squareTo, subtract, type Vec3 } from "../../maths/vec3.ts";

/** Lines of sight start on a ring this wide round the touch, and at its middle. */
const RING_mm = 28;
const RING_LINES = 8;
/** What lies nearer to the touch than this belongs to it. */
const NEAREST_mm = 4;

/** Keys of the bodies that stand between the touch and an eye far off in direction `towardsEye`, the touching pair left out. */
export function blockersOf(
  touch: Vec3,
  towardsEye: Vec3,
  bodies: readonly ModelBody[],
  poses: ReadonlyMap<string, Pose>,
  pair: readonly [string, string],
): ReadonlySet<string> {
  const away = normalise(towardsEye);
  const starts = ringOf(touch, away);
  const blockers = new Set<string>();
  for (const { key, solid } of bodies) {
    const pose = poses.get(key);
    if (!pose || pair.includes(key)) continue;
    const back = invertPose(pose);
    const along = turnByPose(back, away);
    if (!isNear(solid, applyPose(back, touch), along)) continue;
    if (starts.some((start) => isHit(solid, applyPose(back, start), along))) blockers.add(key);
  }
  return blockers;
}

function ringOf(touch: Vec3, away: Vec3): Vec3[] {
  const u = squareTo(away);
  const v = cross(away, u);
  const starts: Vec3[] = [touch];
  for (let i = 0; i < RING_LINES; i++) {
    const turn = (i * 2 * Math.PI) / RING_LINES;
    starts.push(add(touch, add(scale(u, RING_mm * Math.cos(turn)), scale(v, RING_mm * Math.sin(turn)))));
  }
  return starts;
}

interface Ball {
  readonly centre: Vec3;
  readonly radius: number;
}

const balls = new WeakMap<Solid, Ball>();

/** A ball about the middle of the solid's box that holds all of it. */
function ballOf(solid: Solid): Ball {
  let ball = balls.get(solid);
  if (ball) return ball;
  const { positions } = solid;
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    const axis = i % 3;
    low[axis] = Math.min(low[axis]!, positions[i]!);
    high[axis] = Math.max(high[axis]!, positions[i]!);
  }
  const centre: Vec3 = [(low[0]! + high[0]!) / 2, (low[1]! + high[1]!) / 2, (low[2]! + high[2]!) / 2];
  ball = { centre, radius: Math.hypot(high[0]! - centre[0], high[1]! - centre[1], high[2]! - centre[2]) };
  balls.set(solid, ball);
  return ball;
}

/** Whether any line of sight could meet the solid's ball. */
function isNear(solid: Solid, touch: Vec3, along: Vec3): boolean {
  const { centre, radius } = ballOf(solid);
  const to = subtract(centre, touch);
  const aside = length(cross(to, along));
  const ahead = to[0] * along[0] + to[1] * along[1] + to[2] * along[2];
  return aside <= radius + RING_mm && ahead >= -radius;
}

/**
 * Whether the half line from `start` along the unit vector meets a triangle of the solid more than NEAREST_mm off, in its
 * design position (Möller and Trumbore, "Fast, minimum storage ray/triangle intersection", 1997; written out without
 * allocation, for a solid may have a hundred thousand triangles).
 */
function isHit({ positions, indices }: Solid, start: Vec3, along: Vec3): boolean {
  const [sx, sy, sz] = start;
  const [dx, dy, dz] = along;
  for (let t = 0; t < indices.length; t += 3) {
    const a = indices[t]! * 3;
    const b = indices[t + 1]! * 3;
    const c = indices[t + 2]! * 3;
    const ax = positions[a]!;
    const ay = positions[a + 1]!;
    const az = positions[a + 2]!;
    const ux = positions[b]! - ax;
    const uy = positions[b + 1]! - ay;
    const uz = positions[b + 2]! - az;
    const vx = positions[c]! - ax;
    const vy = positions[c + 1]! - ay;
    const vz = positions[c + 2]! - az;
    const px = dy * vz - dz * vy;
    const py = dz * vx - dx * vz;
    const pz = dx * vy - dy * vx;
    const determinant = ux * px + uy * py + uz * pz;
    if (Math.abs(determinant) < 1e-12) continue;
    const fx = sx - ax;
    const fy = sy - ay;
    const fz = sz - az;
    const u = (fx * px + fy * py + fz * pz) / determinant;
    if (u < 0 || u > 1) continue;
    const qx = fy * uz - fz * uy;
    const qy = fz * ux - fx * uz;
    const qz = fx * uy - fy * ux;
    const v = (dx * qx + dy * qy + dz * qz) / determinant;
    if (v < 0 || u + v > 1) continue;
    if ((vx * qx + vy * qy + vz * qz) / determinant > NEAREST_mm) return true;
  }
  return false;
}
