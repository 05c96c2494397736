/** Three float64 components. Lengths are in millimetres unless a name says otherwise. */
export type Vec3 = readonly [x: number, y: number, z: number];

export const ZERO: Vec3 = [0, 0, 0];

export function add(a: Vec3, b: Vec3): Vec3 {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

export function subtract(a: Vec3, b: Vec3): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

export function scale(a: Vec3, factor: number): Vec3 {
  return [a[0] * factor, a[1] * factor, a[2] * factor];
}

export function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function length(a: Vec3): number {
  return Math.hypot(a[0], a[1], a[2]);
}

export function distance(a: Vec3, b: Vec3): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/** Unit vector along `a`; the zero vector stays zero, so callers that may meet one must ask for its length first. */
export function normalise(a: Vec3): Vec3 {
  const size = length(a);
  return size === 0 ? ZERO : scale(a, 1 / size);
}

/** a + (b − a)·t */
export function mix(a: Vec3, b: Vec3, t: number): Vec3 {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
}

/** The point's image in the car's centre plane (Y changes sign). */
export function mirror(a: Vec3): Vec3 {
  return [a[0], -a[1], a[2]];
}

/** Some unit vector square to the unit vector `axis`; which one is the same for the same axis. */
export function squareTo(axis: Vec3): Vec3 {
  const [x, y, z] = [Math.abs(axis[0]), Math.abs(axis[1]), Math.abs(axis[2])];
  const other: Vec3 = x <= y && x <= z ? [1, 0, 0] : y <= z ? [0, 1, 0] : [0, 0, 1];
  return normalise(cross(axis, other));
}
