import type { BodyDocument, PointDocument, SceneDocument } from "../document.ts";
import { type PointResolver, pointResolver } from "../pointResolver.ts";
import { mapMade } from "../recipes/makeShape.ts";
import { isAsMade, shapeOfMade } from "./follow.ts";
import { mapShape } from "./shapePoints.ts";

/** Parts on the chassis follow a mount that was bolted up elsewhere; others are drawn where they were made. */
export function locateFor(mount: string, points: PointResolver): PointResolver["drawn"] {
  return mount === "chassis" ? points.mounted : points.drawn;
}

/** A recipe goes on with its part only while it describes the shape. */
function withMade(document: SceneDocument, body: BodyDocument, was: BodyDocument): BodyDocument {
  const { made, ...rest } = body;
  if (!made || !was.made) return rest;
  return { ...rest, made, shape: shapeOfMade(document, made) };
}

export function asMade(document: SceneDocument, { shape, made }: BodyDocument): boolean {
  return made !== undefined && isAsMade(shape, made, pointResolver(document).drawn);
}

/** The body with its outermost POINTs turned into others, made anew where it is as its recipe draws it. */
export function mapBody(
  document: SceneDocument,
  body: BodyDocument,
  ofPoint: (p: PointDocument) => PointDocument,
  isMade: boolean,
) {
  const mapped = { ...body, shape: mapShape(body.shape, ofPoint) };
  if (!body.made) return mapped;
  const made = mapMade(body.made, ofPoint);
  return isMade ? withMade(document, { ...mapped, made }, body) : { ...mapped, made };
}
