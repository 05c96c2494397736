import { add, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { followMade } from "../parts/follow.ts";
import { isEntryRecord, pointResolver } from "../pointResolver.ts";
import { withBoltedUp } from "../points.ts";
import type { Side } from "../scene.ts";
import { placeFault, wheelCentre } from "./faults.ts";
import type { PlaceQuestion, Question, Section, Standing } from "./question.ts";

/** Stands as a point's `how` until somebody has measured it. */
export const ASSUMED = "assumed, not measured";

/** The point at that place, marked as assumed or no longer so; what else is noted of it stays. */
export function withPlace(document: SceneDocument, name: string, at: Vec3, standing: Standing): SceneDocument {
  const entry = Object.hasOwn(document.points, name) ? document.points[name]! : at;
  const { at: _, how, ...noted } = isEntryRecord(entry) ? entry : { at: entry, how: undefined };
  const kept = { ...noted, ...(how !== undefined && how !== ASSUMED ? { how } : {}) };
  const plain = Object.keys(kept).length === 0 ? at : { at, ...kept };
  const points = { ...document.points, [name]: standing === "assumed" ? { at, ...noted, how: ASSUMED } : plain };
  return withBoltedUp(followMade(document, { ...document, points }), name, null);
}

/** Whether the point still stands where it was assumed to be. */
export function isAssumedPoint(document: SceneDocument, name: string): boolean {
  const entry = Object.hasOwn(document.points, name) ? document.points[name] : undefined;
  return entry !== undefined && isEntryRecord(entry) && entry.how === ASSUMED;
}

interface PointPlan {
  readonly point: string;
  readonly section: Section;
  readonly of?: Question["of"];
  /** Usual place: from the wheel's centre, mm. */
  readonly offset_mm: Vec3;
  readonly isNeeded?: boolean;
  readonly side?: Side;
  isAsked?(document: SceneDocument): boolean;
}

/** The place of a hard point, by its own name. */
export function pointQuestion(plan: PointPlan): PlaceQuestion {
  const { point, section, of, offset_mm, isNeeded = false, side = "left", isAsked } = plan;
  return {
    kind: "place",
    id: point,
    section,
    ...(of ? { of } : {}),
    picture: { of: "place", side },
    isNeeded,
    side,
    point,
    // a member that was swapped for another since takes its questions along
    isAsked: (document) => Object.hasOwn(document.points, point) && (isAsked?.(document) ?? true),
    read: (document) =>
      Object.hasOwn(document.points, point) ? pointResolver(document).drawn(point, `points.${point}`) : null,
    usual: (document) => add(wheelCentre(document), offset_mm),
    put: (document, at, standing) => withPlace(document, point, at, standing),
    fault: (at, document) => placeFault(at, document),
  };
}
