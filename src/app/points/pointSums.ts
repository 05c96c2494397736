import type { SceneDocument } from "../../scene/document.ts";
import type { LengthReferences } from "../../scene/length.ts";
import type { Datum } from "../../scene/scene.ts";
import { pointInfos } from "./pointInfo.ts";
import { type Direction, readPlace } from "./usePointMove.ts";

/**
 * What a sum in a coordinate's field may name: every point as it is kept, read from the datum in that direction. A tried
 * move does not count, so that a sum means the same however often it is read. `from_mm` is what the field counts from.
 */
export function pointSums(
  document: SceneDocument,
  datum: Datum | null,
  direction: Direction,
  from_mm = 0,
): LengthReferences {
  const infos = pointInfos(document);
  return {
    names: infos.map(({ name }) => name),
    valueOf_mm: (name) => readPlace(infos.find((info) => info.name === name)!.place, datum)[direction] - from_mm,
  };
}
