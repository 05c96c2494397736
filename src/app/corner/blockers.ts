import type { ModelBody } from "../../check/model.ts";
import { applyPose, invertPose, type Pose, turnByPose } from "../../maths/pose.ts";
import { add, cross, dot, normalise, scale, squareTo, subtract, type Vec3 } from "../../maths/vec3.ts";

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
  for (const body of bodies) {
    const pose = poses.get(body.key);
    if (!pose || pair.includes(body.key)) continue;
    const back = invertPose(pose);
    const along = turnByPose(back, away);
    if (starts.some((start) => isHit(body, applyPose(back, start), along))) blockers.add(body.key);
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

/** Whether the half line meets a triangle of the body, in its design position (Möller and Trumbore, 1997). */
function isHit(body: ModelBody, start: Vec3, along: Vec3): boolean {
  const { positions, indices } = body.solid;
  const corner = (at: number): Vec3 => {
    const i = indices[at]! * 3;
    return [positions[i]!, positions[i + 1]!, positions[i + 2]!];
  };
  for (let t = 0; t < indices.length; t += 3) {
    const a = corner(t);
    const [edge1, edge2] = [subtract(corner(t + 1), a), subtract(corner(t + 2), a)];
    const p = cross(along, edge2);
    const determinant = dot(edge1, p);
    if (Math.abs(determinant) < 1e-12) continue;
    const from = subtract(start, a);
    const u = dot(from, p) / determinant;
    if (u < 0 || u > 1) continue;
    const q = cross(from, edge1);
    const v = dot(along, q) / determinant;
    if (v < 0 || u + v > 1) continue;
    if (dot(edge2, q) / determinant > NEAREST_mm) return true;
  }
  return false;
}
