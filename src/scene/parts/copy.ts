import { add, type Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { isVector, pointResolver } from "../pointResolver.ts";
import { mapMade } from "../recipes/makeShape.ts";
import { fine, movedPoint } from "../recipes/recipe.ts";
import { asMade, locateFor, mapBody } from "./mapBody.ts";
import { bodyOf, freeId, freePoint, KIND_WORDS, partOf, readable } from "./parts.ts";
import { outerPoints } from "./shapePoints.ts";

export interface CopyOptions {
  readonly id?: string;
  /** own: the copy gets points of its own where the first one's stand; shared: it follows the same points. */
  readonly points: "own" | "shared";
  /** From the first one to the copy. */
  readonly shift_mm: Vec3;
}

/** The document with a copy of the part behind it in the list. Throws InputError for what a corner has once. */
export function copyPart(document: SceneDocument, id: string, options: CopyOptions): SceneDocument {
  const part = partOf(document, id);
  if (part.kind !== "body") {
    const mend =
      part.kind === "member"
        ? "a link's or arm's shape from the shelf, which holds nothing"
        : "other sizes of the one that is there";
    throw new InputError("wrong-value", { path: part.path }, `${KIND_WORDS[part.kind]} cannot be there twice`, mend);
  }
  const body = bodyOf(document, id);
  const isMade = asMade(document, body);
  const newId = options.id ?? freeId(document, id);
  const locate = locateFor(body.on, pointResolver(document));
  const points: Record<string, Vec3> = {};
  const names = new Map<string, string>();
  const ownName = (name: string): string => {
    const known = names.get(name);
    if (known !== undefined) return known;
    const tail = name.slice(name.lastIndexOf(".") + 1);
    const grown = { ...document, points: { ...document.points, ...points } };
    const own = freePoint(grown, `${newId}.${tail}`);
    names.set(name, own);
    points[own] = fine(add(locate(name, "points"), options.shift_mm));
    return own;
  };
  const ofPoint = (point: PointDocument): PointDocument => {
    if (options.points === "shared" || isVector(point)) return movedPoint(point, options.shift_mm);
    return typeof point === "string" ? ownName(point) : { ...point, from: ownName(point.from) };
  };
  outerPoints(body.shape).forEach(ofPoint);
  if (body.made) mapMade(body.made, ofPoint);
  const grown = { ...document, points: { ...document.points, ...points } };
  const copy = { ...mapBody(grown, body, ofPoint, isMade), id: newId };
  const at = document.bodies.indexOf(body) + 1;
  return readable({ ...grown, bodies: grown.bodies.toSpliced(at, 0, copy) });
}
