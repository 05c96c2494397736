import type { Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "../document.ts";
import { readable } from "./parts.ts";

/** The whole powertrain's place: turned about a point (intrinsic X, Y, Z, degrees), then shifted. */
export interface PowertrainPlace {
  readonly shift_mm: Vec3;
  readonly turn_deg: Vec3;
  readonly about: PointDocument;
}

/** Engine, gearbox, sump and what else rides on the powertrain moved and tilted as one; null: as it is drawn. */
export function placePowertrain(document: SceneDocument, place: PowertrainPlace | null): SceneDocument {
  const { place: _, ...rest } = document.powertrain ?? {};
  if (place !== null) return readable({ ...document, powertrain: { place, ...rest } });
  if (Object.keys(rest).length > 0) return readable({ ...document, powertrain: rest });
  const { powertrain: __, ...others } = document;
  return readable(others);
}
