import type { Vec3 } from "../maths/vec3.ts";
import type { SceneDocument } from "./document.ts";
import { InputError } from "./error.ts";
import { hardPoints } from "./hardPoints.ts";
import { followMade } from "./parts/follow.ts";
import { shortQuote } from "./path.ts";
import { isEntryRecord, pointResolver } from "./pointResolver.ts";
import { type PointUse, usesByName } from "./pointUses.ts";
import type { HardPoint } from "./scene.ts";

/** Questions about named points and edits of them. Edits give a new document that shares all that did not change. */

export interface ListedPoint extends HardPoint {
  readonly name: string;
  /** Whether some member, damper or bar is held to the chassis here: only such a point can be bolted up elsewhere. */
  readonly isMount: boolean;
}

/** All named points in the order of the file, car coordinates, mm. Throws InputError as resolving does. */
export function listPoints(document: SceneDocument): ListedPoint[] {
  const uses = usesByName(document);
  return [...hardPoints(document, pointResolver(document))].map(([name, point]) => ({
    name,
    ...point,
    isMount: (uses.get(name) ?? []).some((use) => use.isMount),
  }));
}

/** Where the document uses the point: by its name, by `from`, or through another point that hangs on it. */
export function usersOfPoint(document: SceneDocument, name: string): readonly PointUse[] {
  return usesByName(document).get(name) ?? [];
}

export function isChassisSide(document: SceneDocument, name: string): boolean {
  return usersOfPoint(document, name).some((use) => use.isMount);
}

/**
 * Cut to suit: the point is drawn at `at` from now on and parts on it get new lengths. Where it was bolted up before is
 * forgotten. Throws InputError `missing-point` for a name that does not stand in `points`.
 */
export function withPoint(document: SceneDocument, name: string, at: Vec3): SceneDocument {
  const entry = entryOf(document, name);
  const moved = isEntryRecord(entry) ? { ...entry, at } : at;
  const after = followMade(document, { ...document, points: { ...document.points, [name]: moved } });
  return withBoltedUp(after, name, null);
}

/** Bolt up: parts keep their drawn lengths and the mount stands at `at`; null puts it back where it is drawn. */
export function withBoltedUp(document: SceneDocument, name: string, at: Vec3 | null): SceneDocument {
  entryOf(document, name);
  const { boltedUp = {}, ...rest } = document;
  if (at !== null) return { ...document, boltedUp: { ...boltedUp, [name]: at } };
  if (!Object.hasOwn(boltedUp, name)) return document;
  const { [name]: _, ...others } = boltedUp;
  return Object.keys(others).length === 0 ? rest : { ...document, boltedUp: others };
}

function entryOf(document: SceneDocument, name: string): SceneDocument["points"][string] {
  const entry = Object.hasOwn(document.points, name) ? document.points[name] : undefined;
  if (entry !== undefined) return entry;
  throw new InputError(
    "missing-point",
    { path: "points" },
    `there is no point named ${shortQuote(name)}`,
    "a name that stands in points",
  );
}
