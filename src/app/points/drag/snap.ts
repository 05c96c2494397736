import type { ModelBody } from "../../../check/model.ts";
import type { Pose } from "../../../maths/pose.ts";
import { distance, type Vec3 } from "../../../maths/vec3.ts";
import { fromDatum } from "../../../scene/datum.ts";
import type { Datum } from "../../../scene/scene.ts";
import { t } from "../../text/text.ts";
import type { Sight } from "../../viewport/sight.ts";
import { DIRECTIONS, type Direction, readPlace } from "../usePointMove.ts";
import { type Axes, type Free, inFree } from "./constrain.ts";
import { featureAt, surfaceAlong, surfaceHit } from "./surface.ts";

export type SnapKind = "points" | "mirror" | "parts";

/** A place that a dragged point may be held to. */
export interface SnapTarget {
  readonly kind: "points" | "mirror";
  /** What to call it: "upper.out". */
  readonly name: string;
  /** Where it stands now, car coordinates, mm. */
  readonly at: Vec3;
}

export interface SnapSurroundings {
  readonly targets: readonly SnapTarget[];
  /** Shown bodies that do not move with the point. */
  readonly bodies: readonly ModelBody[];
  readonly poses: ReadonlyMap<string, Pose>;
  readonly kinds: ReadonlySet<SnapKind>;
  readonly datum: Datum | null;
  /** The datum's directions as the point's own part stands now. */
  readonly axes: Axes;
  readonly sight: Sight;
  readonly reach_px: number;
}

export interface Snapped {
  readonly at: Vec3;
  /** What holds it: "on upper.out", "level with upper.out", "edge of sump"; null: nothing does. */
  readonly by: string | null;
}

/**
 * Holds a dragged place to what lies near it in the picture, in this order: other points and their mirror images, corners,
 * edges, surfaces. What may not move stays: of a target only the free directions count. `start` is where the drag began,
 * `x`, `y` where in the picture the point would be.
 */
export function snapped(at: Vec3, start: Vec3, free: Free, x: number, y: number, around: SnapSurroundings): Snapped {
  const isFree = free.size === DIRECTIONS.length;
  const hold = (target: Vec3) => inFree(target, start, free, around.axes);
  const target = nearestTarget(x, y, around);
  if (target) {
    const name = target.kind === "mirror" ? t("points.drag.mirrorOf", { point: target.name }) : target.name;
    return { at: hold(target.at), by: t(`points.drag.${isFree ? "on" : "levelWith"}`, { what: name }) };
  }
  if (!around.kinds.has("parts")) return { at, by: null };
  const hit = surfaceHit(around.bodies, around.poses, around.sight.rayAt(x, y));
  const reach_mm = around.reach_px * around.sight.mmPerPx(at);
  const feature = hit && featureAt(hit, around.poses, around.reach_px * around.sight.mmPerPx(hit.at));
  if (hit && feature) {
    const what = t(`points.drag.${feature.kind}`, { part: hit.body.id });
    return { at: hold(feature.at), by: isFree ? what : t("points.drag.levelWith", { what }) };
  }
  if (hit && isFree) return { at: hit.at, by: t("points.drag.on", { what: hit.body.id }) };
  const [only] = free.size === 1 ? free : [];
  const met = only && surfaceAlong(around.bodies, around.poses, at, around.axes[only], reach_mm);
  return met ? { at: met.at, by: t("points.drag.on", { what: met.body.id }) } : { at, by: null };
}

function nearestTarget(x: number, y: number, { targets, kinds, sight, reach_px }: SnapSurroundings): SnapTarget | null {
  let best: SnapTarget | null = null;
  let least = reach_px;
  for (const target of targets) {
    if (!kinds.has(target.kind)) continue;
    const spot = sight.project(target.at);
    const away = Math.hypot(spot.x - x, spot.y - y);
    if (away <= least) [best, least] = [target, away];
  }
  return best;
}

/** The place whose free coordinates, read from the datum, are whole steps. Car coordinates as drawn, mm. */
export function onGrid(at: Vec3, free: Free, datum: Datum | null, step_mm: number): Vec3 {
  const place = readPlace(at, datum);
  const whole = (direction: Direction) =>
    free.has(direction) ? Math.round(place[direction] / step_mm) * step_mm : place[direction];
  const [forward_mm, out_mm, up_mm] = DIRECTIONS.map(whole) as [number, number, number];
  const held = fromDatum(datum, { forward_mm, out_mm, up_mm }, "left");
  return distance(held, at) < 1e-9 ? at : held;
}
