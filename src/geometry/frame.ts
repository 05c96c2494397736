import { cross, normalise, squareTo, subtract, type Vec3 } from "../maths/vec3.ts";

/** A right-handed set of unit axes with an origin; shapes are drawn in it and come out in car coordinates. */
export interface Frame {
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

export const CAR_FRAME: Frame = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/** A frame at `origin` whose z runs along the unit vector `z`. */
export function frameAlong(origin: Vec3, z: Vec3): Frame {
  const x = squareTo(z);
  return { origin, x, y: cross(z, x), z };
}

/** A frame at `from` whose z points at `to`. */
export function frameBetween(from: Vec3, to: Vec3): Frame {
  return frameAlong(from, normalise(subtract(to, from)));
}

export function pointIn(frame: Frame, x: number, y: number, z: number): Vec3 {
  const { origin, x: ex, y: ey, z: ez } = frame;
  return [
    origin[0] + ex[0] * x + ey[0] * y + ez[0] * z,
    origin[1] + ex[1] * x + ey[1] * y + ez[1] * z,
    origin[2] + ex[2] * x + ey[2] * y + ez[2] * z,
  ];
}
