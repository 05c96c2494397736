import { add, cross, dot, mirror, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Datum, Side } from "./scene.ts";

/** A place as people read it off a car. `out` is away from the car's centre plane on either side. */
export interface DatumReading {
  readonly forward_mm: number;
  readonly out_mm: number;
  readonly up_mm: number;
}

/** The car's own datum: ground, centre plane, rear axle line; forward, out, up are then X, |Y|, Z. */
const CAR: Datum = { id: "", at: [0, 0, 0], forward: [1, 0, 0], up: [0, 0, 1] };

/**
 * Reads `p` (car coordinates, mm) from a datum; null is the car's own. Datums belong to the left side; the right side is
 * read from the datum's image in the centre plane, so that equal numbers mean mirror-image places.
 */
export function toDatum(datum: Datum | null, p: Vec3, side: Side): DatumReading {
  const { at, forward, up } = datum ?? CAR;
  const from = subtract(side === "left" ? p : mirror(p), at);
  return { forward_mm: dot(from, forward), out_mm: dot(from, cross(up, forward)), up_mm: dot(from, up) };
}

/** The car coordinates, mm, of a reading: the inverse of toDatum. */
export function fromDatum(datum: Datum | null, reading: DatumReading, side: Side): Vec3 {
  const { at, forward, up } = datum ?? CAR;
  const along = add(scale(forward, reading.forward_mm), scale(up, reading.up_mm));
  const p = add(at, add(along, scale(cross(up, forward), reading.out_mm)));
  return side === "left" ? p : mirror(p);
}
