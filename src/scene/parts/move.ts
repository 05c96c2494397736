import { add, type Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../document.ts";
import { isEntryRecord, isVector } from "../pointResolver.ts";
import { namesBehind, pointUses } from "../pointUses.ts";
import { fine, movedPoint } from "../recipes/recipe.ts";
import { asMade, mapBody } from "./mapBody.ts";
import { bodyOf, readable, withBody } from "./parts.ts";
import { ownPoints } from "./remove.ts";
import { outerPoints } from "./shapePoints.ts";

/**
 * The part moved. Points that are its own go with it; from others it is set off. Throws InputError for members and units,
 * which go where their points are.
 */
export function movePart(document: SceneDocument, id: string, by: Vec3): SceneDocument {
  const body = bodyOf(document, id);
  const isMade = asMade(document, body);
  const inner = new Set(innerNames(document, id));
  const own = new Set(
    ownPoints(document, [id]).filter((name) => {
      const entry = document.points[name]!;
      return !inner.has(name) && isVector(isEntryRecord(entry) ? entry.at : entry);
    }),
  );
  const points: Record<string, SceneDocument["points"][string]> = { ...document.points };
  for (const name of own) {
    const entry = document.points[name]!;
    if (!isEntryRecord(entry)) points[name] = fine(add(entry, by));
    else if (isVector(entry.at)) points[name] = { ...entry, at: fine(add(entry.at, by)) };
  }
  const { boltedUp } = document;
  const bolted =
    boltedUp &&
    Object.fromEntries(Object.entries(boltedUp).map(([name, at]) => [name, own.has(name) ? add(at, by) : at]));
  const grown = { ...document, points, ...(bolted ? { boltedUp: bolted } : {}) };
  const ofPoint = (point: PointDocument) =>
    namesBehind(document, point).some((name) => own.has(name)) ? point : movedPoint(point, by);
  return readable(withBody(grown, id, mapBody(grown, body, ofPoint, isMade)));
}

/** Names that the part's shape uses within a placed shape, where a move of the whole must not reach. */
function innerNames(document: SceneDocument, id: string): string[] {
  const body = bodyOf(document, id);
  const outer = outerPoints(body.shape);
  return pointUses(document)
    .filter((use) => use.user === "body" && use.id === id && use.path.includes(".shape") && !outer.includes(use.point))
    .flatMap((use) => namesBehind(document, use.point));
}
