import type { SceneDocument } from "./document.ts";
import { childPath } from "./path.ts";
import { isEntryRecord, type PointResolver } from "./pointResolver.ts";
import type { HardPoint } from "./scene.ts";

/** All named points in the order of the file, in car coordinates, mm. Throws InputError as the resolver does. */
export function hardPoints(document: SceneDocument, { drawn, mounted }: PointResolver): Map<string, HardPoint> {
  const points = new Map<string, HardPoint>();
  for (const [name, entry] of Object.entries(document.points)) {
    const path = childPath("points", name);
    const at = drawn(name, path);
    const place = mounted(name, path);
    const { tolerance_mm = null, how = null } = isEntryRecord(entry) ? entry : {};
    points.set(name, { at, boltedUpAt: place.some((value, i) => value !== at[i]) ? place : null, tolerance_mm, how });
  }
  return points;
}
