import type { Vec3 } from "../../maths/vec3.ts";
import type { BodyDocument, PointDocument, SceneDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { shortQuote } from "../path.ts";
import { pointResolver } from "../pointResolver.ts";
import { mapMade } from "../recipes/makeShape.ts";
import { fine } from "../recipes/recipe.ts";
import { shapeOfMade } from "./follow.ts";
import { asMade, locateFor } from "./mapBody.ts";
import { bodyOf, partOf, readable, withBody } from "./parts.ts";
import { mirrorShape } from "./shapePoints.ts";

/** Whether a second one stands on the right, for what rides on chassis or powertrain. */
export function withMirror(document: SceneDocument, id: string, isOnBothSides: boolean): SceneDocument {
  const body = standing(document, id);
  const { mirror: _, ...rest } = body;
  return readable(withBody(document, id, isOnBothSides ? { ...rest, mirror: true } : rest));
}

/** The part as its image on the other side of the car, fixed in space from now on: its points have no image to follow. */
export function mirrorAcross(document: SceneDocument, id: string): SceneDocument {
  const body = standing(document, id);
  const locate = locateFor(body.on, pointResolver(document));
  const place = (point: PointDocument) => locate(point, "shape");
  const image = (point: PointDocument): Vec3 => {
    const [x, y, z] = place(point);
    return fine([x, -y, z]);
  };
  const { made, ...rest } = body;
  if (made && asMade(document, body)) {
    const mirrored = mapMade(made, image, ([x, y, z]) => [x, -y + 0, z]);
    return readable(withBody(document, id, { ...rest, shape: shapeOfMade(document, mirrored), made: mirrored }));
  }
  const shape = mirrorShape(body.shape, (point) => fine(place(point)));
  if (shape === null) {
    const path = `${partOf(document, id).path}.shape`;
    throw new InputError(
      "wrong-value",
      { path },
      "a mesh file has no image in the scene",
      "a second one on the right instead",
    );
  }
  return readable(withBody(document, id, { ...rest, shape }));
}

function standing(document: SceneDocument, id: string): BodyDocument {
  const body = bodyOf(document, id);
  if (body.on === "chassis" || body.on === "powertrain") return body;
  throw new InputError(
    "wrong-value",
    { path: `${partOf(document, id).path}.on` },
    `${shortQuote(id)} rides on the corner, which stands on both sides as it is`,
    "a part of the chassis or the powertrain",
  );
}
