import { placeOfShare, wayOfShare } from "../geometry/grips.ts";
import { applyPose, type Pose, turnByPose } from "../maths/pose.ts";
import { cross, distance, dot, length, mirror, subtract, type Vec3 } from "../maths/vec3.ts";
import type { DatumReading } from "../scene/datum.ts";
import { toDatum } from "../scene/datum.ts";
import type { BodyName, Measure, MeasuredLine, Spot } from "../scene/measures.ts";
import type { Datum, Scene, Side } from "../scene/scene.ts";
import { gripsOfBody } from "./bodyGrips.ts";

/** Where everything stands that a measure may be taken at. */
export interface MeasuredState {
  readonly scene: Scene;
  /** By body key, car coordinates. */
  readonly poses: ReadonlyMap<string, Pose>;
  /** Of each side by mount, car coordinates. */
  readonly mounts: ReadonlyMap<Side, ReadonlyMap<string, Pose>>;
  /** Mount by hard point (scene/pointRide.ts). */
  readonly rides: ReadonlyMap<string, string>;
}

/** Key of the model's body (ModelBody.key). */
export function bodyKeyOf({ part, piece, side }: BodyName): string {
  return `${part}${piece ? `#${piece}` : ""}${side ? `@${side}` : ""}`;
}

/** Where the place is now, car coordinates, mm; null where the scene has it no more. */
export function spotNow(spot: Spot, state: MeasuredState): Vec3 | null {
  if ("point" in spot) return pointNow(spot.point, spot.side ?? "left", state);
  const drawn = drawnPlace(spot, state);
  const pose = state.poses.get(bodyKeyOf(spot));
  return drawn && pose ? applyPose(pose, drawn) : null;
}

function pointNow(name: string, side: Side, { scene, mounts, rides }: MeasuredState): Vec3 | null {
  const point = scene.points.get(name);
  if (!point) return null;
  const ride = rides.get(name) ?? "chassis";
  const at = point.boltedUpAt ?? point.at;
  // one powertrain: its points have no image
  const place = side === "left" || ride === "powertrain" ? at : mirror(at);
  const pose = mounts.get(side)?.get(ride);
  if (pose) return applyPose(pose, place);
  return ride === "chassis" ? place : null;
}

function drawnPlace(spot: BodyName & { readonly grip: number; readonly at: Vec3 }, { scene }: MeasuredState) {
  const grip = gripsOfBody(scene, spot.part, spot.piece, spot.side)[spot.grip];
  if (!grip) return null;
  const place = placeOfShare(grip, spot.at);
  return spot.side === "right" ? mirror(place) : place;
}

/** A line where it is now, car coordinates; null where the scene has it no more. */
export function lineNow(line: MeasuredLine, state: MeasuredState): { readonly at: Vec3; readonly way: Vec3 } | null {
  const grip = gripsOfBody(state.scene, line.part, line.piece, line.side)[line.grip];
  const place = drawnPlace(line, state);
  const pose = state.poses.get(bodyKeyOf(line));
  if (!grip || !place || !pose) return null;
  const way = wayOfShare(grip, line.way);
  return { at: applyPose(pose, place), way: turnByPose(pose, line.side === "right" ? mirror(way) : way) };
}

export interface DistanceReading {
  readonly kind: "distance";
  readonly from: Vec3;
  readonly to: Vec3;
  readonly distance_mm: number;
  /**
   * From one to the other, read forward, out and up from the datum. Between places of the two sides `out_mm` is how far
   * the second lies to the left of the first: `isAcross`.
   */
  readonly way: DatumReading;
  readonly isAcross: boolean;
}

export interface AngleReading {
  readonly kind: "angle";
  readonly from: Vec3;
  readonly at: Vec3;
  readonly to: Vec3;
  /** 0 to 180; null where two of the places are one. */
  readonly angle_deg: number | null;
}

/** Between two axes, or two faces' normals, 0 to 90; between an axis and a face, how far the axis leans from the face. */
export interface LinesReading {
  readonly kind: "lines";
  readonly a: Vec3;
  readonly b: Vec3;
  readonly angle_deg: number;
}

/** The gap itself is the kernel's to tell. */
export interface GapReading {
  readonly kind: "gap";
  readonly keys: readonly [string, string];
}

export type MeasureReading = DistanceReading | AngleReading | LinesReading | GapReading;

/** The measure at the state; null where a place of it is not there any more. */
export function readMeasure(measure: Measure, state: MeasuredState, datum: Datum | null): MeasureReading | null {
  switch (measure.kind) {
    case "distance": {
      const [from, to] = [spotNow(measure.from, state), spotNow(measure.to, state)];
      if (!from || !to) return null;
      const [first, second] = [sideOf(measure.from, from), sideOf(measure.to, to)];
      const side = first === second ? first : "left";
      const [here, there] = [toDatum(datum, from, side), toDatum(datum, to, side)];
      const way = {
        forward_mm: there.forward_mm - here.forward_mm,
        out_mm: there.out_mm - here.out_mm,
        up_mm: there.up_mm - here.up_mm,
      };
      return { kind: "distance", from, to, distance_mm: distance(from, to), way, isAcross: first !== second };
    }
    case "angle": {
      const [from, at, to] = [measure.from, measure.at, measure.to].map((spot) => spotNow(spot, state));
      if (!from || !at || !to) return null;
      const [a, b] = [subtract(from, at), subtract(to, at)];
      const isNone = length(a) === 0 || length(b) === 0;
      return { kind: "angle", from, at, to, angle_deg: isNone ? null : angleBetween(a, b) };
    }
    case "lines": {
      const [a, b] = [lineNow(measure.a, state), lineNow(measure.b, state)];
      if (!a || !b) return null;
      const between = angleBetween(a.way, b.way);
      const acute = Math.min(between, 180 - between);
      return { kind: "lines", a: a.at, b: b.at, angle_deg: measure.a.is === measure.b.is ? acute : 90 - acute };
    }
    case "gap": {
      const keys = [bodyKeyOf(measure.a), bodyKeyOf(measure.b)] as const;
      return keys.every((key) => state.poses.has(key)) ? { kind: "gap", keys } : null;
    }
  }
}

/** On which side the place belongs; what stands in the car once belongs to the side where it is. */
function sideOf(spot: Spot, at: Vec3): Side {
  if ("part" in spot && spot.side) return spot.side;
  if ("point" in spot && spot.side) return spot.side;
  return at[1] >= 0 ? "left" : "right";
}

/** By the arctangent: exact also where the two run nearly alike. */
function angleBetween(a: Vec3, b: Vec3): number {
  return (Math.atan2(length(cross(a, b)), dot(a, b)) * 180) / Math.PI;
}
