import type { SceneDocument } from "../../scene/document.ts";
import { isEntryRecord, isVector } from "../../scene/pointResolver.ts";

export interface PointDetails {
  readonly tolerance_mm: number | null;
  readonly how: string | null;
}

/** The document with what is known of how a point was measured; null or "" leaves a detail out. Its place stays. */
export function withDetails(document: SceneDocument, name: string, details: PointDetails): SceneDocument {
  const entry = document.points[name];
  if (entry === undefined) return document;
  const at = isEntryRecord(entry) ? entry.at : entry;
  const how = details.how?.trim() || null;
  const record = {
    at,
    ...(details.tolerance_mm === null ? {} : { tolerance_mm: details.tolerance_mm }),
    ...(how === null ? {} : { how }),
  };
  const isBare = details.tolerance_mm === null && how === null;
  return { ...document, points: { ...document.points, [name]: isBare && isVector(at) ? at : record } };
}
