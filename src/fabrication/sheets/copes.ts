import { add, cross, dot, length, normalise, scale, squareTo, subtract, type Vec3 } from "../../maths/vec3.ts";

/** A round bar without end: a point of its axis, a unit vector along it. */
export interface Bar {
  readonly at: Vec3;
  readonly axis: Vec3;
  readonly radius_mm: number;
}

export interface Cope {
  /** From the point where the tube's axis ends back to its longest and its shortest generator; below nothing: beyond that point. */
  readonly longest_mm: number;
  readonly shortest_mm: number;
  /** Between the two axes, 0 to 90. */
  readonly angle_deg: number;
}

const GENERATORS = 360;

/**
 * The end of a tube of that radius, which runs along `way` (unit vector) to `end`, coped to a bar that it runs into: along each of its generators (every degree) to
 * where that first meets the bar. A generator that passes the bar goes as far as the axis. The outside of the tube counts. null: none meets.
 */
export function copeTo(bar: Bar, end: Vec3, way: Vec3, radius_mm: number): Cope | null {
  const one = squareTo(way);
  const two = cross(way, one);
  // far enough back that the bar lies ahead
  const back = bar.radius_mm + radius_mm + length(subtract(end, bar.at)) + 1;
  let longest = Number.POSITIVE_INFINITY;
  let shortest = Number.NEGATIVE_INFINITY;
  let meets = false;
  for (let i = 0; i < GENERATORS; i++) {
    const angle = (2 * Math.PI * i) / GENERATORS;
    const rim = add(end, add(scale(one, radius_mm * Math.cos(angle)), scale(two, radius_mm * Math.sin(angle))));
    const far = firstMeeting(bar, subtract(rim, scale(way, back)), way);
    const short = far === null ? 0 : back - far;
    // what is met well beyond the end is another place of the bar
    const isIt = far !== null && short > -bar.radius_mm - radius_mm;
    meets ||= isIt;
    longest = Math.min(longest, isIt ? short : 0);
    shortest = Math.max(shortest, isIt ? short : 0);
  }
  if (!meets) return null;
  const angle_deg = (Math.acos(Math.min(1, Math.abs(dot(bar.axis, way)))) * 180) / Math.PI;
  return { longest_mm: longest, shortest_mm: shortest, angle_deg };
}

/** Along a ray from outside to where it first goes into the bar; null where it never does. */
function firstMeeting({ at, axis, radius_mm }: Bar, from: Vec3, way: Vec3): number | null {
  const flat = (v: Vec3): Vec3 => subtract(v, scale(axis, dot(v, axis)));
  const [p, d] = [flat(subtract(from, at)), flat(way)];
  const a = dot(d, d);
  if (a < 1e-12) return null;
  const b = dot(p, d);
  const c = dot(p, p) - radius_mm ** 2;
  const root = b * b - a * c;
  if (root < 0) return null;
  return (-b - Math.sqrt(root)) / a;
}

/** The bar through two points. */
export function barBetween(from: Vec3, to: Vec3, radius_mm: number): Bar {
  return { at: from, axis: normalise(subtract(to, from)), radius_mm };
}
