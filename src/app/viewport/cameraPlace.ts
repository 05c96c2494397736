import { add, cross, dot, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Stand } from "../store/state.ts";

/** Where the builder stands: what is looked at, from which direction, how far off. Azimuth from X forward to Y left, elevation above the floor. */
export interface CameraPlace {
  readonly target: Vec3;
  readonly azimuth_rad: number;
  readonly elevation_rad: number;
  readonly distance_mm: number;
}

export interface CameraFrame {
  /** Unit vectors: to the right of the picture, up the picture, towards the eye. */
  readonly right: Vec3;
  readonly up: Vec3;
  readonly back: Vec3;
  readonly eye: Vec3;
}

/** A long lens: parts keep their proportions. Vertical angle of view. */
export const LENS_DEG = 17;

const RAD = Math.PI / 180;
const STEEPEST = 89.5 * RAD;
const NEAREST_MM = 60;
const FURTHEST_MM = 40_000;

const STANDS: Readonly<Record<Stand, readonly [azimuth_deg: number, elevation_deg: number]>> = {
  behind: [174.5, 18.5],
  left: [100, 10],
  right: [-100, 10],
  above: [180, 89.5],
};

export function standDirection(stand: Stand): Pick<CameraPlace, "azimuth_rad" | "elevation_rad"> {
  const [azimuth, elevation] = STANDS[stand];
  return { azimuth_rad: azimuth * RAD, elevation_rad: elevation * RAD };
}

/** The place's angles for looking from `direction` (from what is looked at to the eye, any length). */
export function directionAngles(direction: Vec3): Pick<CameraPlace, "azimuth_rad" | "elevation_rad"> {
  const [x, y, z] = direction;
  return { azimuth_rad: Math.atan2(y, x), elevation_rad: Math.atan2(z, Math.hypot(x, y)) };
}

export function cameraFrame({ target, azimuth_rad, elevation_rad, distance_mm }: CameraPlace): CameraFrame {
  const [ca, sa] = [Math.cos(azimuth_rad), Math.sin(azimuth_rad)];
  const [ce, se] = [Math.cos(elevation_rad), Math.sin(elevation_rad)];
  const back: Vec3 = [ce * ca, ce * sa, se];
  const right: Vec3 = [-sa, ca, 0];
  return { right, up: cross(back, right), back, eye: add(target, scale(back, distance_mm)) };
}

/** Turns the eye about `pivot`, which keeps its place in the picture. */
export function orbited(place: CameraPlace, pivot: Vec3, azimuth_rad: number, elevation_rad: number): CameraPlace {
  const before = cameraFrame(place);
  const turned: CameraPlace = {
    ...place,
    azimuth_rad: place.azimuth_rad + azimuth_rad,
    elevation_rad: Math.min(STEEPEST, Math.max(-STEEPEST, place.elevation_rad + elevation_rad)),
  };
  const after = cameraFrame(turned);
  const offset = subtract(place.target, pivot);
  const target = add(
    pivot,
    add(
      scale(after.right, dot(offset, before.right)),
      add(scale(after.up, dot(offset, before.up)), scale(after.back, dot(offset, before.back))),
    ),
  );
  return { ...turned, target };
}

/** Moves the eye towards `pivot`: `factor` below 1 brings it nearer. The pivot keeps its place in the picture. */
export function zoomed(place: CameraPlace, pivot: Vec3, factor: number): CameraPlace {
  const distance = Math.min(FURTHEST_MM, Math.max(NEAREST_MM, place.distance_mm * factor));
  const real = distance / place.distance_mm;
  return { ...place, distance_mm: distance, target: add(pivot, scale(subtract(place.target, pivot), real)) };
}

/** Slides the picture by mm at the depth of what is grabbed, right and up. */
export function panned(place: CameraPlace, right_mm: number, up_mm: number): CameraPlace {
  const { right, up } = cameraFrame(place);
  return { ...place, target: subtract(place.target, add(scale(right, right_mm), scale(up, up_mm))) };
}

/** Half-way places of a camera that eases from one to the other: angles the short way round, distance by its ratio. */
export function mixedPlace(from: CameraPlace, to: CameraPlace, t: number): CameraPlace {
  const lerp = (a: number, b: number) => a + (b - a) * t;
  let turn = (to.azimuth_rad - from.azimuth_rad) % (2 * Math.PI);
  if (turn > Math.PI) turn -= 2 * Math.PI;
  if (turn < -Math.PI) turn += 2 * Math.PI;
  return {
    target: [
      lerp(from.target[0], to.target[0]),
      lerp(from.target[1], to.target[1]),
      lerp(from.target[2], to.target[2]),
    ],
    azimuth_rad: from.azimuth_rad + turn * t,
    elevation_rad: lerp(from.elevation_rad, to.elevation_rad),
    distance_mm: from.distance_mm * (to.distance_mm / from.distance_mm) ** t,
  };
}
