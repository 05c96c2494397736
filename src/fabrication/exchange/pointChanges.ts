import { distance, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { listPoints } from "../../scene/points.ts";

export interface PointChange {
  readonly name: string;
  /** Car coordinates, mm; where the part is bolted up, that place. */
  readonly from: Vec3;
  readonly to: Vec3;
}

/** Farther than this is a move, mm: what is written is rounded to less. */
const SAME_mm = 1e-6;

/** Which hard points stand elsewhere in the second document, in the order of the first: those that hang on a moved one too. */
export function pointChanges(before: SceneDocument, after: SceneDocument): PointChange[] {
  const places = new Map(listPoints(after).map(({ name, at, boltedUpAt }) => [name, boltedUpAt ?? at]));
  return listPoints(before).flatMap(({ name, at, boltedUpAt }): PointChange[] => {
    const from = boltedUpAt ?? at;
    const to = places.get(name);
    return to && distance(from, to) > SAME_mm ? [{ name, from, to }] : [];
  });
}
