import type { MadeDocument, SceneDocument, ShapeDocument } from "../document.ts";
import { pointResolver } from "../pointResolver.ts";
import { makeShape, type Place, pointsOfMade } from "../recipes/makeShape.ts";

/** Twice what offsets are rounded to. */
const SAME_MM = 3e-4;

/** The recipe's shape with the document's points. Throws InputError as makeShape does. */
export function shapeOfMade(document: SceneDocument, made: MadeDocument, path = "made"): ShapeDocument {
  return makeShape(made, pointResolver(document).drawn, path);
}

/** Whether the shape still is what its recipe draws: false once somebody changed it by hand. */
export function isAsMade(shape: ShapeDocument, made: MadeDocument, place: Place): boolean {
  return isSame(shape, makeShape(made, place));
}

/**
 * `after` with the parts made anew whose points stand elsewhere than in `before`. A shape that was changed by hand since it
 * was made is left as it is; its points follow all the same. Throws InputError where sizes and new places do not go together.
 */
export function followMade(before: SceneDocument, after: SceneDocument): SceneDocument {
  const was = pointResolver(before).drawn;
  const is = pointResolver(after).drawn;
  const remade = (shape: ShapeDocument, made: MadeDocument, path: string): ShapeDocument => {
    const stay = pointsOfMade(made).every(({ point }) => was(point, path).every((v, i) => v === is(point, path)[i]));
    return stay || !isAsMade(shape, made, was) ? shape : makeShape(made, is, path);
  };
  let changed = false;
  const bodies = after.bodies.map((body, i) => {
    if (!body.made) return body;
    const shape = remade(body.shape, body.made, `bodies[${i}].made`);
    if (shape === body.shape) return body;
    changed = true;
    return { ...body, shape };
  });
  const members = after.members.map((member, i) => {
    if (!member.made || !member.body) return member;
    const body = remade(member.body, member.made, `members[${i}].made`);
    if (body === member.body) return member;
    changed = true;
    return { ...member, body };
  });
  return changed ? { ...after, bodies, members } : after;
}

function isSame(a: unknown, b: unknown): boolean {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= SAME_MM;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  const [one, other] = [Object.entries(a), b as Record<string, unknown>];
  return one.length === Object.keys(b).length && one.every(([key, value]) => isSame(value, other[key]));
}
