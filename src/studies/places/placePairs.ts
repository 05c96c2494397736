import type { PreparedCheck } from "../../check/check.ts";
import type { ModelBody } from "../../check/model.ts";
import { acceptedWhy } from "../../check/pairRules.ts";
import type { PlannedPair } from "../../check/plan.ts";
import { isMovedByPose } from "../../check/tracks.ts";

/**
 * The pairs of a check that hang on points that move: one of the two follows them. Accepted ones are left out, and those that are
 * the mirror image of another to the last triangle.
 */
export function pairsThatMove(
  { scene, bodies, pairs }: PreparedCheck,
  moves: (body: ModelBody) => boolean,
  leaveOut: readonly string[],
): PlannedPair[] {
  const byKey = new Map(bodies.map((body) => [body.key, body]));
  const twinOf = (body: ModelBody): string | null => {
    const key = body.key.replace(/@(left|right)$/, (_, side) => (side === "left" ? "@right" : "@left"));
    const twin = byKey.get(key);
    if (!twin || twin === body || isMovedByPose(body.mount)) return null;
    const isImage = twin.content === `mirror:${body.content}` || body.content === `mirror:${twin.content}`;
    return isImage ? key : null;
  };
  const known = new Set(pairs.map(({ side, first, second }) => `${side} ${first.key} ${second.key}`));
  const [firstSide] = scene.sides;
  return pairs.filter(({ side, first, second }) => {
    if (!moves(first) && !moves(second)) return false;
    if (leaveOut.includes(`${first.id}/${second.id}`) || leaveOut.includes(`${second.id}/${first.id}`)) return false;
    if (acceptedWhy(scene.clearances, first, second) !== null) return false;
    if (side === "both" || side === firstSide) return true;
    const [a, b] = [twinOf(first), twinOf(second)];
    return a === null || b === null || !known.has(`${firstSide} ${a} ${b}`);
  });
}
